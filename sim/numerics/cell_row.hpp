#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace drumlin::sim {

/// Row of cells, each a whole number of units wide: cell i spans `bounds[i]` to `bounds[i + 1]`.
struct CellRow {
  double unit = 0;          ///< [mm]
  std::vector<int> bounds;  ///< rising, one more than cells

  [[nodiscard]] std::size_t size() const noexcept { return bounds.size() - 1; }
  /// [mm] from where units are counted.
  [[nodiscard]] double middle(std::size_t cell) const noexcept {
    return 0.5 * unit * (bounds[cell] + bounds[cell + 1]);
  }
  [[nodiscard]] double width(std::size_t cell) const noexcept {
    return unit * (bounds[cell + 1] - bounds[cell]);
  }
  /// Cell that holds a unit; the row must reach it.
  [[nodiscard]] std::size_t cell_of(int units) const noexcept {
    return static_cast<std::size_t>(std::upper_bound(bounds.begin(), bounds.end(), units) -
                                    bounds.begin()) -
           1;
  }
  [[nodiscard]] bool even() const noexcept {
    return bounds.back() - bounds.front() == static_cast<int>(size());
  }
};

}  // namespace drumlin::sim
