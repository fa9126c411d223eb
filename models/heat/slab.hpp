#pragma once

#include "models/heat/moving_band.hpp"

namespace drumlin::models {

/// Warming of the heated face of a sheet under a moving band [K], steady as seen from the band; no
/// heat through the back nor through the face outside the band.
///
/// Cosine modes over the thickness t, each of which obeys alpha T'' - V T' - alpha m^2 T + s = 0
/// with m = n pi / t and s = q / (rho c t) under the band, and has a closed form. Thick sheets tend
/// to Jaeger's half-space, thin ones to the plug that warms evenly through its thickness.
///
/// @param thickness  t [mm], > 0.
/// @param x  [mm] from the band's middle, the way that the sheet runs: the band's end that a place
///           of the sheet meets last lies at +l.
/// @return   series cut where the rest is below 1e-9 of the sum, at 4000 modes at most; at the very
///           ends of the band (x = +-l) the last modes fall as 1/n^2 and their tail is added in
///           closed form, error then below 1e-4 of the sum.
///
/// Source: models/theory/heat.md, eq. (6).
[[nodiscard]] double sheet_rise(const HeatedBand& band, const ThermalMetal& metal, double thickness,
                                double x);

/// Mean over the thickness that stays behind the band [K]: all heat is in the sheet,
/// 2 l q / (V rho c t) = R P / (V rho c t) with R P the heat per width and time.
[[nodiscard]] double mean_rise(const HeatedBand& band, const ThermalMetal& metal,
                               double thickness) noexcept;

/// Highest warming of the heated face of a sheet [K]. Sheets thicker than three times what heat
/// spreads in the time under the band, sqrt(alpha 2l / V), count as half-spaces; the back changes
/// less than 1e-4 there. Within 1e-3 of the profile's highest place, from below.
[[nodiscard]] double peak_rise(const HeatedBand& band, const ThermalMetal& metal, double thickness);

}  // namespace drumlin::models
