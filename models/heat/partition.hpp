#pragma once

#include "models/heat/metal.hpp"

namespace drumlin::models {

/// Share of the grinding heat that goes into the work, of what grain and work get together [-]:
///
///     R = 1 / (1 + k_g / (beta sqrt(r0 v))),   beta = sqrt(k rho c) of the work:
///
/// a grain's flat of radius r0 slides at v over the work; the grain conducts as a half-space with
/// a steady round source, the work as under a fast moving one.
///
/// @param grain_conductivity  k_g [mW/(mm K)].
/// @param flat_radius         r0 [mm], > 0.
/// @param speed               v [mm/s], > 0.
///
/// Source: Hahn (1962), in the form of Rowe; from memory.
[[nodiscard]] double share_to_work(const ThermalMetal& work, double grain_conductivity,
                                   double flat_radius, double speed) noexcept;

/// Share of the power that chips carry away [-]: they leave warmed by a part of the way to their
/// melting point, f rho c (T_m - T_0) per volume, and cost the specific energy u to make.
///
/// @param fraction         f [-] of the heat that would bring a chip to melting.
/// @param to_melting       T_m - T_0 [K].
/// @param specific_energy  u [MPa], > 0.
/// @return                 at most 1.
[[nodiscard]] double share_to_chips(const ThermalMetal& work, double fraction, double to_melting,
                                    double specific_energy) noexcept;

/// Share that stays in the work where fluid in the contact takes its part [-]: heat goes where
/// conductance is, R h_w / (h_w + h_f).
///
/// @param dry_share   R [-].
/// @param work_film   h_w [mW/(mm^2 K)], flux over mean warming of the work under the band.
/// @param fluid_film  h_f [mW/(mm^2 K)], >= 0.
[[nodiscard]] double share_under_fluid(double dry_share, double work_film,
                                       double fluid_film) noexcept;

}  // namespace drumlin::models
