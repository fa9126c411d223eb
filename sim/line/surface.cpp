#include "sim/line/surface.hpp"

#include <algorithm>
#include <cmath>
#include <type_traits>

#include "sim/answer.hpp"

namespace drumlin::sim::line {
namespace {

using cases::FeatureKind;
using cases::Side;

const models::WallBurr* wall(const models::AnyBurr& burr) {
  return std::get_if<models::WallBurr>(&burr);
}

/// Drum-scale cell [mm], or a share of half the patch if that is narrow: a pass over a burr beside
/// a hole then differs by less than 0.1 % from one with cells of 0.1 mm.
constexpr double drum_cell = 0.25;
constexpr double patch_cells = 50.0;
/// Beyond a burr's root cells stay a unit wide this far [mm], then grow by a quarter of the
/// distance.
constexpr double fine_margin = 0.05;
constexpr double cell_growth = 0.25;
/// Room beyond the readable length, in half patches: one to the axis and one beyond it, and
/// one to spare.
constexpr double lead_in = 3.0;

/// Cell width that divides the burr's root evenly.
double cell_width(const models::AnyBurr& burr, const Fineness& fineness) {
  const auto* standing = wall(burr);
  if (standing == nullptr) return fineness.resolution;
  const double cells = std::ceil(standing->root / fineness.resolution - 1e-9);
  return standing->root / std::max(static_cast<double>(fineness.root_cells), cells);
}

/// An edge with its burr set upon the strip.
void add_edge(Strip& strip, std::string name, int line, int metal, const models::AnyBurr& burr) {
  const std::size_t cell = strip.cells.cell_of(metal > 0 ? line : line - 1);
  StripEdge edge;
  edge.name = std::move(name);
  edge.cell = cell;
  edge.metal = metal;
  edge.burr = burr;
  if (const auto* standing = wall(burr)) {
    edge.reach = static_cast<std::size_t>(std::lround(standing->root / strip.cells.unit));
    for (std::size_t i = 0; i < edge.reach; ++i) {
      const std::size_t at = Strip::inward(edge, i);
      const double height =
          models::profile(*standing, (static_cast<double>(i) + 0.5) * strip.cells.unit);
      strip.height[at] = strip.burr[at] = height;
      strip.coating[at] = strip.top[at] = 0.0;
    }
  }
  strip.edges.push_back(std::move(edge));
}

/// Layers on the unworn face [mm].
struct Layers {
  double top = 0;
  double coating = 0;
};
Layers layers_of(const cases::Part& part) {
  if (!part.coating) return {};
  return {.top = part.coating->top ? part.coating->top->thickness : 0.0,
          .coating = part.coating->thickness};
}

int units(double length, double unit) {
  return static_cast<int>(std::ceil(length / unit));
}

/// How a strip is cut.
struct Cut {
  double unit;
  int half;  ///< length to either side of x = 0 [units]
  std::vector<int> lines;
};

Strip blank_strip(const cases::Part& part, const Fineness& fineness, const Cut& cut, double fine,
                  double narrowest) {
  Strip strip;
  if (fineness.nested) {
    const double widest = std::min(drum_cell, narrowest / patch_cells);
    strip.cells = graded_cells(cut.unit, -cut.half, cut.half, cut.lines, units(fine, cut.unit),
                               cell_growth, std::max(1, static_cast<int>(widest / cut.unit)));
  } else {
    strip.cells = graded_cells(cut.unit, -cut.half, cut.half, {}, 2 * cut.half, 0.0, 1);
  }
  const std::size_t n = strip.cells.size();
  strip.height.assign(n, 0.0);
  strip.burr.assign(n, 0.0);
  const Layers layers = layers_of(part);
  strip.top.assign(n, layers.top);
  strip.coating.assign(n, layers.coating);
  strip.metal.assign(n, 1);
  strip.lip.assign(n, 0);
  return strip;
}

/// Cuts the metal away between two bounds.
void open(Strip& strip, int from, int to) {
  for (std::size_t i = 0; i < strip.size(); ++i) {
    if (strip.cells.bounds[i] >= from && strip.cells.bounds[i + 1] <= to) strip.metal[i] = 0;
  }
}

bool carries_burr(const cases::Feature& feature, Side side) {
  return !feature.side || *feature.side == side;
}

double fine_zone(const models::AnyBurr& burr) {
  const auto* standing = wall(burr);
  return fine_margin + (standing != nullptr ? standing->root : 0.0);
}

Strip opening_strip(const cases::Part& part, const cases::Feature& feature,
                    const Fineness& fineness, double reach, double narrowest) {
  const double half_size = 0.5 * feature.size.value_or(0.0);
  const double unit = cell_width(feature.burr, fineness);
  const int half_open = std::max(1, static_cast<int>(std::lround(half_size / unit)));
  const int half = half_open + units(readable + lead_in * reach, unit);
  Strip strip = blank_strip(part, fineness, {unit, half, {-half_open, half_open}},
                            fine_zone(feature.burr), narrowest);
  open(strip, -half_open, half_open);
  // The drum travels towards -x: it leaves the metal at the rim on the +x side.
  const auto rim = [&](Side side, int line, int metal) {
    if (carries_burr(feature, side)) {
      add_edge(strip, edge_name(feature, side), line, metal, feature.burr);
    } else {
      add_edge(strip, "", line, metal, models::NoBurr{});
    }
  };
  rim(Side::trailing, half_open, +1);
  rim(Side::leading, -half_open, -1);
  strip.name = feature.name;
  return strip;
}

Strip outer_strip(const cases::Part& part, const cases::Feature& feature, Side side,
                  const Fineness& fineness, double reach, double narrowest) {
  const double unit = cell_width(feature.burr, fineness);
  const int half = units(readable + lead_in * reach, unit);
  Strip strip = blank_strip(part, fineness, {unit, half, {0}}, fine_zone(feature.burr), narrowest);
  strip.name = edge_name(feature, side);
  const int metal = side == Side::leading ? -1 : +1;  // it enters first: metal lies towards -x
  open(strip, metal < 0 ? 0 : -half, metal < 0 ? half : 0);
  add_edge(strip, strip.name, 0, metal, feature.burr);
  return strip;
}

/// Widths from one end of a stretch, `far` to its middle or its other end.
std::vector<int> outward(int far, int fine, double growth, int widest) {
  std::vector<int> widths;
  for (int at = 0; at < far;) {
    const double wanted = 1.0 + growth * std::max(at - fine, 0);
    const int width = std::min(std::clamp(static_cast<int>(wanted), 1, widest), far - at);
    widths.push_back(width);
    at += width;
  }
  return widths;
}

}  // namespace

CellRow graded_cells(double unit, int from, int to, const std::vector<int>& lines, int fine,
                     double growth, int widest) {
  CellRow row{unit, {from}};
  const auto lay = [&](const std::vector<int>& widths) {
    for (const int width : widths)
      row.bounds.push_back(row.bounds.back() + width);
  };
  const auto lay_backwards = [&](std::vector<int> widths) {
    std::reverse(widths.begin(), widths.end());
    lay(widths);
  };
  if (lines.empty()) {
    lay(outward(to - from, fine, growth, widest));
    return row;
  }
  lay_backwards(outward(lines.front() - from, fine, growth, widest));
  for (std::size_t k = 0; k + 1 < lines.size(); ++k) {
    const int length = lines[k + 1] - lines[k];
    lay(outward(length / 2, fine, growth, widest));
    lay_backwards(outward(length - length / 2, fine, growth, widest));
  }
  lay(outward(to - lines.back(), fine, growth, widest));
  return row;
}

Surface unworn_surface(const cases::Part& part, const Fineness& fineness, double reach,
                       double narrowest) {
  Surface surface;
  const Layers layers = layers_of(part);
  surface.face.coating = layers.coating;
  surface.face.top = layers.top;
  for (const auto& feature : part.features) {
    if (feature.side == Side::side) continue;
    if (feature.kind != FeatureKind::outer_edge) {
      surface.strips.push_back(opening_strip(part, feature, fineness, reach, narrowest));
      continue;
    }
    for (const Side side : sides_of(feature)) {
      if (side == Side::side) continue;
      surface.strips.push_back(outer_strip(part, feature, side, fineness, reach, narrowest));
    }
  }
  return surface;
}

}  // namespace drumlin::sim::line
