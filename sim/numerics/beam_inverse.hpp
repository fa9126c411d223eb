#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "sim/numerics/line_response.hpp"

namespace drumlin::sim {

/// Beam under tension on springs: D u'''' - T u'' + k u = p, the local stand-in for a compliance.
struct Beam {
  double bending_stiffness = 0;  ///< [N mm]
  double tension = 0;            ///< [N/mm]
  double bedding = 0;            ///< [MPa/mm]
};

/// The beam that comes closest to 1 / Re C(q) between two wave numbers: least squares of logarithms
/// at log-spaced wave numbers.
///
/// @param bending_stiffness  kept as it is [N mm].
[[nodiscard]] Beam closest_beam(const Symbol& symbol, double bending_stiffness, double lowest,
                                double highest);

/// Stand-in for the inverse of a compliance with local gives on the free cells of an uneven row:
/// the compliance is replaced by the beam, and
///
///     (K + free / c) u = free r / c,   z = (r - u) / c on free cells
///
/// is solved exactly, K being the beam's stiffness, c the local give: z presses on springs c that
/// stand on the beam. Knows which cells are free and what each of them gives; costs O(cells).
/// Symmetric and positive definite in the inner product of the cells' widths.
class BeamInverse {
 public:
  /// @param middles  of the cells [mm], rising.
  /// @param widths   of the cells [mm].
  BeamInverse(const Beam& beam, std::span<const double> middles, std::span<const double> widths);

  /// @param first  first cell of the part of the row that is used; its length is that of `give`.
  /// @param give   c per cell [mm/MPa], > 0 where free.
  void prepare(std::size_t first, std::span<const std::uint8_t> free, std::span<const double> give);
  void solve(std::span<const double> residual, std::span<double> result);

 private:
  std::vector<double> diagonal_, beside_, beyond_;  // stiffness matrix of the whole row
  std::vector<double> widths_;
  std::size_t first_ = 0;
  std::vector<double> spring_;        // width / give where free, else 0, of the part in use
  std::vector<double> inverse_give_;  // 1 / give where free, else 0
  std::vector<double> inverse_pivot_, lower1_, lower2_, u_;  // L D L^T of the part in use
};

}  // namespace drumlin::sim
