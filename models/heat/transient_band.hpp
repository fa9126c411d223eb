#pragma once

#include "models/heat/moving_band.hpp"

namespace drumlin::models {

/// Warming of a half-space's surface under a band a time after it began to work [K], at a place
/// that travels with the band. Before Jaeger's steady state is reached:
///
///     T = (q / (2k)) sqrt(alpha / pi) * integral from 0 to t of
///         (erf((x + l + V s) / (2 sqrt(alpha s))) - erf((x - l + V s) / (2 sqrt(alpha s)))) ds /
///         sqrt(s)
///
/// @param x  [mm] from the band's middle, positive ahead of it.
/// @param t  [s], >= 0.
/// @return   relative error below 1e-8 (Gauss-Kronrod on sqrt s).
///
/// Source: Green's function of the half-space (Carslaw and Jaeger 1959, ch. 10), from memory.
[[nodiscard]] double band_rise_after(const HeatedBand& band, const ThermalMetal& metal, double x,
                                     double t);

/// Way that a band has to travel until its hottest place is within a share of steady [mm].
///
/// @param open  1 minus the share of the steady warming, such as 0.05; 1e-4 < open < 0.5.
[[nodiscard]] double way_to_steady(const HeatedBand& band, const ThermalMetal& metal, double open);

}  // namespace drumlin::models
