#pragma once

#include <cstdint>
#include <vector>

#include "sim/design/pick_freeze.hpp"

namespace drumlin::sim {

/// The points of PickFreezePoints set by set: A, B and the AB_i. Probabilities are read from A and
/// B, shares of variance from all.
class PickFreezeDesign {
 public:
  /// @param inputs  1 to Sobol::most_dimensions / 2.
  /// @param size    points of a set; a power of two is spread best.
  PickFreezeDesign(std::size_t inputs, std::uint64_t size, std::uint64_t seed);

  [[nodiscard]] std::size_t inputs() const noexcept { return inputs_; }
  [[nodiscard]] std::uint64_t size() const noexcept { return size_; }
  /// A, B, AB_0, AB_1, ...
  [[nodiscard]] std::size_t sets() const noexcept { return inputs_ + 2; }

  /// Coordinates in (0, 1) of a point of a set, one per input.
  [[nodiscard]] std::vector<double> at(std::size_t set, std::uint64_t point) const;

 private:
  std::size_t inputs_;
  std::uint64_t size_;
  PickFreezePoints points_;
};

}  // namespace drumlin::sim
