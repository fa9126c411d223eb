#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "viz/drawings.hpp"
#include "viz/plot.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

using sim::SpeedCurve;

/// Colour and dash of a cover: each alone tells the covers apart.
struct Pen {
  Colour colour;
  double dash;
};
constexpr auto pens = std::to_array<Pen>({{palette::burr, 0},
                                          {palette::face, 26},
                                          {palette::coating, 9},
                                          {palette::belt, 0},
                                          {palette::quiet, 14}});

const Pen& pen(std::size_t i) {
  return pens.at(i % pens.size());
}

double metres(double mm) {
  return mm * 1e-3;
}

/// Where a list of values stands at a speed; none outside the curve.
std::optional<double> value_at(const SpeedCurve& curve, const std::vector<double>& values,
                               double speed) {
  for (std::size_t i = 0; i + 1 < curve.speed.size(); ++i) {
    if (speed < curve.speed[i] || speed > curve.speed[i + 1]) continue;
    const double share = (speed - curve.speed[i]) / (curve.speed[i + 1] - curve.speed[i]);
    return values[i] + share * (values[i + 1] - values[i]);
  }
  return std::nullopt;
}

bool is_whole(const SpeedCurve& curve) {
  const std::size_t n = curve.speed.size();
  return n > 1 && curve.face_pressure.size() == n && curve.burr_pressure.size() == n;
}

std::vector<const SpeedCurve*> whole_curves(const sim::SpeedStudy& study) {
  std::vector<const SpeedCurve*> curves;
  for (const SpeedCurve& curve : study.curves)
    if (is_whole(curve)) curves.push_back(&curve);
  return curves;
}

/// Burr pressure over belt speed above, face pressure below, one line per cover.
class SpeedDrawing {
 public:
  SpeedDrawing(Canvas& canvas, const sim::SpeedStudy& study)
      : canvas_(canvas), study_(study), curves_(whole_curves(study)) {}

  void draw(const Box& area);

 private:
  using Values = std::vector<double> SpeedCurve::*;
  [[nodiscard]] Range speeds() const;
  [[nodiscard]] double highest(Values values) const;
  void draw_plot(const Plot& plot, Values values, const char* title);
  void draw_key(const Box& area);

  Canvas& canvas_;
  const sim::SpeedStudy& study_;
  std::vector<const SpeedCurve*> curves_;
};

Range SpeedDrawing::speeds() const {
  Range range{metres(curves_.front()->speed.front()), metres(curves_.front()->speed.back())};
  for (const SpeedCurve* curve : curves_) {
    range.low = std::min(range.low, metres(curve->speed.front()));
    range.high = std::max(range.high, metres(curve->speed.back()));
  }
  return range;
}

double SpeedDrawing::highest(Values values) const {
  double most = 0;
  for (const SpeedCurve* curve : curves_)
    for (const double value : curve->*values)
      if (std::isfinite(value)) most = std::max(most, value);
  return most > 0 ? most : 1;
}

void SpeedDrawing::draw_plot(const Plot& plot, Values values, const char* title) {
  plot.axis_left(canvas_, title, 4);
  canvas_.clip(plot.area());
  for (std::size_t i = 0; i < curves_.size(); ++i) {
    const SpeedCurve& curve = *curves_[i];
    if (curve.critical_speed && plot.x().holds(metres(*curve.critical_speed))) {
      const double x = metres(*curve.critical_speed);
      canvas_.line(plot.at(x, plot.y().low), plot.at(x, plot.y().high),
                   {pen(i).colour.faded(150), 3, 6});
    }
    std::vector<Point> line;
    for (std::size_t k = 0; k < curve.speed.size(); ++k)
      if (std::isfinite((curve.*values)[k]))
        line.push_back(plot.at(metres(curve.speed[k]), (curve.*values)[k]));
    canvas_.line(line, {pen(i).colour, 6, pen(i).dash});
  }
  canvas_.clip({});
  for (std::size_t i = 0; i < curves_.size(); ++i) {
    const auto& critical = curves_[i]->critical_speed;
    if (!critical || !plot.x().holds(metres(*critical))) continue;
    const Point top = plot.at(metres(*critical), plot.y().high);
    canvas_.triangle({top.x - 12, top.y + 18}, {top.x + 12, top.y + 18}, top, pen(i).colour);
  }
  if (plot.x().holds(metres(study_.belt_speed))) {
    const double x = metres(study_.belt_speed);
    canvas_.line(plot.at(x, plot.y().low), plot.at(x, plot.y().high), {palette::ink, 2, 0});
  }
  canvas_.frame(plot.area(), {palette::ink, 2, 0});
}

/// One entry per cover: its line, its name, its critical speed; then what the marks mean.
void SpeedDrawing::draw_key(const Box& area) {
  const TextStyle name{.size = 28, .bold = true, .along = Along::top};
  const TextStyle quiet{.size = 22, .colour = palette::quiet, .along = Along::top};
  double y = area.top;
  canvas_.text({area.left, y}, "drum cover", quiet);
  y -= 40;
  for (std::size_t i = 0; i < curves_.size(); ++i) {
    canvas_.line({area.left, y - 15}, {area.left + 84, y - 15}, {pen(i).colour, 6, pen(i).dash});
    canvas_.text({area.left + 100, y}, curves_[i]->cover, name);
    y -= 38;
    const auto& critical = curves_[i]->critical_speed;
    canvas_.text({area.left + 100, y},
                 critical ? fmt::format("critical {:.1f} m/s", metres(*critical))
                          : std::string("no critical speed found"),
                 quiet);
    y -= 52;
  }
  canvas_.triangle({area.left + 30, y - 4}, {area.left + 54, y - 4}, {area.left + 42, y - 22},
                   palette::quiet);
  y -= canvas_.paragraph({area.left + 100, y}, area.width() - 100,
                         "critical speed: waves in cover and belt keep up with the nip. Theory, no "
                         "measured onset",
                         quiet);
  y -= 22;
  canvas_.line({area.left + 42, y - 2}, {area.left + 42, y - 40}, {palette::ink, 2, 0});
  y -= canvas_.paragraph({area.left + 100, y}, area.width() - 100,
                         fmt::format("this case, {:.4g} m/s", metres(study_.belt_speed)), quiet);
  y -= 40;
  canvas_.paragraph(
      {area.left, y}, area.width(),
      fmt::format("Held equal: {}. Burr: {}. Model: {}.", study_.held, study_.burr, study_.model),
      quiet);
}

void SpeedDrawing::draw(const Box& area) {
  constexpr double left = 132;
  constexpr double key_width = 400;
  const Range x = speeds();
  const double right = area.right - key_width - 40;
  const double split = area.bottom + 82 + 0.48 * (area.height() - 82);
  const Plot upper({area.left + left, split + 34, right, area.top - 26}, x,
                   {0, 1.12 * highest(&SpeedCurve::burr_pressure)});
  draw_plot(upper, &SpeedCurve::burr_pressure, "burr pressure [MPa]");
  const Plot lower({area.left + left, area.bottom + 82, right, split - 18}, x,
                   {0, 1.12 * highest(&SpeedCurve::face_pressure)});
  lower.axis_below(canvas_, "belt speed [m/s]", 8);
  draw_plot(lower, &SpeedCurve::face_pressure, "face pressure [MPa]");
  draw_key({area.right - key_width, area.bottom, area.right, area.top - 20});
}

/// Share by which a pressure has changed from the lowest speed to the case's own.
std::optional<double> change(const SpeedCurve& curve, double belt_speed,
                             std::vector<double> SpeedCurve::*values) {
  const double first = (curve.*values).front();
  const auto here = value_at(curve, curve.*values, belt_speed);
  if (!here || !(first > 0)) return std::nullopt;
  return *here / first - 1;
}

std::string why(const sim::SpeedStudy& study) {
  const std::vector<const SpeedCurve*> curves = whole_curves(study);
  const SpeedCurve& soft = *curves.front();
  const SpeedCurve& hard = *curves.back();
  std::string text;
  if (soft.critical_speed && hard.critical_speed && *soft.critical_speed < *hard.critical_speed)
    text = fmt::format(
        "Waves run at {:.0f} m/s in the {} cover and at {:.0f} m/s in the {} one. A belt that "
        "comes "
        "near them leaves the cover no time to push back: soft drums want slow belts. ",
        metres(*soft.critical_speed), soft.cover, metres(*hard.critical_speed), hard.cover);
  const auto softened = change(soft, study.belt_speed, &SpeedCurve::face_pressure);
  const auto hardened = change(hard, study.belt_speed, &SpeedCurve::face_pressure);
  if (softened && hardened)
    text += fmt::format(
        "From {:.3g} to {:.3g} m/s the face pressure changes by {:+.0f}\u00a0% under {} and by "
        "{:+.0f} "
        "% "
        "under {}: rubber stiffens with rate, its mass works against it.",
        metres(soft.speed.front()), metres(study.belt_speed), 100 * *softened, soft.cover,
        100 * *hardened, hard.cover);
  return text;
}

}  // namespace

std::vector<Drawing> belt_speed_drawings(const sim::Result& result) {
  if (!result.speed_study) return {};
  const sim::SpeedStudy& study = *result.speed_study;
  if (std::none_of(study.curves.begin(), study.curves.end(), is_whole)) return {};
  return {{.file = "belt-speed",
           .what = "pressure over belt speed",
           .setup = setup_text(result, 0),
           .why = why(study),
           .paint = [&study](Canvas& canvas, const Box& area) {
             SpeedDrawing(canvas, study).draw(area);
           }}};
}

}  // namespace drumlin::viz
