#include "viz/pass_drawing.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include <fmt/format.h>

#include "viz/layers.hpp"
#include "viz/moment_facts.hpp"
#include "viz/section_view.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

constexpr double sheet_wide = 640;  // [pixel]
constexpr double sheet_high = 720;  // [pixel]
constexpr Box section_box{96, 284, sheet_wide - 8, sheet_high - 70};
constexpr Box pressure_box{96, 78, sheet_wide - 8, 270};

/// The two plots of a view, which all its moments share.
struct Scales {
  Plot section;
  Plot pressure;
  double heights = 1;
};

/// Height scale: a whole factor over the length scale, so that `wanted` fills the panel.
Scales scales(const Range& x, double wanted, double face_share, double pressure) {
  const double per_mm = section_box.width() / x.width();
  const double heights = std::max(1.0, std::floor(section_box.height() / wanted / per_mm));
  const double shown = section_box.height() / (per_mm * heights);
  return {Plot(section_box, x, {-face_share * shown, (1 - face_share) * shown}),
          Plot(pressure_box, x, {0, pressure}), heights};
}

/// The range between the display points just inside it, so that what is drawn reaches both ends.
Range snapped(std::span<const double> x, const Range& range) {
  const auto low = std::lower_bound(x.begin(), x.end(), range.low);
  const auto high = std::upper_bound(x.begin(), x.end(), range.high);
  if (low == x.end() || high == x.begin() || *low >= *(high - 1)) return range;
  return {*low, *(high - 1)};
}

class Pass {
 public:
  Pass(const sim::SectionRecord& section, const std::vector<sim::DrumShape>& drums,
       const std::vector<std::size_t>& frames)
      : section_(section), drums_(drums), frames_(frames) {}

  [[nodiscard]] const sim::SectionEdge* edge() const;
  [[nodiscard]] PassView whole(const std::string& id) const;
  [[nodiscard]] PassView close(const sim::SectionEdge& edge, const std::string& id) const;

 private:
  [[nodiscard]] const sim::Frame& frame(std::size_t i) const { return section_.frames[frames_[i]]; }
  [[nodiscard]] const sim::DrumShape& drum(const sim::Frame& frame) const {
    return drums_[static_cast<std::size_t>(frame.station)];
  }
  void draw_moment(PassView& view, const Scales& scales, const std::string& id) const;
  void draw_cover(Canvas& canvas, const Plot& plot, const sim::Frame& frame) const;
  void draw_pressure(Canvas& canvas, const Plot& plot, const sim::Frame& frame) const;
  void draw_under(PassView& view, const Scales& scales, const std::string& id) const;

  const sim::SectionRecord& section_;
  const std::vector<sim::DrumShape>& drums_;
  const std::vector<std::size_t>& frames_;
};

const sim::SectionEdge* Pass::edge() const {
  const auto telling = static_cast<std::size_t>(std::max(0, section_.telling_frame));
  return telling < section_.frames.size() ? busiest_edge(section_, section_.frames[telling])
                                          : nullptr;
}

void Pass::draw_cover(Canvas& canvas, const Plot& plot, const sim::Frame& frame) const {
  const std::vector<double> outline = drum_outline(section_.x, frame, drum(frame));
  const double more = 0.05 * plot.x().width();
  std::vector<Point> lower;
  std::vector<Point> upper;
  for (std::size_t i = 0; i < section_.x.size(); ++i) {
    const double x = section_.x[i];
    if (x < plot.x().low - more || x > plot.x().high + more || !std::isfinite(outline[i])) continue;
    const double z = std::min(outline[i], plot.y().high + 0.1 * plot.y().width());
    lower.push_back(plot.at(x, z));
    upper.push_back(plot.at(x, plot.y().high + 0.1 * plot.y().width()));
  }
  canvas.fill_between(lower, upper, palette::cover);
  canvas.line(lower, {palette::belt, 7, 0});
}

void Pass::draw_pressure(Canvas& canvas, const Plot& plot, const sim::Frame& frame) const {
  const double more = 0.03 * plot.x().width();
  const Range range{plot.x().low - more, plot.x().high + more};
  for (const Piece& piece : metal_pieces(section_.x, frame.surface, range)) {
    std::vector<Point> base;
    std::vector<Point> line;
    for (std::size_t i = piece.first; i <= piece.last; ++i) {
      // The neighbours of the contact are kept, so that the curve begins and ends on the axis.
      const auto presses = [&](std::size_t k) { return frame.pressure[k] > 0; };
      const bool near =
          presses(i) || (i > piece.first && presses(i - 1)) || (i < piece.last && presses(i + 1));
      if (!near) continue;
      base.push_back(plot.at(section_.x[i], 0));
      line.push_back(plot.at(section_.x[i], std::min(frame.pressure[i], 1.2 * plot.y().high)));
    }
    if (base.empty()) continue;
    canvas.fill_between(base, line, palette::face.faded(110));
    canvas.line(base.front(), line.front(), {palette::face, 3, 0});
    canvas.line(line, {palette::face, 3, 0});
    canvas.line(line.back(), base.back(), {palette::face, 3, 0});
  }
}

/// What was there before the first pass, in the colour of what is worn away; every moment covers
/// what is left of it.
void Pass::draw_under(PassView& view, const Scales& scales, const std::string& id) const {
  SvgCanvas canvas(sheet_wide, sheet_high, id + "-under");
  const std::vector<double> nothing(section_.x.size(), std::nan(""));
  canvas.clip(scales.section.area());
  fill_worn(canvas, scales.section, section_.x, section_.before, section_.before_underside, nothing,
            palette::worn);
  canvas.clip({});
  const bool wide = scales.section.x().width() > 8;
  scales.pressure.axis_below(canvas, "along the feed [mm]", wide ? 6 : 4);
  scales.pressure.axis_left(canvas, "pressure [MPa]", 3);
  const auto clip = [&](const char* name, const Box& box) {
    return fmt::format(
        "<clipPath id=\"{}-{}\"><rect x=\"{:g}\" y=\"{:g}\" width=\"{:g}\" "
        "height=\"{:g}\"/></clipPath>\n",
        id, name, box.left, sheet_high - box.top, box.width(), box.height());
  };
  view.under = clip("s", section_box) + clip("p", pressure_box) + canvas.shapes();
}

void Pass::draw_moment(PassView& view, const Scales& scales, const std::string& id) const {
  for (std::size_t i = 0; i < frames_.size(); ++i) {
    const sim::Frame& now = frame(i);
    SvgCanvas section(sheet_wide, sheet_high, id);
    draw_cover(section, scales.section, now);
    fill_layers(section, scales.section, section_.x, now.surface, now.coating, now.underside);
    const Point axis = scales.section.at(now.drum_x, 0);
    const Stroke thin{palette::ink, 2, 9};
    section.line({axis.x, section_box.bottom}, {axis.x, section_box.top}, thin);
    SvgCanvas pressure(sheet_wide, sheet_high, id);
    draw_pressure(pressure, scales.pressure, now);
    view.moments.push_back(
        fmt::format("<g clip-path=\"url(#{0}-s)\">\n{1}</g>\n<g clip-path=\"url(#{0}-p)\">\n{2}"
                    "</g>\n",
                    id, section.shapes(), pressure.shapes()));
  }
}

/// Frames and words over every moment.
void label(Canvas& canvas, const Scales& scales, const std::string& what, const std::string& more) {
  canvas.frame(section_box, {palette::ink, 2, 0});
  canvas.frame(pressure_box, {palette::ink, 2, 0});
  const double left = section_box.left + 12;
  canvas.text({section_box.left, section_box.top + 39}, what, {.size = 25, .bold = true});
  canvas.text({section_box.left, section_box.top + 10}, more, {.size = 22});
  canvas.text({left, section_box.bottom + 12},
              scales.heights > 1 ? fmt::format("heights drawn {:g} times", scales.heights)
                                 : std::string("heights to scale"),
              {.size = 21, .halo = true});
}

PassView Pass::whole(const std::string& id) const {
  constexpr double face_share = 0.36;  // of the panel lies below z = 0
  double low = section_.x.back();
  double high = section_.x.front();
  double half = 1;
  double deepest = 0;
  double face = 0;
  double peak = 1e-6;
  double radius = 1;
  for (std::size_t i = 0; i < frames_.size(); ++i) {
    const sim::Frame& now = frame(i);
    low = std::min(low, now.drum_x);
    high = std::max(high, now.drum_x);
    const Range touch = contact(section_, now);
    half = std::max({half, touch.high - now.drum_x, now.drum_x - touch.low});
    deepest = std::max(deepest, drum(now).interference);
    radius = std::max(radius, drum(now).radius);
    face = std::max(face, face_pressure(section_, now).value);
    peak = std::max(peak, highest_pressure(now));
  }
  const Range x = snapped(section_.x, {low - 1.2 * half, high + 1.2 * half});
  const double away = 1.6 * half;
  const double rise = std::max(0.1, away * away / (2 * radius) - deepest);
  const double wanted = std::max({1.6 * rise, 1.5 * deepest / face_share, 0.3});
  const bool cut = face > 0.01 * peak && peak > 2.5 * face;
  const Scales fixed = scales(x, wanted, face_share, cut ? 1.9 * face : 1.2 * peak);
  PassView view{sheet_wide, sheet_high, fixed.heights, "", {}, ""};
  draw_under(view, fixed, id);
  draw_moment(view, fixed, id);
  SvgCanvas over(sheet_wide, sheet_high, id + "-over");
  label(over, fixed, "drum, cover and part", "dashed: axis of the drum");
  if (cut)
    over.text({pressure_box.left + 12, pressure_box.top - 10},
              "edges leave this scale: see close-up",
              {.size = 20, .colour = palette::quiet, .along = Along::top, .halo = true});
  view.over = over.shapes();
  return view;
}

PassView Pass::close(const sim::SectionEdge& edge, const std::string& id) const {
  const double root = std::max(edge.burr_root, 0.1);
  const double inside = std::clamp(7 * root, 0.8, 3.0);
  const double outside = 0.45 * inside;
  const Range x = snapped(section_.x, {edge.x - (edge.metal > 0 ? outside : inside),
                                       edge.x + (edge.metal > 0 ? inside : outside)});
  double peak = 1e-6;
  for (std::size_t i = 0; i < frames_.size(); ++i)
    for (std::size_t k = 0; k < section_.x.size(); ++k)
      if (x.holds(section_.x[k])) peak = std::max(peak, frame(i).pressure[k]);
  const double high = std::max(1.35 * edge.burr_height, 0.05);
  const Scales fixed = scales(x, 2.6 * (high + 0.05), 0.45, 1.15 * peak);
  PassView view{sheet_wide, sheet_high, fixed.heights, "", {}, ""};
  draw_under(view, fixed, id);
  draw_moment(view, fixed, id);
  SvgCanvas over(sheet_wide, sheet_high, id + "-over");
  over.clip(fixed.section.area());
  draw_burr_before(over, fixed.section, section_, edge);
  over.clip({});
  label(over, fixed, "close-up: " + edge.feature,
        edge.burr_height > 0 ? "dashed: burr before" : "no burr at this edge");
  view.over = over.shapes();
  return view;
}

}  // namespace

PassDrawing pass_drawing(const sim::SectionRecord& section,
                         const std::vector<sim::DrumShape>& drums,
                         const std::vector<std::size_t>& frames, const std::string& id) {
  const Pass pass(section, drums, frames);
  PassDrawing drawing{
      .frames = frames, .whole = pass.whole(id + "-whole"), .close = {}, .edge = ""};
  if (const sim::SectionEdge* edge = pass.edge()) {
    drawing.edge = edge->feature;
    drawing.close = pass.close(*edge, id + "-close");
  }
  return drawing;
}

}  // namespace drumlin::viz
