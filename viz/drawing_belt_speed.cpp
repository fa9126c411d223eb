#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "viz/drawings.hpp"
#include "viz/pens.hpp"
#include "viz/plot.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

using sim::SpeedCurve;

constexpr TextStyle quiet{.size = 22, .colour = palette::quiet, .along = Along::top};
/// Height of the key where it stands below [pixel].
constexpr double narrow_key = 300;
/// And where there is height for the covers only.
constexpr double narrow_covers = 110;

/// Dots tell computed points apart only where they do not touch.
bool dots_are_shown(const std::vector<Point>& line) {
  constexpr double apart = 30;  // [pixel]
  return line.size() > 1 &&
         line.back().x - line.front().x > apart * static_cast<double>(line.size() - 1);
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
  void draw_plots(const Box& area);
  double draw_covers(const Box& area, int columns);
  double draw_marks(const Box& area);

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
    canvas_.line(line, {pen(i).colour, 5, pen(i).dash});
    // The curve is computed there and nowhere else: what lies between is drawn straight.
    for (const Point& p : dots_are_shown(line) ? line : std::vector<Point>{})
      canvas_.fill({p.x - 6, p.y - 6, p.x + 6, p.y + 6}, pen(i).colour);
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

/// One entry per cover: its line, its name, its critical speed. @return height used.
double SpeedDrawing::draw_covers(const Box& area, int columns) {
  const TextStyle name{.size = 28, .bold = true, .along = Along::top};
  const double step = area.width() / columns;
  const double line = std::min(84.0, 0.18 * step);
  constexpr double height = 90;
  for (std::size_t i = 0; i < curves_.size(); ++i) {
    const double left =
        area.left + step * static_cast<double>(i % static_cast<std::size_t>(columns));
    const double y = area.top - height * static_cast<double>(i / static_cast<std::size_t>(columns));
    canvas_.line({left, y - 15}, {left + line, y - 15}, {pen(i).colour, 6, pen(i).dash});
    canvas_.text({left + line + 12, y}, curves_[i]->cover, name);
    const auto& critical = curves_[i]->critical_speed;
    canvas_.text({left + line + 12, y - 38},
                 critical ? fmt::format("critical {:.1f} m/s", metres(*critical))
                          : std::string("no critical speed found"),
                 quiet);
  }
  return height * std::ceil(static_cast<double>(curves_.size()) / columns);
}

/// What the marks mean and what is held equal. @return height used.
double SpeedDrawing::draw_marks(const Box& area) {
  constexpr double inset = 62;
  double y = area.top;
  canvas_.triangle({area.left + 10, y - 2}, {area.left + 34, y - 2}, {area.left + 22, y - 20},
                   palette::quiet);
  y -= canvas_.paragraph({area.left + inset, y}, area.width() - inset,
                         "critical speed: waves in cover and belt keep up with the nip. Theory, no "
                         "measured onset",
                         quiet);
  y -= 12;
  canvas_.line({area.left + 22, y}, {area.left + 22, y - 28}, {palette::ink, 2, 0});
  y -= canvas_.paragraph({area.left + inset, y - 3}, area.width() - inset,
                         fmt::format("this case, {:.4g} m/s", metres(study_.belt_speed)), quiet);
  y -= 18;
  y -=
      canvas_.paragraph({area.left, y}, area.width(),
                        fmt::format("Squares: speeds that were computed. Held equal: {}. Burr: {}. "
                                    "Model: {}.",
                                    study_.held, study_.burr, study_.model),
                        quiet);
  return area.top - y;
}

void SpeedDrawing::draw_plots(const Box& area) {
  constexpr double left = 132;
  const Range x = speeds();
  const double split = area.bottom + 82 + 0.48 * (area.height() - 82);
  const Plot upper({area.left + left, split + 34, area.right, area.top - 26}, x,
                   {0, 1.12 * highest(&SpeedCurve::burr_pressure)});
  draw_plot(upper, &SpeedCurve::burr_pressure, "burr [MPa]");
  const Plot lower({area.left + left, area.bottom + 82, area.right, split - 18}, x,
                   {0, 1.12 * highest(&SpeedCurve::face_pressure)});
  lower.axis_below(canvas_, "belt speed [m/s]", area.width() < 700 ? 5 : 8);
  draw_plot(lower, &SpeedCurve::face_pressure, "face [MPa]");
}

void SpeedDrawing::draw(const Box& area) {
  if (area.width() >= narrow_drawing) {
    constexpr double key_width = 400;
    draw_plots({area.left, area.bottom, area.right - key_width - 40, area.top});
    const Box key{area.right - key_width, area.bottom, area.right, area.top - 20};
    canvas_.text({key.left, key.top}, "drum cover", quiet);
    const double used = draw_covers({key.left, key.bottom, key.right, key.top - 40}, 1);
    draw_marks({key.left, key.bottom, key.right, key.top - 50 - used});
    return;
  }
  const bool all = area.height() > 0.5 * area.width() + narrow_key;
  const double below = all ? narrow_key : narrow_covers;
  draw_plots({area.left, area.bottom + below, area.right, area.top});
  const Box key{area.left, area.bottom, area.right, area.bottom + below - 12};
  const double used = draw_covers(key, 3);
  if (all) draw_marks({key.left, key.bottom, key.right, key.top - used});
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

std::string shows(const sim::SpeedStudy& study) {
  std::string text = "Burr pressure above and face pressure below over belt speed.";
  for (const SpeedCurve* curve : whole_curves(study)) {
    text += fmt::format(" {}: burr {:.2f} to {:.2f} MPa", curve->cover,
                        curve->burr_pressure.front(), curve->burr_pressure.back());
    text += fmt::format(", face {:.3f} to {:.3f} MPa from {:.0f} to {:.0f} m/s.",
                        curve->face_pressure.front(), curve->face_pressure.back(),
                        metres(curve->speed.front()), metres(curve->speed.back()));
  }
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
           .paint = [&study](Canvas& canvas,
                             const Box& area) { SpeedDrawing(canvas, study).draw(area); },
           .height =
               [](double width) {
                 return width < narrow_drawing ? 0.72 * width + narrow_key : 0.58 * width;
               },
           .shows = shows(study)}};
}

}  // namespace drumlin::viz
