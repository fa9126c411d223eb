#pragma once

#include <cmath>

namespace drumlin::models {

/// How much more pull the tight side of a belt may carry than the slack side before it slips on the
/// drum that drives it: T1 / T2 = exp(mu phi).
///
/// The centrifugal tension m' v^2 is to be taken off both sides first: it presses nothing on the
/// drum.
///
/// @param friction  mu [-] between belt and drum, >= 0.
/// @param wrap      phi [rad] of the drum that the belt covers, >= 0.
/// @return  [-], >= 1.
///
/// Source: Euler (1769) and Eytelwein (1808) (from memory).
[[nodiscard]] inline double capstan_ratio(double friction, double wrap) noexcept {
  return std::exp(friction * wrap);
}

}  // namespace drumlin::models
