#pragma once

namespace drumlin::models {

/// Factor on the cover's dynamic modulus for the strain it works at, relative to 0.15 % [-].
///
/// Filled rubber softens with the amplitude of strain (Payne effect), and a drum works at 1 to 10
/// %. Interpolated in the logarithm of strain between the measured points 0.03 to 1 %, held at the
/// first and at the last beyond them: nothing was measured at a drum's own strain.
///
/// @param amplitude  of the dynamic strain [-], > 0.
///
/// Source: EPDM of nominal 70 Shore A, shear at 22 to 23 degC, mean of 10 and 100 Hz, open data of
/// MarcusNi96/dma-prony-validation; the points stand in the source file.
[[nodiscard]] double strain_softening(double amplitude) noexcept;

/// Down to where the factor may fall beyond the measured 1 % of strain [-]: judgement, from the
/// slope of the measured curve and other filled rubbers; no source.
inline constexpr double strain_softening_low = 0.6;

/// Share of its modulus that a cover loses per kelvin [1/K]: 5.15 to 4.06 MPa from 25 to 53 degC at
/// 10 Hz in the same EPDM, and within 0.3 % of the three points between. Softer mixes may lie
/// anywhere in the band (0.3 to 1 %/K in practice, no source).
inline constexpr double softening_per_kelvin = 0.0085;
inline constexpr double softening_per_kelvin_low = 0.003;
inline constexpr double softening_per_kelvin_high = 0.010;

/// Factor on the cover's modulus for its warming since the durometer read it [-],
///
///     exp(-rate dT).
///
/// Not beside a time shift of a Prony series for the same warming: that is the same effect.
///
/// @param rise  dT [K] above the durometer's temperature (23 degC by its standard); any sign.
/// @param rate  [1/K].
[[nodiscard]] double temperature_softening(double rise,
                                           double rate = softening_per_kelvin) noexcept;

}  // namespace drumlin::models
