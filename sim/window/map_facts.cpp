#include "sim/window/map_facts.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <vector>

namespace drumlin::sim {
namespace {

/// A margin that changes by more than this share of all that it does over the map, within one cell
/// of the finest grid, leaps: a smooth one changes by about a cell's share.
constexpr double leap_share = 0.1;

/// Each leaf counts for the kinds of its corners, a quarter each.
void count_shares(Window& window) {
  std::map<MapPoint, int> kinds;
  for (const WindowPoint& point : window.points)
    kinds[point.at] = point.kind;
  const auto n = static_cast<double>(window.map.cells);
  for (const MapCell& leaf : window.map.leaves) {
    const auto [i, j] = leaf.corner;
    const std::size_t s = leaf.side;
    const double quarter = static_cast<double>(s * s) / (4 * n * n);
    for (const MapPoint& corner :
         {MapPoint{i, j}, MapPoint{i + s, j}, MapPoint{i, j + s}, MapPoint{i + s, j + s}}) {
      const int kind = kinds.at(corner);
      double& share = kind == accepted_kind    ? window.accepted_share
                      : kind == not_known_kind ? window.not_known_share
                      : kind == not_computed_kind
                          ? window.not_computed_share
                          : window.limits[static_cast<std::size_t>(kind - 1)].share;
      share += quarter;
    }
  }
}

void find_leaps(Window& window) {
  std::map<MapPoint, const WindowPoint*> points;
  for (const WindowPoint& point : window.points)
    points[point.at] = &point;
  for (std::size_t k = 0; k < window.limits.size(); ++k) {
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const WindowPoint& point : window.points)
      if (std::isfinite(point.margins[k])) {
        low = std::min(low, point.margins[k]);
        high = std::max(high, point.margins[k]);
      }
    std::vector<double> steps;
    const auto look = [&](const MapPoint& a, const MapPoint& b) {
      const double from = points.at(a)->margins[k];
      const double to = points.at(b)->margins[k];
      if ((from < 0) != (to < 0)) steps.push_back(std::abs(from - to));
    };
    for (const MapCell& leaf : window.map.leaves)
      if (leaf.at_border && leaf.side == 1) {
        look(leaf.corner, {leaf.corner.i + 1, leaf.corner.j});
        look(leaf.corner, {leaf.corner.i, leaf.corner.j + 1});
      }
    if (steps.empty()) continue;
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    window.limits[k].leaps = *middle > leap_share * (high - low);
  }
}

void find_reasons(Window& window) {
  const auto n = static_cast<double>(window.map.cells);
  for (const WindowPoint& point : window.points) {
    if (point.kind != not_computed_kind) continue;
    auto found = std::find_if(window.not_computed.begin(), window.not_computed.end(),
                              [&](const NotComputed& of) { return of.reason == point.reason; });
    if (found == window.not_computed.end()) {
      window.not_computed.push_back(
          {point.reason,
           0,
           {static_cast<double>(point.at.i) / n, static_cast<double>(point.at.j) / n}});
      found = window.not_computed.end() - 1;
    }
    ++found->points;
  }
}

}  // namespace

void add_map_facts(Window& window) {
  count_shares(window);
  find_leaps(window);
  find_reasons(window);
}

}  // namespace drumlin::sim
