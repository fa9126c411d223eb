#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <variant>

#include "sim/answer.hpp"
#include "sim/line/side_pass.hpp"
#include "sim/turned.hpp"

namespace drumlin::sim::line {
namespace {

using cases::FeatureKind;
using cases::Side;

/// Metal behind an outer edge before the plain nip is taken for granted, and air beyond it [mm].
/// With 190 and 150 mm the drop is up to 1 % less on covers of 15 mm, 2 % on 25 to 40 mm.
constexpr double metal_reach = 80.0;
constexpr double air_reach = 50.0;
/// Metal on either side of an opening, which disturbs less [mm].
constexpr double rim_reach = 60.0;
/// Cells grow by this share of their distance from the fine zone, up to the widest [mm].
constexpr double cell_growth = 0.25;
constexpr double widest_cell = 4.0;
/// Beyond a burr's root cells stay a unit wide this far [mm].
constexpr double fine_margin = 0.05;

/// A burr that stands on the metal, as a cut through it: foot and height at a place.
struct Standing {
  double foot = 0;  ///< [mm] on the metal, 0 where none stands
  double ease = 1;  ///< removal coefficient over the base metal's [-]
};

Standing standing(const models::AnyBurr& burr, const cases::Part& part) {
  if (const auto* wall = std::get_if<models::WallBurr>(&burr)) return {.foot = wall->root};
  if (const auto* stub = std::get_if<models::Stub>(&burr))
    return {.foot = stub->height > 0.0 ? stub->root : 0.0};
  if (const auto* bead = std::get_if<models::Bead>(&burr)) {
    const double base = part.material.specific_energy.value;
    return {.foot = bead->width, .ease = base > 0.0 ? base / bead->specific_energy : 1.0};
  }
  return {};  // a rolled lip lies beyond the edge, not on the metal
}

double height_at(const models::AnyBurr& burr, double distance) {
  if (const auto* wall = std::get_if<models::WallBurr>(&burr))
    return models::profile(*wall, distance);
  if (const auto* stub = std::get_if<models::Stub>(&burr)) return stub->height;
  if (const auto* bead = std::get_if<models::Bead>(&burr)) {
    // Segment of the circle through both feet and the top.
    const double half = 0.5 * bead->width;
    const double radius = (half * half + bead->height * bead->height) / (2.0 * bead->height);
    const double off = distance - half;
    return std::sqrt(std::max(radius * radius - off * off, 0.0)) - (radius - bead->height);
  }
  return 0.0;
}

/// Cell width that divides the burr's foot evenly.
double cell_width(double foot, const Fineness& fineness) {
  if (foot <= 0.0) return fineness.resolution;
  const double cells = std::ceil(foot / fineness.resolution - 1e-9);
  return foot / std::max(static_cast<double>(fineness.root_cells), cells);
}

void add_edge(Strip& strip, std::string name, int line, int metal, const models::AnyBurr& burr,
              const Standing& on_metal) {
  StripEdge edge;
  edge.name = std::move(name);
  edge.cell = strip.cells.cell_of(metal > 0 ? line : line - 1);
  edge.metal = metal;
  edge.burr = burr;
  edge.ease = on_metal.ease;
  edge.reach = static_cast<std::size_t>(std::lround(on_metal.foot / strip.cells.unit));
  for (std::size_t i = 0; i < edge.reach; ++i) {
    const std::size_t at = Strip::inward(edge, i);
    const double height = height_at(burr, (static_cast<double>(i) + 0.5) * strip.cells.unit);
    strip.height[at] = strip.burr[at] = height;
    strip.coating[at] = strip.top[at] = 0.0;
  }
  strip.edges.push_back(std::move(edge));
}

/// Where metal begins and ends along a strip [units].
struct Layout {
  int from, to;            ///< ends of the strip
  int opens, closes;       ///< bounds of the air
  std::vector<int> lines;  ///< edges among them, rising
};

/// Air on the side of negative x, an edge at 0.
Layout outer_layout(double depth, double unit) {
  const auto units = [&](double length) { return static_cast<int>(std::ceil(length / unit)); };
  const int air = units(air_reach);
  if (depth > 0.0 && depth < 2.0 * metal_reach) {
    const int width = std::max(2, static_cast<int>(std::lround(depth / unit)));
    return {-air, width + air, -air, 0, {0, width}};
  }
  return {-air, units(metal_reach), -air, 0, {0}};
}

Layout opening_layout(double length, double unit) {
  const auto units = [&](double l) { return static_cast<int>(std::ceil(l / unit)); };
  const int half = std::max(1, static_cast<int>(std::lround(0.25 * length / unit)));
  const int reach = units(rim_reach) + half;
  return {-reach, reach, -half, half, {-half, half}};
}

Strip blank(const cases::Part& part, double coating, const Layout& layout, double unit,
            double foot) {
  Strip strip;
  const int fine = static_cast<int>(std::ceil((foot + fine_margin) / unit));
  strip.cells = graded_cells(unit, layout.from, layout.to, layout.lines, fine, cell_growth,
                             static_cast<int>(widest_cell / unit));
  const std::size_t n = strip.cells.size();
  strip.height.assign(n, 0.0);
  strip.burr.assign(n, 0.0);
  strip.top.assign(n, part.coating && part.coating->top ? part.coating->top->thickness : 0.0);
  strip.coating.assign(n, coating);
  strip.metal.assign(n, 1);
  strip.lip.assign(n, 0);
  for (std::size_t i = 0; i < n; ++i) {
    const int begins = strip.cells.bounds[i];
    const bool opening = begins >= layout.opens && begins < layout.closes;
    const bool beyond =
        layout.opens == layout.from && layout.lines.size() == 2 && begins >= layout.lines.back();
    if (opening || beyond) strip.metal[i] = 0;
  }
  return strip;
}

Strip side_strip(const cases::Part& part, const cases::Feature& feature, Side drawn,
                 const Fineness& fineness, bool burrs) {
  const models::AnyBurr burr = burrs ? feature.burr : models::AnyBurr{models::NoBurr{}};
  const Standing on_metal = standing(burr, part);
  const double unit = cell_width(on_metal.foot, fineness);
  const bool opening = feature.kind == FeatureKind::hole || feature.kind == FeatureKind::slot;
  // Behind a side edge the part is as deep as it is wide, behind an end as it is long.
  const double depth = drawn == Side::side ? part.width : part.length;
  const Layout layout =
      opening ? opening_layout(feature.size.value_or(0.0), unit) : outer_layout(depth, unit);
  double coating = 0.0;
  if (part.coating) coating = burrs ? part.coating->thickness : part.coating->reverse_thickness;
  Strip strip = blank(part, coating, layout, unit, on_metal.foot);
  strip.name = edge_name(feature, drawn);
  add_edge(strip, strip.name, layout.closes, +1, burr, on_metal);
  // The other rim, or the other side of a narrow part, looks alike; nobody reads it twice.
  if (opening)
    add_edge(strip, "", layout.opens, -1, burr, on_metal);
  else if (layout.lines.size() == 2)
    add_edge(strip, "", layout.lines.back(), -1, burr, on_metal);
  return strip;
}

}  // namespace

std::vector<Strip> unworn_sides(const cases::Part& part, const Fineness& fineness, bool burrs) {
  std::vector<Strip> sides;
  for (const auto& feature : part.features) {
    for (const Side drawn : sides_of(feature)) {
      const auto fed = fed_edges(part.angle, drawn);
      if (fed.front().side == Side::side)
        sides.push_back(side_strip(part, feature, drawn, fineness, burrs));
    }
  }
  return sides;
}

}  // namespace drumlin::sim::line
