#pragma once

namespace drumlin::models {

/// Elastic cover of even thickness, bonded to a rigid hub. Small strain, isotropic.
struct BondedLayer {
  double thickness;      ///< t [mm], > 0
  double modulus;        ///< Young's modulus E [MPa], > 0
  double poisson_ratio;  ///< nu [-], 0 <= nu < 0.5
};

/// Plane-strain modulus E* = E / (1 - nu^2) [MPa].
[[nodiscard]] double plane_strain_modulus(const BondedLayer& layer) noexcept;

/// Constrained modulus M = E (1 - nu) / ((1 + nu)(1 - 2 nu)) [MPa]: a wide, thin layer's stiffness.
[[nodiscard]] double constrained_modulus(const BondedLayer& layer) noexcept;

/// How far the surface of a bonded layer gives to one Fourier component of pressure.
///
/// A frictionless pressure P cos(q x) sinks the surface by C P cos(q x), in plane strain:
///
///     C = 2 / (E* q) * (2k sinh 2w - 4w) / (2k cosh 2w + 1 + k^2 + 4w^2),
///     w = q t,   k = 3 - 4 nu,   E* = E / (1 - nu^2).
///
/// Long waves feel a foundation, C -> t / M; short waves feel a half-space, C -> 2 / (E* q).
/// Between them C is not monotone: near nu = 0.5 the cover cannot give up volume, and waves about
/// three covers long sink deepest (nu = 0.47: 3.1 times C(0)).
///
/// @param layer  taken as checked; the case reader has refused what is out of range.
/// @param q      wave number |q| [rad/mm], >= 0.
/// @return       C [mm/MPa], finite and > 0; relative rounding error below 1e-12 for every w.
///
/// Source: models/theory/bonded_layer.md, eq. (7); agrees with the layer problem of Johnson (1985),
/// ch. 5.8. Checked in tests/verification/bonded_layer_test.cpp against a direct solve.
[[nodiscard]] double surface_compliance(const BondedLayer& layer, double q) noexcept;

}  // namespace drumlin::models
