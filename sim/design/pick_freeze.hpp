#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>

#include "sim/design/sobol.hpp"

namespace drumlin::sim {

/// Points at which shares of the variance can be told apart (Sobol 1993): k + 2 rows to each point
/// of one Sobol sequence in 2k dimensions, whose first half is A and whose second half is B,
///
///     row (k + 2) j + 0    A_j
///     row (k + 2) j + 1    B_j
///     row (k + 2) j + 2+i  A_j with coordinate i from B_j
///
/// so that a point's rows stand together and a table that breaks off still holds whole points.
/// Both halves come from one sequence, which keeps them even together.
///
/// Source: Saltelli et al. (2010), Comput. Phys. Commun. 181, 259, section 3 (from memory).
class PickFreezePoints {
 public:
  /// @param factors  k, 1 to half of Sobol::most_dimensions.
  /// @param shift    as for Sobol.
  explicit PickFreezePoints(std::size_t factors, std::optional<std::uint64_t> shift = {})
      : factors_(factors), sequence_(2 * factors, shift) {}

  [[nodiscard]] static constexpr std::uint64_t rows_per_point(std::size_t factors) noexcept {
    return factors + 2;
  }

  /// Coordinate i of a row, in (0, 1).
  [[nodiscard]] double at(std::uint64_t row, std::size_t factor) const noexcept {
    const std::uint64_t point = row / rows_per_point(factors_);
    const std::uint64_t part = row % rows_per_point(factors_);
    const bool from_b = part == 1 || part == factor + 2;
    return sequence_.at(point, from_b ? factors_ + factor : factor);
  }

 private:
  std::size_t factors_;
  Sobol sequence_;
};

}  // namespace drumlin::sim
