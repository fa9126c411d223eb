#include "viz/profile_drawing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "viz/label_places.hpp"
#include "viz/layers.hpp"
#include "viz/plot.hpp"
#include "viz/section_view.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {
namespace {

constexpr double one_row = 1000;  // [pixel] width from which key and scale stand side by side
constexpr TextStyle quiet{.size = 24, .colour = palette::quiet, .along = Along::middle};

/// One drawing of one edge; distances along the part count from the edge line into the metal.
class ProfileDrawing {
 public:
  ProfileDrawing(Canvas& canvas, const Box& area, const sim::Result& result,
                 const sim::SectionRecord& section, const sim::SectionEdge& edge)
      : canvas_(canvas),
        result_(result),
        section_(section),
        edge_(edge),
        area_(area),
        plot_(scaled({area.left, area.bottom + key_height(area), area.right, area.top}, section,
                     edge)),
        labels_(canvas, plot_.area()) {}

  void draw();

 private:
  static double key_height(const Box& area) { return area.width() < one_row ? 88 : 48; }
  static Plot scaled(const Box& area, const sim::SectionRecord& section,
                     const sim::SectionEdge& edge);
  void draw_layers();
  void draw_before();
  void mark_burr();
  void mark_drop();
  void mark_removal();
  void mark_coating();
  void mark_place();
  void draw_key();
  void draw_scale(Point right);
  /// Writes a label at the first of some places that is free.
  void write(const std::string& text, Colour colour, std::span<const Spot> spots) {
    labels_.write(text, {.size = 25, .colour = colour, .bold = true, .halo = true}, spots);
  }
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
  Box area_;
  Plot plot_;
  LabelPlaces labels_;
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
  constexpr double outside_share = 0.42;
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
  const Range seen = covering(section_.x, plot_.x());
  for (const Piece& piece : metal_pieces(section_.x, section_.before, seen)) {
    const double low = std::min(0.0, edge_height().value_or(0.0));
    std::vector<Point> line;
    if (at_edge(piece.first)) line.push_back(plot_.at(section_.x[piece.first], low));
    for (std::size_t i = piece.first; i <= piece.last; ++i)
      line.push_back(plot_.at(section_.x[i], section_.before[i]));
    if (at_edge(piece.last)) line.push_back(plot_.at(section_.x[piece.last], low));
    canvas_.line(line, {palette::burr, 4, 14});
    labels_.keep_clear(line);
  }
  for (const Piece& piece : metal_pieces(section_.x, section_.after, seen)) {
    std::vector<Point> line;
    for (std::size_t i = piece.first; i <= piece.last; ++i)
      line.push_back(plot_.at(section_.x[i], section_.after[i]));
    labels_.keep_clear(line);
  }
  canvas_.clip({});
}

void ProfileDrawing::mark_burr() {
  if (edge_.burr_height <= 0) return;
  const double way = edge_.metal > 0 ? 1 : -1;
  // A bead is round: its flank is half way down there.
  const bool bead = edge_.burr == "bead";
  const double root = edge_.burr_root;
  const double height = edge_.burr_height;
  const Point tip = in_metal(root * (bead ? 0.9 : 1.05), height * (bead ? 0.45 : 0.8));
  canvas_.arrow({tip.x + way * 70, tip.y}, tip, {palette::burr, 3, 0});
  labels_.keep_clear(std::array{Point{tip.x + way * 70, tip.y}, tip});
  const double beside = tip.x + way * 80;
  const std::array spots{Spot{{beside, tip.y}, inwards(), Along::middle},
                         Spot{{beside, tip.y + 10}, inwards(), Along::bottom},
                         Spot{{beside, tip.y + 40}, inwards(), Along::bottom}};
  write("burr before: " + length_text(height), palette::burr, spots);
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
  labels_.keep_clear(std::array{in_metal(0, face), in_metal(reach(), face)});
  const double middle = (upper.y + lower.y) / 2;
  if (std::abs(upper.y - lower.y) > 34) {
    canvas_.arrow({upper.x, middle}, upper, {palette::ink, 3, 0});
    canvas_.arrow({upper.x, middle}, lower, {palette::ink, 3, 0});
  } else {
    const double way = upper.y >= lower.y ? 1 : -1;
    canvas_.arrow({upper.x, upper.y + way * 44}, upper, {palette::ink, 3, 0});
    canvas_.arrow({lower.x, lower.y - way * 44}, lower, {palette::ink, 3, 0});
  }
  labels_.keep_clear(std::array{Point{upper.x, std::max(upper.y, lower.y) + 44},
                                Point{lower.x, std::min(upper.y, lower.y) - 44}});
  const double beside = in_metal(-0.10 * reach(), face).x + (edge_.metal > 0 ? -12 : 12);
  write("edge drop", palette::ink,
        std::array{Spot{{beside, middle + 2}, outwards(), Along::bottom}});
  write(length_text(drop), palette::ink,
        std::array{Spot{{beside, middle - 2}, outwards(), Along::top}});
}

void ProfileDrawing::mark_removal() {
  const double depth = 0.8 * reach();
  const Point upper = in_metal(depth, 0);
  const Point lower = in_metal(depth, -section_.face_removal);
  canvas_.arrow({upper.x, upper.y + 46}, upper, {palette::face, 4, 0});
  canvas_.arrow({lower.x, lower.y - 46}, lower, {palette::face, 4, 0});
  labels_.keep_clear(std::array{Point{upper.x, upper.y + 46}, Point{lower.x, lower.y - 46}});
  const std::array spots{Spot{{upper.x, upper.y + 54}, Across::middle, Along::bottom},
                         Spot{{upper.x, upper.y + 90}, Across::middle, Along::bottom},
                         Spot{{lower.x, lower.y - 54}, Across::middle, Along::top}};
  write("face removed " + length_text(section_.face_removal), palette::face, spots);
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
  const double most = std::max(layer.y - plot_.area().bottom - 70, 40.0);
  const Point foot{layer.x,
                   layer.y - std::min(std::max(100.0, 24 + left * plot_.pixels_per_y()), most)};
  canvas_.arrow({foot.x, foot.y + 4}, layer, {palette::ink, 3, 0});
  constexpr double nothing = 5e-5;  // [mm] what a label would round to zero
  const std::string text =
      left < nothing ? fmt::format("{} gone here, {} before", *result_.coating, length_text(*start))
                     : fmt::format("{} left: {} of {}", *result_.coating, length_text(left),
                                   length_text(*start));
  write(text, palette::ink, std::array{Spot{foot, Across::middle, Along::top}});
}

/// Names what lies on both sides of the edge line.
void ProfileDrawing::mark_place() {
  const double y = plot_.area().bottom + 8;
  labels_.write_if_free(beyond_edge(), {.size = 25, .colour = palette::quiet},
                        {{in_metal(-0.02 * reach(), 0).x, y}, outwards(), Along::bottom});
  labels_.write_if_free(result_.part_material, {.size = 25},
                        {{in_metal(0.03 * reach(), 0).x, y}, inwards(), Along::bottom});
}

/// A length along the part, and how heights are drawn; ends at a place to the right.
void ProfileDrawing::draw_scale(Point right) {
  const double length = round_below(plot_.x().width() * 0.2);
  const double width = length * plot_.pixels_per_x();
  canvas_.line({right.x - width, right.y}, right, {palette::ink, 6, 0});
  for (const double end : {right.x - width, right.x})
    canvas_.line({end, right.y - 10}, {end, right.y + 10}, {palette::ink, 4, 0});
  const double factor = plot_.pixels_per_y() / plot_.pixels_per_x();
  const std::string scale =
      factor > 1.01 ? fmt::format("heights drawn {:g} times", factor) : "drawn to one scale";
  TextStyle style{.size = 24, .across = Across::right, .along = Along::middle};
  canvas_.text({right.x - width - 16, right.y}, fmt::format("{}   {:g} mm", scale, length), style);
}

/// What lines and fills mean, and the scale, below the drawing.
void ProfileDrawing::draw_key() {
  const double row = plot_.area().bottom - 28;
  double x = plot_.area().left;
  const auto name = [&](const std::string& text) {
    x += 56;
    canvas_.text({x, row}, text, quiet);
    x += canvas_.text_width(text, quiet) + 28;
  };
  const auto swatch = [&](Colour colour, const std::string& text) {
    canvas_.fill({x, row - 12, x + 44, row + 12}, colour);
    canvas_.frame({x, row - 12, x + 44, row + 12}, {palette::quiet, 1, 0});
    name(text);
  };
  canvas_.line({x, row}, {x + 46, row}, {palette::burr, 4, 12});
  name("before");
  swatch(palette::worn, "worn away");
  if (result_.coating) swatch(palette::coating, *result_.coating);
  draw_scale({plot_.area().right - 8, area_.width() < one_row ? row - 42 : row});
}

void ProfileDrawing::draw() {
  draw_layers();
  draw_before();
  mark_burr();
  mark_drop();
  mark_removal();
  mark_coating();
  mark_place();
  draw_key();
}

}  // namespace

void draw_profile(Canvas& canvas, const Box& area, const sim::Result& result,
                  const sim::SectionRecord& section, const sim::SectionEdge& edge) {
  ProfileDrawing(canvas, area, result, section, edge).draw();
}

}  // namespace drumlin::viz
