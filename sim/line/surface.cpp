#include "sim/line/surface.hpp"

#include <algorithm>
#include <cmath>
#include <type_traits>

#include "sim/names.hpp"

namespace drumlin::sim::line {
namespace {

using cases::FeatureKind;
using cases::Side;

const models::WallBurr* wall(const models::AnyBurr& burr) {
  return std::get_if<models::WallBurr>(&burr);
}

/// Cell width that divides the burr's root evenly.
double cell_width(const models::AnyBurr& burr, const Fineness& fineness) {
  const auto* standing = wall(burr);
  if (standing == nullptr) return fineness.resolution;
  const double cells = std::ceil(standing->root / fineness.resolution - 1e-9);
  return standing->root / std::max(static_cast<double>(fineness.root_cells), cells);
}

/// An edge with its burr set upon the strip.
void add_edge(Strip& strip, std::string name, std::size_t cell, int metal,
              const models::AnyBurr& burr) {
  StripEdge edge{.name = std::move(name), .cell = cell, .metal = metal, .burr = burr};
  if (const auto* standing = wall(burr)) {
    edge.reach = static_cast<std::size_t>(std::lround(standing->root / strip.spacing));
    for (std::size_t i = 0; i < edge.reach; ++i) {
      const std::size_t at = metal > 0 ? cell + i : cell - i;
      const double height =
          models::profile(*standing, (static_cast<double>(i) + 0.5) * strip.spacing);
      strip.height[at] = strip.burr[at] = height;
      strip.coating[at] = 0.0;
    }
  }
  strip.edges.push_back(std::move(edge));
}

Strip blank_strip(const cases::Part& part, double spacing, double half_length) {
  const auto half = static_cast<std::size_t>(std::ceil(half_length / spacing));
  Strip strip;
  strip.spacing = spacing;
  strip.origin = -static_cast<double>(half) * spacing;
  strip.height.assign(2 * half, 0.0);
  strip.burr.assign(2 * half, 0.0);
  strip.coating.assign(2 * half, part.coating ? part.coating->thickness : 0.0);
  strip.metal.assign(2 * half, 1);
  return strip;
}

/// Cuts the metal away in [first, last).
void open(Strip& strip, std::size_t first, std::size_t last) {
  std::fill(strip.metal.begin() + static_cast<std::ptrdiff_t>(first),
            strip.metal.begin() + static_cast<std::ptrdiff_t>(last), std::uint8_t{0});
}

bool carries_burr(const cases::Feature& feature, Side side) {
  return !feature.side || *feature.side == side;
}

Strip opening_strip(const cases::Part& part, const cases::Feature& feature,
                    const Fineness& fineness, double reach) {
  const double half_size = 0.5 * feature.size.value_or(0.0);
  const double spacing = cell_width(feature.burr, fineness);
  Strip strip = blank_strip(part, spacing, half_size + readable + 5.0 * reach);
  const std::size_t middle = strip.size() / 2;
  const auto half_cells = static_cast<std::size_t>(std::max(1L, std::lround(half_size / spacing)));
  open(strip, middle - half_cells, middle + half_cells);
  // The drum travels towards -x: it leaves the metal at the rim on the +x side.
  const auto rim = [&](Side side, std::size_t cell, int metal) {
    if (carries_burr(feature, side)) {
      add_edge(strip, edge_name(feature, side), cell, metal, feature.burr);
    } else {
      add_edge(strip, "", cell, metal, models::NoBurr{});
    }
  };
  rim(Side::trailing, middle + half_cells, +1);
  rim(Side::leading, middle - half_cells - 1, -1);
  strip.name = feature.name;
  return strip;
}

Strip outer_strip(const cases::Part& part, const cases::Feature& feature, Side side,
                  const Fineness& fineness, double reach) {
  const double spacing = cell_width(feature.burr, fineness);
  Strip strip = blank_strip(part, spacing, readable + 5.0 * reach);
  const std::size_t middle = strip.size() / 2;
  strip.name = edge_name(feature, side);
  if (side == Side::leading) {  // enters first, so the metal lies towards -x
    open(strip, middle, strip.size());
    add_edge(strip, strip.name, middle - 1, -1, feature.burr);
  } else {
    open(strip, 0, middle);
    add_edge(strip, strip.name, middle, +1, feature.burr);
  }
  return strip;
}

}  // namespace

std::vector<Side> sides_of(const cases::Feature& feature) {
  if (feature.side) return {*feature.side};
  return {Side::leading, Side::trailing, Side::side};
}

std::string edge_name(const cases::Feature& feature, Side side) {
  if (feature.side) return feature.name;
  return feature.name + ":" + std::string(to_text(side));
}

Surface unworn_surface(const cases::Part& part, const Fineness& fineness, double reach) {
  Surface surface;
  surface.face.coating = part.coating ? part.coating->thickness : 0.0;
  for (const auto& feature : part.features) {
    if (feature.side == Side::side) continue;
    if (feature.kind != FeatureKind::outer_edge) {
      surface.strips.push_back(opening_strip(part, feature, fineness, reach));
      continue;
    }
    for (const Side side : sides_of(feature)) {
      if (side == Side::side) continue;
      surface.strips.push_back(outer_strip(part, feature, side, fineness, reach));
    }
  }
  return surface;
}

}  // namespace drumlin::sim::line
