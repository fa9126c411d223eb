#pragma once

#include <compare>
#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace drumlin::sim {

/// A place on a map over two settings: indices of its finest grid.
struct MapPoint {
  std::size_t i = 0;  ///< along the first setting
  std::size_t j = 0;  ///< along the second

  auto operator<=>(const MapPoint&) const = default;
};

/// How fine a map is asked for. The finest grid has `coarse` * 2^`levels` cells each way.
struct MapPlan {
  std::size_t coarse = 16;  ///< cells each way of the first grid, > 0
  std::size_t levels = 3;   ///< times that a cell may be cut into four
  std::size_t most_evaluations = 2000;
  /// Levels up to which borders between kinds other than 0 are followed: which of two limits fails
  /// first matters less than whether one does. None: as all others.
  std::optional<std::size_t> levels_without_zero{};

  [[nodiscard]] std::size_t cells() const { return coarse << levels; }
};

/// A square of the map: its lower corner and its side, in cells of the finest grid.
struct MapCell {
  MapPoint corner;
  std::size_t side = 0;
  int kind = 0;            ///< of all its corners; of the lower left one where they differ
  bool at_border = false;  ///< its corners differ: a border runs through it
};

/// What a map found.
struct AdaptiveMap {
  std::size_t cells = 0;         ///< of the finest grid, each way
  std::vector<MapCell> leaves;   ///< cover the map without overlap, ordered by corner
  std::vector<MapPoint> points;  ///< that were evaluated, rising
  std::vector<int> kinds;        ///< of the points
  bool stopped_early = false;  ///< the evaluations did not suffice for the finest level everywhere

  /// Kind at a point of the finest grid: as evaluated, or that of the cell in which it lies.
  [[nodiscard]] int kind_at(MapPoint point) const;
};

/// Tells the kinds of many points at once, so that they can be worked on side by side; as long as
/// its argument. A kind is any number: 0 for accepted, the number of the limit that fails, ...
using KindsOf = std::function<std::vector<int>(std::span<const MapPoint>)>;

/// Finds the borders between kinds: a coarse grid first, then cells whose corners differ are cut
/// into four, and so are their neighbours where the border leaves a cut cell through a side that
/// the coarse grid thought plain. Regions smaller than a coarse cell can be missed.
[[nodiscard]] AdaptiveMap adaptive_map(const MapPlan& plan, const KindsOf& kinds_of);

/// A point of a kind with the widest box around it that is of this kind all over.
struct WidestBox {
  MapPoint middle;
  std::size_t reach = 0;  ///< cells from the middle to each side of the box
};

/// The widest square box, in cells of the finest grid, that holds one kind only. The map's rim does
/// not bound it: what lies beyond is not known, so the box stays inside the map.
/// @return reach 0 where no cell of this kind is free of borders.
[[nodiscard]] WidestBox widest_box(const AdaptiveMap& map, int kind);

}  // namespace drumlin::sim
