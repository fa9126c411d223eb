#pragma once

#include <complex>

#include "models/elastomer/bonded_layer.hpp"
#include "models/elastomer/relaxation.hpp"

namespace drumlin::models {

/// Cover on a rigid hub, bonded to it, at rest or travelling steadily through the nip.
struct Cover {
  BondedLayer layer{};   ///< modulus as the durometer reads it, times whatever stiffens the nip
  double curvature = 0;  ///< 1/R [1/mm] of the outer surface; 0: flat layer
  double density = 0;    ///< rho [t/mm^3]; counts only in motion
  double speed = 0;      ///< v [mm/s] of the surface through the nip, > 0 along +x; 0: at rest
  AnyRelaxation relaxation = RateIndependent{};
};

/// What the surface gives to a component exp(i q s) of traction, s the arc along the surface (+x).
/// First letter: displacement, second: traction; n into the cover, t along +x. [mm/MPa]
struct SurfaceCompliance {
  std::complex<double> nn, nt, tn, tt;
};

/// Compliance matrix of the cover's surface for one wave number.
///
/// Plane strain, small strain, steady in the frame of the nip: material passes at `speed`, so a
/// component works at omega = q v, with inertia rho v^2, on the drum with centrifugal and Coriolis
/// terms (rho (u'' + 2 Omega x u' - Omega^2 u) = div sigma), with the complex modulus at that
/// frequency, and with nu constant. Curvature: per circumferential harmonic n = q R of the annulus
/// between R - t and R.
///
/// @param q  [rad/mm], any sign; C(-q) = conj C(q).
///
/// Source: models/theory/moving_cover.md.
[[nodiscard]] SurfaceCompliance surface_compliance(const Cover& cover, double q);

/// The same at another relative error of each step of the integration outward. Above it is 1e-6,
/// which leaves 1e-7 at the surface in 6 to 14 microseconds; 1e-4 leaves 1e-5 in half the time.
[[nodiscard]] SurfaceCompliance surface_compliance(const Cover& cover, double q, double tolerance);

}  // namespace drumlin::models
