#pragma once

#include <cmath>

/// Heat that surroundings take from a surface. Films in [mW/(mm^2 K)]; 1 W/(m^2 K) = 1e-3 of them.
namespace drumlin::models {

/// A film with its band.
struct Film {
  double value = 0;  ///< [mW/(mm^2 K)]
  double low = 0;
  double high = 0;
};

/// Sheet in the air of the machine, 20 to 100 W/(m^2 K) (common practice, no source).
inline constexpr Film dry_film{.value = 0.05, .low = 0.02, .high = 0.10};
/// Sheet under flood outside the contact, 2e3 to 2e4 W/(m^2 K) (common practice, no source).
inline constexpr Film flood_film{.value = 5.0, .low = 2.0, .high = 20.0};
/// Emulsion in the contact, 4.2e5 W/(m^2 K), and mist 2.5e4: Shen, Shih and Xiao (2011), fitted to
/// a grinding wheel. A belt drags less fluid through than a wheel: the lower end is the mist's.
inline constexpr Film contact_film{.value = 420.0, .low = 25.0, .high = 420.0};

/// Temperature of a surface from which on water-based fluid boils as a film and cools no more [K],
/// 120 to 130 degC (Rowe, from memory).
inline constexpr double film_boiling_water = 393.15;
/// The same of oil, about 300 degC (Rowe, from memory).
inline constexpr double film_boiling_oil = 573.15;

/// What is left of a sheet's warming after a time in which one face gives heat to its
/// surroundings [-]: exp(-h t' / (rho c t)). Holds while h t / k is far below 1.
///
/// @param film      h [mW/(mm^2 K)], >= 0.
/// @param capacity  rho c [MPa/K].
/// @param time      t' [s], >= 0.
[[nodiscard]] inline double warming_kept(double film, double capacity, double thickness,
                                         double time) noexcept {
  return std::exp(-film * time / (capacity * thickness));
}

}  // namespace drumlin::models
