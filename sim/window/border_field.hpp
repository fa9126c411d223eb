#pragma once

#include <map>

#include "sim/window/map_lines.hpp"

namespace drumlin::sim {

/// What is accepted, with the border placed between two points where the first limit's margin is
/// zero, straight from one to the other.
class BorderField final : public MapField {
 public:
  explicit BorderField(const std::vector<WindowPoint>& points);

  [[nodiscard]] bool inside(const MapPoint& point) const override;
  [[nodiscard]] Turn turn(const MapPoint& inner, const MapPoint& outer) const override;
  [[nodiscard]] bool middle_inside(const std::array<MapPoint, 4>& corners) const override;

 private:
  std::map<MapPoint, const WindowPoint*> points_;
};

}  // namespace drumlin::sim
