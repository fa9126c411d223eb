#pragma once

#include "models/elastomer/bonded_layer.hpp"

namespace drumlin::models {

/// Speed of shear waves in the cover, c_s = sqrt(G / rho) [mm/s], G = E / (2 (1 + nu)).
///
/// @param density  rho [t/mm^3], > 0.
[[nodiscard]] double shear_wave_speed(const BondedLayer& cover, double density) noexcept;

/// Speed of Rayleigh waves c_R [mm/s]: the speed at which a thick cover's compliance under a moving
/// load diverges. Root of
///
///     (2 - z)^2 = 4 sqrt(1 - z) sqrt(1 - z k),   z = (c_R / c_s)^2,  k = (1 - 2nu) / (2 (1 - nu)).
///
/// Source: Rayleigh (1885), Proc. London Math. Soc. 17, 4; nu = 0.5 gives 0.9553 c_s.
[[nodiscard]] double rayleigh_wave_speed(const BondedLayer& cover, double density) noexcept;

}  // namespace drumlin::models
