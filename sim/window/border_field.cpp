#include "sim/window/border_field.hpp"

#include <cmath>

namespace drumlin::sim {
namespace {

/// Share of a cell within which two limits are lost at the same place.
constexpr double together = 0.05;

}  // namespace

BorderField::BorderField(const std::vector<WindowPoint>& points) {
  for (const WindowPoint& point : points)
    points_[point.at] = &point;
}

bool BorderField::inside(const MapPoint& point) const {
  return points_.at(point)->kind == accepted_kind;
}

MapField::Turn BorderField::turn(const MapPoint& inner, const MapPoint& outer) const {
  const WindowPoint& in = *points_.at(inner);
  const WindowPoint& out = *points_.at(outer);
  Turn first{0.5, out.kind};
  if (out.kind < accepted_kind) return first;  // nothing to go by: half way
  bool found = false;
  double of_outer = 2;
  for (std::size_t k = 0; k < out.margins.size(); ++k) {
    const double outside = out.margins[k];
    const double within = k < in.margins.size() ? in.margins[k] : std::nan("");
    if (!(outside < 0) || !(within >= 0)) continue;
    const double share = within / (within - outside);
    if (static_cast<int>(k) + 1 == out.kind) of_outer = share;
    if (found && share >= first.share) continue;
    first = {share, static_cast<int>(k) + 1};
    found = true;
  }
  // Limits that fail together are named alike on the border and beyond it.
  if (found && of_outer - first.share < together) first.kind = out.kind;
  return first;
}

bool BorderField::middle_inside(const std::array<MapPoint, 4>& corners) const {
  const std::size_t limits = points_.at(corners[0])->margins.size();
  for (const MapPoint& corner : corners)
    if (points_.at(corner)->kind < accepted_kind) return false;
  for (std::size_t k = 0; k < limits; ++k) {
    double sum = 0;
    for (const MapPoint& corner : corners)
      sum += points_.at(corner)->margins[k];
    if (sum < 0) return false;
  }
  return true;
}

}  // namespace drumlin::sim
