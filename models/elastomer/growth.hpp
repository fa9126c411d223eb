#pragma once

#include "models/elastomer/bonded_layer.hpp"

namespace drumlin::models {

/// How much a warm cover stands higher than a cold one [mm],
///
///     t alpha dT (1 + nu) / (1 - nu):
///
/// the hub holds the sides, so the free expansion comes out through the surface. For t well below
/// R; the hub's own expansion is left out.
///
/// @param expansion  linear, alpha [1/K].
/// @param rise       dT [K].
[[nodiscard]] constexpr double thermal_growth(const BondedLayer& cover, double expansion,
                                              double rise) noexcept {
  const double nu = cover.poisson_ratio;
  return cover.thickness * expansion * rise * (1.0 + nu) / (1.0 - nu);
}

/// How much the cover of a turning drum stands higher than at rest [mm],
///
///     rho v^2 t^2 / (2 R M),   M the constrained modulus:
///
/// a layer that hangs outward by its own weight times v^2 / (g R). For t well below R.
///
/// @param density  rho [t/mm^3].
/// @param radius   R [mm] of the outer surface.
/// @param speed    v [mm/s] of the surface.
[[nodiscard]] inline double centrifugal_growth(const BondedLayer& cover, double density,
                                               double radius, double speed) noexcept {
  const double t = cover.thickness;
  return density * speed * speed * t * t / (2.0 * radius * constrained_modulus(cover));
}

}  // namespace drumlin::models
