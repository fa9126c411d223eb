#include "sim/window/robust_box.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/window/map_lines.hpp"

namespace drumlin::sim {
namespace {

double largest(const MapPlace& difference) {
  return std::max(std::abs(difference[0]), std::abs(difference[1]));
}

/// Differences from a place to points of a segment, the nearest in the largest norm among them: the
/// norm is piecewise linear along the segment and turns at its ends, where a coordinate changes its
/// sign and where both are as large.
template <class Visit>
void visit_candidates(const MapPlace& a, const MapPlace& b, const MapPlace& place,
                      const Visit& visit) {
  const MapPlace from{a[0] - place[0], a[1] - place[1]};
  const MapPlace way{b[0] - a[0], b[1] - a[1]};
  const auto at = [&](double numerator, double denominator) {
    if (denominator == 0) return;
    const double t = -numerator / denominator;
    if (t > 0 && t < 1) visit(MapPlace{from[0] + t * way[0], from[1] + t * way[1]}, t);
  };
  visit(from, 0.0);
  visit(MapPlace{b[0] - place[0], b[1] - place[1]}, 1.0);
  at(from[0], way[0]);
  at(from[1], way[1]);
  at(from[0] - from[1], way[0] - way[1]);
  at(from[0] + from[1], way[0] + way[1]);
}

double rim_reach(const MapPlace& place) {
  return std::min({place[0], 1 - place[0], place[1], 1 - place[1]});
}

}  // namespace

double square_reach(const MapPlace& place, std::span<const WindowLine> border) {
  double reach = rim_reach(place);
  for (const WindowLine& line : border)
    for (std::size_t k = 0; k + 1 < line.places.size(); ++k)
      visit_candidates(line.places[k], line.places[k + 1], place,
                       [&](const MapPlace& difference, double) {
                         reach = std::min(reach, largest(difference));
                       });
  return reach;
}

std::optional<RobustBox> robust_box(const AdaptiveMap& map, std::span<const WindowLine> border) {
  const WidestBox coarse = widest_box(map, accepted_kind);
  if (coarse.reach == 0) return std::nullopt;
  const auto n = static_cast<double>(map.cells);
  RobustBox box;
  box.middle = {static_cast<double>(coarse.middle.i) / n, static_cast<double>(coarse.middle.j) / n};
  box.reach = square_reach(box.middle, border);
  // The reach is a concave function of the place as far as the accepted region is convex, with
  // ridges: a grid about the best place that closes in on it misses none of them.
  constexpr int half_grid = 4;
  constexpr double finest = 1e-5;
  for (double step = 0.5 / n; step > finest / n; step /= 2) {
    const MapPlace centre = box.middle;
    const double inside = box.reach;  // places within it are accepted
    for (int i = -half_grid; i <= half_grid; ++i)
      for (int j = -half_grid; j <= half_grid; ++j) {
        const MapPlace way{i * step, j * step};
        if (largest(way) >= inside) continue;
        const MapPlace place{centre[0] + way[0], centre[1] + way[1]};
        const double reach = square_reach(place, border);
        // Strictly wider, so that a box with room to slide stays in the middle of it.
        if (reach > box.reach + 1e-9) {
          box.reach = reach;
          box.middle = place;
        }
      }
  }
  hold_box(box, border, 0.02 / n);
  return box;
}

void hold_box(RobustBox& box, std::span<const WindowLine> border, double tolerance) {
  box.held_by = {};
  box.distances = distances_from(box.middle, accepted_kind, border);
  for (std::size_t axis = 0; axis < 2; ++axis) {
    if (box.middle[axis] < box.reach + tolerance) box.held_by[axis][0] = rim_kind;
    if (1 - box.middle[axis] < box.reach + tolerance) box.held_by[axis][1] = rim_kind;
  }
  box.at_rim = false;
  for (const auto& sides : box.held_by)
    for (const auto& by : sides)
      box.at_rim = box.at_rim || by == rim_kind;
  for (const WindowLine& line : border)
    for (std::size_t k = 0; k + 1 < line.places.size(); ++k)
      visit_candidates(line.places[k], line.places[k + 1], box.middle,
                       [&](const MapPlace& difference, double t) {
                         if (largest(difference) > box.reach + tolerance) return;
                         for (std::size_t axis = 0; axis < 2; ++axis) {
                           if (std::abs(difference[axis]) <= box.reach - tolerance) continue;
                           auto& by = box.held_by[axis][difference[axis] < 0 ? 0 : 1];
                           if (!by) by = line.kinds[t < 0.5 ? k : k + 1];
                         }
                       });
}

}  // namespace drumlin::sim
