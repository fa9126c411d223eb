#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "models/heat/slab.hpp"

namespace drumlin::tests {

/// Judge of the sheet's series: finite volumes, upwind along the feed, all solved at once by
/// elimination in a band. Square cells, `across` of them through the thickness; no modes, no
/// Bessel functions.
inline double moving_sheet_rise(const models::HeatedBand& band, const models::ThermalMetal& metal,
                                double thickness, double x, int across) {
  const double d = thickness / across;
  const double conduct = models::diffusivity(metal) / d;
  const double before = 3.0 * band.half_width;  // heat creeps ahead by alpha / V only
  const auto n = static_cast<std::size_t>(std::lround(2.0 * before / d));
  const auto m = static_cast<std::size_t>(across);
  const std::size_t size = n * m;
  const std::size_t width = 2 * m + 1;  // of the band, diagonal at m
  std::vector<double> A(size * width, 0.0);
  std::vector<double> T(size, 0.0);
  const auto entry = [&](std::size_t row, std::size_t column) -> double& {
    return A[row * width + (column + m - row)];
  };
  for (std::size_t i = 0; i < n; ++i) {
    const double middle = -before + (static_cast<double>(i) + 0.5) * d;
    for (std::size_t k = 0; k < m; ++k) {
      const std::size_t row = i * m + k;
      // What the sheet carries in and what it conducts to and from its neighbours; cold ahead.
      entry(row, row) += band.feed + conduct;
      if (i > 0) entry(row, row - m) -= band.feed + conduct;
      const auto join = [&](std::size_t other) {
        entry(row, row) += conduct;
        entry(row, other) -= conduct;
      };
      if (i + 1 < n) join(row + m);
      if (k > 0) join(row - 1);
      if (k + 1 < m) join(row + 1);
      if (k == 0 && std::abs(middle) < band.half_width)
        T[row] = band.flux / models::heat_capacity(metal);
    }
  }
  for (std::size_t row = 0; row < size; ++row) {
    for (std::size_t below = row + 1; below < std::min(size, row + m + 1); ++below) {
      const double factor = entry(below, row) / entry(row, row);
      for (std::size_t column = row + 1; column < std::min(size, row + m + 1); ++column)
        entry(below, column) -= factor * entry(row, column);
      T[below] -= factor * T[row];
    }
  }
  for (std::size_t row = size; row-- > 0;) {
    for (std::size_t column = row + 1; column < std::min(size, row + m + 1); ++column)
      T[row] -= entry(row, column) * T[column];
    T[row] /= entry(row, row);
  }
  // Straight between cells along the feed; from the first cell's middle to the face by the flux.
  const double place = (x + before) / d - 0.5;
  const auto i = static_cast<std::size_t>(place);
  const double share = place - static_cast<double>(i);
  const double first = (1.0 - share) * T[i * m] + share * T[(i + 1) * m];
  const double flux = std::abs(x) < band.half_width ? band.flux : 0.0;
  return first + 0.5 * d * flux / metal.conductivity;
}

}  // namespace drumlin::tests
