#pragma once

#include <complex>

#include "models/elastomer/cover.hpp"

namespace drumlin::models {

/// How the cover answers a component: what it works with once rate and speed are counted.
struct WorkingState {
  std::complex<double> shear_modulus;  ///< G*(omega) [MPa]
  std::complex<double> inertia;        ///< (v / c_s)^2 = rho v^2 / G* [-]; 0 at rest
};

/// State of the cover under a component of wave number q > 0 [rad/mm].
///
/// Waves so long that they pass more slowly than a durometer is read (q |v| < 1 / 3 s) meet the
/// modulus at that rate: slower, no hardness says anything, and a power law would go to nothing. A
/// cover that travels along -x meets the conjugate.
[[nodiscard]] WorkingState working_state(const Cover& cover, double q);

/// The compliances of `SurfaceCompliance` without their signs and factors i: nn, tt, and
/// nt = i coupling = -tn. All real for a cover without loss below the wave speed.
template <typename Number>
struct SymmetricCompliance {
  Number normal, coupling, tangential;  ///< nn, nt / i, tt
};

/// Half-space in steady motion: the limit of short waves, times G* q, for q > 0.
///
/// With beta_d^2 = 1 - eta x, beta_s^2 = 1 - x, x = (v / c_s)^2, eta = (1 - 2 nu)/(2 (1 - nu)) and
/// N = 4 beta_d beta_s - (1 + beta_s^2)^2,
///
///     nn = beta_d x / N,  tt = beta_s x / N,  nt / i = (2 beta_d beta_s - 1 - beta_s^2) / N;
///
/// at rest nn = tt = 1 - nu and nt / i = -(1 - 2 nu) / 2. Written so that no digits are lost for
/// small x. Diverges at the Rayleigh speed. Above the wave speed the root with outgoing waves.
///
/// Source: Cole and Huth (1958), J. Appl. Mech. 25, 433 (moving line load, from memory);
/// models/theory/moving_cover.md, eq. (9).
[[nodiscard]] SymmetricCompliance<std::complex<double>> half_space(std::complex<double> inertia,
                                                                   double poisson_ratio);

}  // namespace drumlin::models
