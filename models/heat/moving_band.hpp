#pragma once

#include "models/heat/metal.hpp"

namespace drumlin::models {

/// A strip of even heat flux that travels over a surface, or under which the surface travels.
struct HeatedBand {
  double half_width = 0;  ///< l [mm], > 0; the strip is 2 l long along the travel
  double feed = 0;        ///< V [mm/s], > 0
  double flux = 0;        ///< q [mW/mm^2] into the body
};

/// Speed of a band over how fast heat spreads, L = V l / (2 alpha) [-].
[[nodiscard]] double band_speed_number(const HeatedBand& band, const ThermalMetal& metal) noexcept;

/// Warming of the surface of a half-space under a band, as a pure number:
///
///     T = (2 q alpha / (pi k V)) Theta(X, L),   Theta = integral of e^(-u) K0(|u|), X-L < u < X+L,
///
/// no heat through the surface elsewhere, steady as seen from the band. The integral is closed:
/// integral from 0 to z of e^t K0 = z e^t (K0 + K1) - 1, and of e^-t K0 = z e^-t (K0 - K1) + 1.
///
/// @param X  V x / (2 alpha) of the place, from the band's middle, positive ahead of it.
/// @param L  > 0.
/// @return   relative rounding error below 1e-11 for L from 1e-4 to 1e6.
///
/// Source: Jaeger (1942); the closed integral is checked against quadrature in
/// tests/verification/heat_test.cpp.
[[nodiscard]] double band_warming(double X, double L) noexcept;

/// Where a band warms the surface most, and by how much.
struct BandPeak {
  double place = 0;    ///< X / L [-], negative: behind the middle
  double warming = 0;  ///< Theta [-]
};
/// @return  place to 1e-6, warming to 1e-10: e^-b K0(b) = e^a K0(a) with a = L - X, b = L + X.
[[nodiscard]] BandPeak band_peak(double L);

/// Theta averaged over the band [-], closed like band_warming.
[[nodiscard]] double band_mean(double L) noexcept;

/// Theta for a fast band, sqrt(4 pi L): nothing flows along the travel (Jaeger 1942).
[[nodiscard]] double fast_band_peak(double L) noexcept;

/// 2 q alpha / (pi k V) [K]: Theta times it is the warming.
[[nodiscard]] double band_scale(const HeatedBand& band, const ThermalMetal& metal) noexcept;

/// Highest warming of a half-space under a band [K].
[[nodiscard]] double peak_rise(const HeatedBand& band, const ThermalMetal& metal);

}  // namespace drumlin::models
