#include "viz/profile_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "viz/layers.hpp"
#include "viz/plot.hpp"
#include "viz/section_view.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

constexpr TextStyle label{.size = 25, .bold = true};

/// One drawing of one edge; distances along the part count from the edge line into the metal.
class ProfileDrawing {
 public:
  ProfileDrawing(Canvas& canvas, const Box& area, const sim::Result& result,
                 const sim::SectionRecord& section, const sim::SectionEdge& edge)
      : canvas_(canvas),
        result_(result),
        section_(section),
        edge_(edge),
        plot_(scaled(area, section, edge)) {}

  void draw();

 private:
  static Plot scaled(const Box& area, const sim::SectionRecord& section,
                     const sim::SectionEdge& edge);
  void draw_layers();
  void draw_before();
  void mark_burr();
  void mark_drop();
  void mark_removal();
  void mark_coating();
  void mark_scale();
  /// Place of a point that lies `depth` inside the metal and at height z.
  [[nodiscard]] Point in_metal(double depth, double z) const {
    return plot_.at(edge_.x + edge_.metal * depth, z);
  }
  /// Alignment of a text that starts at a point and runs into the metal's direction.
  [[nodiscard]] Across inwards() const { return edge_.metal > 0 ? Across::left : Across::right; }
  [[nodiscard]] Across outwards() const { return edge_.metal > 0 ? Across::right : Across::left; }
  [[nodiscard]] double reach() const {
    return edge_.metal > 0 ? plot_.x().high - edge_.x : edge_.x - plot_.x().low;
  }
  [[nodiscard]] double coating_depth() const;
  /// What lies beyond the edge line.
  [[nodiscard]] std::string beyond_edge() const {
    const sim::FeatureResult* feature = feature_named(result_, edge_.feature);
    const bool opening = feature != nullptr && (feature->kind == "hole" || feature->kind == "slot");
    return opening ? feature->kind : "air";
  }
  [[nodiscard]] bool at_edge(std::size_t i) const {
    constexpr double near = 0.05;  // [mm] coarser than the display points at an edge
    return std::abs(section_.x[i] - edge_.x) < near;
  }
  /// Display points need not lie on the edge line itself: the nearest one with metal counts.
  [[nodiscard]] std::optional<double> edge_height() const {
    for (const double depth : {0.0, 0.002, 0.005, 0.01, 0.02, 0.05})
      if (const auto height = after(depth)) return height;
    return {};
  }
  [[nodiscard]] double coating(double depth) const {
    return value_at(section_.x, section_.after_coating, edge_.x + edge_.metal * depth)
        .value_or(0.0);
  }
  [[nodiscard]] std::optional<double> after(double depth) const {
    return value_at(section_.x, section_.after, edge_.x + edge_.metal * depth);
  }

  Canvas& canvas_;
  const sim::Result& result_;
  const sim::SectionRecord& section_;
  const sim::SectionEdge& edge_;
  Plot plot_;
};

/// Round factors only, so that the reader can divide in the head.
double round_factor(double factor) {
  constexpr std::array factors{1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 8.0, 10.0, 15.0, 20.0};
  double best = 1;
  for (const double candidate : factors)
    if (candidate <= factor) best = candidate;
  return best;
}

Plot ProfileDrawing::scaled(const Box& area, const sim::SectionRecord& section,
                            const sim::SectionEdge& edge) {
  constexpr double outside_share = 0.34;
  const double inside = std::clamp(8 * edge.burr_root, 1.0, 4.0);  // [mm]
  const auto range_of = [&](double depth) {
    const double a = edge.x + edge.metal * depth;
    const double b = edge.x - edge.metal * depth * outside_share;
    return Range{std::min(a, b), std::max(a, b)};
  };
  Range x = range_of(inside);
  const Range before = extent(section.x, section.before, x).value_or(Range{0, 0});
  const Range after = extent(section.x, section.after, x).value_or(Range{0, 0});
  const double coating = extent(section.x, section.before_coating, x).value_or(Range{0, 0}).high;
  Range z{std::min(after.low, 0.0) - std::max(1.6 * coating, 0.03),
          std::max({before.high, after.high, 0.02})};
  const double height = z.width();
  z = {z.low - 0.30 * height, z.high + 0.12 * height};  // room for labels in and over the metal
  double factor = area.height() / z.width() / (area.width() / x.width());
  if (factor < 1) {
    x = range_of(inside / factor);
    factor = 1;
  }
  factor = round_factor(factor);
  const double shown = area.height() / (area.width() / x.width()) / factor;
  z.low = z.high - shown;
  return {area, x, z};
}

void ProfileDrawing::draw_layers() {
  canvas_.clip(plot_.area());
  fill_worn(canvas_, plot_, section_.x, section_.before, section_.before_underside, section_.after,
            palette::worn);
  fill_layers(canvas_, plot_, section_.x, section_.after, section_.after_coating,
              section_.after_underside);
  canvas_.clip({});
}

void ProfileDrawing::draw_before() {
  canvas_.clip(plot_.area());
  for (const Piece& piece : metal_pieces(section_.x, section_.before, plot_.x())) {
    const double low = std::min(0.0, edge_height().value_or(0.0));
    std::vector<Point> line;
    if (at_edge(piece.first)) line.push_back(plot_.at(section_.x[piece.first], low));
    for (std::size_t i = piece.first; i <= piece.last; ++i)
      line.push_back(plot_.at(section_.x[i], section_.before[i]));
    if (at_edge(piece.last)) line.push_back(plot_.at(section_.x[piece.last], low));
    canvas_.line(line, {palette::burr, 4, 14});
  }
  canvas_.clip({});
}

void ProfileDrawing::mark_burr() {
  const double way = edge_.metal > 0 ? 1 : -1;
  const Point key{in_metal(0, 0).x - way * 22, plot_.area().top - 8};
  canvas_.text(key, "dashed: before",
               {.size = 24,
                .colour = palette::burr,
                .bold = true,
                .across = outwards(),
                .along = Along::top});
  canvas_.text({key.x, key.y - 34}, "tan: worn away",
               {.size = 24, .colour = palette::quiet, .across = outwards(), .along = Along::top});
  if (edge_.burr_height <= 0) return;
  // A bead is round: its flank is half way down there.
  const bool bead = edge_.burr == "bead";
  const Point tip =
      in_metal(edge_.burr_root * (bead ? 0.9 : 1.05), edge_.burr_height * (bead ? 0.45 : 0.8));
  canvas_.arrow({tip.x + way * 70, tip.y}, tip, {palette::burr, 3, 0});
  canvas_.text({tip.x + way * 80, tip.y}, "burr before: " + length_text(edge_.burr_height),
               {.size = 25,
                .colour = palette::burr,
                .bold = true,
                .across = inwards(),
                .along = Along::middle});
}

void ProfileDrawing::mark_drop() {
  const sim::FeatureResult* feature = feature_named(result_, edge_.feature);
  if (feature == nullptr || !feature->edge_drop) return;
  const double drop = feature->edge_drop->value;
  const double face = -section_.face_removal;
  const double height = face - drop;
  const double away = -0.06 * reach();
  const Point upper = in_metal(away, face);
  const Point lower = in_metal(away, height);
  canvas_.line(in_metal(-0.10 * reach(), face), in_metal(reach(), face), {palette::ink, 2, 9});
  canvas_.line(in_metal(-0.10 * reach(), height), in_metal(0.0, height), {palette::ink, 2, 9});
  if (upper.y - lower.y > 34) {
    canvas_.arrow({upper.x, (upper.y + lower.y) / 2}, upper, {palette::ink, 3, 0});
    canvas_.arrow({upper.x, (upper.y + lower.y) / 2}, lower, {palette::ink, 3, 0});
  } else {
    canvas_.arrow({upper.x, upper.y + 44}, upper, {palette::ink, 3, 0});
    canvas_.arrow({lower.x, lower.y - 44}, lower, {palette::ink, 3, 0});
  }
  const double way = edge_.metal > 0 ? -1 : 1;
  const double middle = (upper.y + lower.y) / 2;
  const double beside = in_metal(-0.10 * reach(), face).x + way * 12;
  TextStyle style = label;
  style.across = outwards();
  canvas_.text({beside, middle + 2}, "edge drop", style);
  style.along = Along::top;
  canvas_.text({beside, middle - 2}, length_text(drop), style);
}

void ProfileDrawing::mark_removal() {
  const double depth = 0.8 * reach();
  const Point upper = in_metal(depth, 0);
  const Point lower = in_metal(depth, -section_.face_removal);
  canvas_.arrow({upper.x, upper.y + 46}, upper, {palette::face, 4, 0});
  canvas_.arrow({lower.x, lower.y - 46}, lower, {palette::face, 4, 0});
  canvas_.text({upper.x, upper.y + 52}, "face removed " + length_text(section_.face_removal),
               {.size = 25, .colour = palette::face, .bold = true, .across = Across::middle});
}

/// Where the coating is labelled: well inside the metal, and where some of it is left if possible.
double ProfileDrawing::coating_depth() const {
  double depth = 0.42 * reach();
  while (depth < 0.66 * reach() && coating(depth) < 0.6 * coating(0.97 * reach()))
    depth += 0.02 * reach();
  return depth;
}

void ProfileDrawing::mark_coating() {
  const double depth = coating_depth();
  const std::optional<double> start =
      value_at(section_.x, section_.before_coating, edge_.x + edge_.metal * depth);
  if (!result_.coating || !start || *start <= 0) return;
  const double left = coating(depth);
  const Point layer = in_metal(depth, after(depth).value_or(0.0) - left / 2);
  const Point foot{layer.x, layer.y - std::max(100.0, 24 + left * plot_.pixels_per_y())};
  canvas_.arrow({foot.x, foot.y + 4}, layer, {palette::ink, 3, 0});
  constexpr double nothing = 5e-5;  // [mm] what a label would round to zero
  const std::string text =
      left < nothing ? fmt::format("{} gone here, {} before", *result_.coating, length_text(*start))
                     : fmt::format("{} left: {} of {}", *result_.coating, length_text(left),
                                   length_text(*start));
  canvas_.text(foot, text,
               {.size = 25, .bold = true, .across = Across::middle, .along = Along::top});
}

void ProfileDrawing::mark_scale() {
  const double length = round_below(plot_.x().width() * 0.26);
  const double factor = plot_.pixels_per_y() / plot_.pixels_per_x();
  const Box& area = plot_.area();
  const double y = area.bottom + 22;
  const double width = length * plot_.pixels_per_x();
  const double left = edge_.metal > 0 ? area.right - 24 - width : area.left + 24;
  canvas_.line({left, y}, {left + width, y}, {palette::ink, 6, 0});
  for (const double end : {left, left + width})
    canvas_.line({end, y - 10}, {end, y + 10}, {palette::ink, 4, 0});
  canvas_.text({left + width / 2, y + 14}, fmt::format("{:g} mm", length),
               {.size = 25, .bold = true, .across = Across::middle});
  const std::string scale =
      factor > 1.01 ? fmt::format("heights drawn {:g} times", factor) : "drawn to one scale";
  canvas_.text({edge_.metal > 0 ? left - 26 : left + width + 26, y - 8}, scale,
               {.size = 25, .across = edge_.metal > 0 ? Across::right : Across::left});
}

void ProfileDrawing::draw() {
  draw_layers();
  draw_before();
  mark_drop();
  mark_burr();
  mark_removal();
  mark_coating();
  mark_scale();
  canvas_.text({in_metal(-0.02 * reach(), 0).x, plot_.area().bottom + 12}, beyond_edge(),
               {.size = 25, .colour = palette::quiet, .across = outwards()});
  canvas_.text({in_metal(0.03 * reach(), 0).x, plot_.area().bottom + 12}, result_.part_material,
               {.size = 25, .across = inwards()});
}

}  // namespace

void draw_profile(Canvas& canvas, const Box& area, const sim::Result& result,
                  const sim::SectionRecord& section, const sim::SectionEdge& edge) {
  ProfileDrawing(canvas, area, result, section, edge).draw();
}

}  // namespace drumlin::viz
