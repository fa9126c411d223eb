#pragma once

#include <algorithm>
#include <array>
#include <string_view>

#include "models/key.hpp"

namespace drumlin::models {

/// Removal in proportion to pressure and sliding path, above a threshold: Preston's law.
///
///     dh/dt = K (p - p_th)+ v
///
/// K = mu / u ties it to the friction coefficient mu and the specific energy u, so that removal,
/// force and power belong together. Published exponents of force reach from 0.55 to 2.5; a straight
/// line is the base, not the truth.
///
/// Source: Preston (1927), J. Soc. Glass Technol. 11, 214; the threshold as in Hahn and Lindsay
/// (1971) (both from memory).
struct Preston {
  static constexpr std::string_view name = "preston";

  double coefficient = 0;  ///< K [1/MPa], >= 0
  double threshold = 0;    ///< p_th [MPa], >= 0

  /// Removed depth per sliding path [-] at pressure p [MPa], p >= 0.
  [[nodiscard]] constexpr double per_path(double p) const noexcept {
    return coefficient * std::max(p - threshold, 0.0);
  }
  /// d(per_path)/dp [1/MPa]; zero up to and at the threshold.
  [[nodiscard]] constexpr double slope(double p) const noexcept {
    return p > threshold ? coefficient : 0.0;
  }

  static constexpr auto keys();

  [[nodiscard]] bool operator==(const Preston&) const = default;
};

constexpr auto Preston::keys() {
  return std::to_array<Key<Preston>>({
      {"removal_coefficient", &Preston::coefficient, dimension::per_pressure, 0, 1e-1,
       "removed depth per pressure and sliding path"},
      {"threshold_pressure", &Preston::threshold, dimension::pressure, 0, 10,
       "pressure below which grains rub without cutting"},
  });
}

}  // namespace drumlin::models
