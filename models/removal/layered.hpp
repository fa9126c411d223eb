#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>

#include "models/removal/removal_laws.hpp"

namespace drumlin::models {

/// A column of metal as the abrasive meets it: layers from the top down, the last without end.
///
/// At a constant pressure p over a sliding path s the layers d_i are crossed on the paths
/// d_i / r_i(p), r_i the removal per path, so one step may cross any number of boundaries and
/// still be exact: many small steps at the same pressure give the same depth as one.
///
/// @tparam Law   removal law of every layer (RemovalLaw).
/// @tparam Count layers with an end; one more without end lies below.
template <RemovalLaw Law, std::size_t Count>
struct LayeredColumn {
  std::array<double, Count> left;         ///< d_i [mm], >= 0, from the top
  std::array<const Law*, Count + 1> law;  ///< of each layer and of the base

  /// Depth removed and its derivative with respect to pressure.
  struct Removal {
    double depth;  ///< [mm]
    double slope;  ///< d(depth)/dp [mm/MPa], from the side of higher pressure at a kink
  };

  /// Removal over a sliding path at a constant pressure.
  ///
  /// With the path left s_j on entering layer j the depth is sum d_i + s_n r_n(p), and
  /// d s_j/dp = sum_i d_i r_i'(p) / r_i(p)^2.
  ///
  /// @param p     pressure [MPa], >= 0.
  /// @param path  sliding path [mm], >= 0.
  [[nodiscard]] constexpr Removal removal(double p, double path) const noexcept {
    double depth = 0.0;
    double path_slope = 0.0;
    for (std::size_t i = 0; i < Count; ++i) {
      if (left[i] <= 0.0) continue;
      const double rate = law[i]->per_path(p);
      if (rate * path <= left[i]) {
        return {depth + rate * path, law[i]->slope(p) * path + rate * path_slope};
      }
      path -= left[i] / rate;
      path_slope += left[i] * law[i]->slope(p) / (rate * rate);
      depth += left[i];
    }
    const double rate = law[Count]->per_path(p);
    return {depth + rate * path, law[Count]->slope(p) * path + rate * path_slope};
  }

  /// Takes a depth [mm] off the top.
  constexpr void take(double depth) noexcept {
    for (double& layer : left) {
      const double taken = std::min(layer, depth);
      layer -= taken;
      depth -= taken;
    }
  }
};

}  // namespace drumlin::models
