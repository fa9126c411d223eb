#pragma once

#include <array>
#include <span>
#include <vector>

#include "sim/window_result.hpp"

namespace drumlin::sim {

/// Something on a map that is inside or outside at each evaluated point, with a place between where
/// it turns.
class MapField {
 public:
  virtual ~MapField() = default;
  MapField() = default;
  MapField(const MapField&) = delete;
  MapField& operator=(const MapField&) = delete;
  MapField(MapField&&) = delete;
  MapField& operator=(MapField&&) = delete;

  [[nodiscard]] virtual bool inside(const MapPoint& point) const = 0;

  struct Turn {
    double share = 0.5;  ///< of the way from the inner to the outer point
    int kind = 0;        ///< what lies outside
  };
  [[nodiscard]] virtual Turn turn(const MapPoint& inner, const MapPoint& outer) const = 0;

  /// Of a cell of which two opposite corners are inside and two are not: whether its middle is.
  [[nodiscard]] virtual bool middle_inside(const std::array<MapPoint, 4>& corners) const = 0;
};

/// Lines along which a field turns, by marching squares over the leaves of a map (Lorensen and
/// Cline 1987 in two dimensions), joined where they meet; straight within a cell. Closed lines end
/// where they begin, others at the map's rim or at a leaf that was not cut.
[[nodiscard]] std::vector<WindowLine> lines_of(const AdaptiveMap& map, const MapField& field);

/// How far a place is from the first line on each way along the axes.
///
/// @param kind  at the place: beyond a border lies the border's kind if it is accepted, else what
///              is accepted.
[[nodiscard]] BorderDistances distances_from(const MapPlace& place, int kind,
                                             std::span<const WindowLine> border);

}  // namespace drumlin::sim
