#pragma once

#include <vector>

#include "sim/window_result.hpp"

namespace drumlin::viz {

/// The kind at any place of a window's map, for drawing: in a cell without a border that of the
/// cell, else by margins that go bilinearly from corner to corner.
class WindowField {
 public:
  /// @param window  must outlive the object.
  explicit WindowField(const sim::Window& window);

  /// @param place  in shares of both ranges; held inside the map.
  [[nodiscard]] int kind_at(const sim::MapPlace& place) const;

 private:
  struct Leaf {
    const sim::MapCell* cell;
    std::size_t corner[4];  // points: lower left, lower right, upper left, upper right
  };
  const sim::Window& window_;
  std::vector<Leaf> leaves_;
  std::vector<std::size_t> leaf_of_;  // cells of the finest grid, row by row
};

}  // namespace drumlin::viz
