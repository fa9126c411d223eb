#include "models/elastomer/bonded_layer.hpp"

#include <cmath>
#include <numbers>

#include <Eigen/Dense>
#include <gtest/gtest.h>

using drumlin::models::BondedLayer;
using drumlin::models::constrained_modulus;
using drumlin::models::plane_strain_modulus;
using drumlin::models::surface_compliance;

namespace {

constexpr BondedLayer cover{.thickness = 15.0, .modulus = 1.69, .poisson_ratio = 0.47};

/// Solves the layer problem without using its closed form: the Airy function
/// (a + b z) exp(q z) + (c + d z) exp(-q z) times cos(q x), z from the hub up, with both
/// displacements zero at the hub, no shear and a unit normal pressure at the surface. In long
/// double, since the four conditions differ by exp(2 q t).
long double direct_compliance(const BondedLayer& layer, long double q) {
  const long double t = layer.thickness;
  const long double nu = layer.poisson_ratio;
  const long double g = layer.modulus / (2.0L * (1.0L + nu));
  // 2 G u_x = [-phi' form] follows from sxx = phi'', szz = -q^2 phi, sxz = q phi' (plane strain):
  //   2 G du_x/dx = (1 - nu) sxx - nu szz,  2 G du_z/dz = (1 - nu) szz - nu sxx.
  // With phi = f(z) cos qx:  2 G u_x = sin(qx)/q [(1 - nu) f'' + nu q^2 f],
  //   2 G u_z = cos(qx) [-(1 - nu) q^2 F - nu f'],  F' = f.
  Eigen::Matrix<long double, 4, 4> m;
  Eigen::Matrix<long double, 4, 1> rhs;
  rhs << 0, 0, 0, -1.0L;
  const auto basis = [&](int k, long double z, int derivative) -> long double {
    const long double s = k < 2 ? q : -q;
    const long double e = std::exp(s * z);
    const long double poly = k % 2 == 0 ? 1.0L : z;
    switch (derivative) {
      case -1:  // an integral of the basis function
        return k % 2 == 0 ? e / s : e * (z / s - 1.0L / (s * s));
      case 0:
        return poly * e;
      case 1:
        return k % 2 == 0 ? s * e : (1.0L + s * z) * e;
      default:
        return k % 2 == 0 ? s * s * e : (2.0L * s + s * s * z) * e;
    }
  };
  for (int k = 0; k < 4; ++k) {
    m(0, k) = (1.0L - nu) * basis(k, 0, 2) + nu * q * q * basis(k, 0, 0);
    m(1, k) = -(1.0L - nu) * q * q * basis(k, 0, -1) - nu * basis(k, 0, 1);
    m(2, k) = basis(k, t, 1);
    m(3, k) = -q * q * basis(k, t, 0);
  }
  const Eigen::Matrix<long double, 4, 1> a = m.fullPivLu().solve(rhs);
  long double u = 0;
  for (int k = 0; k < 4; ++k) {
    u += a(k) * (-(1.0L - nu) * q * q * basis(k, t, -1) - nu * basis(k, t, 1));
  }
  return -u / (2.0L * g);
}

}  // namespace

// Rounding of the 4 x 4 solve grows with exp(2w); 1e-9 holds up to w = 8.
TEST(BondedLayerCompliance, AgreesWithADirectSolveOfTheLayer) {
  for (const double nu : {0.0, 0.3, 0.45, 0.47, 0.499, 0.4999}) {
    const BondedLayer layer{.thickness = 15.0, .modulus = 1.69, .poisson_ratio = nu};
    for (const double w : {0.05, 0.3, 0.99, 1.01, 2.0, 5.0, 8.0}) {
      const double q = w / layer.thickness;
      const double expected = static_cast<double>(direct_compliance(layer, q));
      EXPECT_NEAR(surface_compliance(layer, q) / expected, 1.0, 1e-9) << "nu " << nu << " w " << w;
    }
  }
}

// The foundation limit is reached with an error of order w^2: halving w must quarter it.
TEST(BondedLayerCompliance, NearsTheFoundationWithSecondOrder) {
  const double limit = cover.thickness / constrained_modulus(cover);
  EXPECT_DOUBLE_EQ(surface_compliance(cover, 0.0), limit);
  const auto error = [&](double w) {
    return std::abs(surface_compliance(cover, w / cover.thickness) - limit);
  };
  EXPECT_NEAR(std::log2(error(2e-3) / error(1e-3)), 2.0, 1e-3);
}

// Beyond w = 20 what is left of the layer is of order w^2 exp(-2w) < 1e-14.
TEST(BondedLayerCompliance, IsTheHalfSpaceForShortWaves) {
  for (const double w : {20.0, 200.0, 1e4, 1e6}) {
    const double q = w / cover.thickness;
    EXPECT_NEAR(surface_compliance(cover, q) * plane_strain_modulus(cover) * q / 2.0, 1.0, 1e-13);
  }
}

// The two ways of writing it meet at w = 1 without a step.
TEST(BondedLayerCompliance, HasNoStepWhereTheFormulaChanges) {
  const double below = surface_compliance(cover, std::nextafter(1.0, 0.0) / cover.thickness);
  const double above = surface_compliance(cover, std::nextafter(1.0, 2.0) / cover.thickness);
  EXPECT_NEAR(below / above, 1.0, 1e-14);
}

// nu close to 0.5: the numerator is a difference of nearly equal terms unless written with care.
// To third order in w the compliance of a nearly incompressible layer is C(0) + t (w^2 ...), and
// C(0) itself is t (1 + nu)(1 - 2 nu) / (E (1 - nu)); at w = 1e-8 nothing else may be seen.
TEST(BondedLayerCompliance, KeepsItsDigitsNearlyIncompressible) {
  const BondedLayer layer{.thickness = 15.0, .modulus = 1.69, .poisson_ratio = 0.499999};
  const double limit = layer.thickness / constrained_modulus(layer);
  EXPECT_NEAR(surface_compliance(layer, 1e-8 / layer.thickness) / limit, 1.0, 1e-9);
}

// Stated in the docstring: at nu 0.47 the softest wave gives 3.1 times the foundation.
TEST(BondedLayerCompliance, IsSoftestForWavesThreeCoversLong) {
  double most = 0.0;
  double at = 0.0;
  for (double w = 0.1; w < 10.0; w += 0.01) {
    const double c = surface_compliance(cover, w / cover.thickness);
    if (c > most) {
      most = c;
      at = w;
    }
  }
  EXPECT_NEAR(most / surface_compliance(cover, 0.0), 3.1, 0.05);
  EXPECT_NEAR(2.0 * std::numbers::pi / at, 3.0, 0.3);
}

TEST(BondedLayerCompliance, FollowsItsDimensions) {
  // Lengths x 10 at moduli x 7: a compliance of length over pressure.
  const BondedLayer large{.thickness = 150.0, .modulus = 7 * 1.69, .poisson_ratio = 0.47};
  EXPECT_NEAR(surface_compliance(large, 0.02) / surface_compliance(cover, 0.2), 10.0 / 7.0, 1e-14);
}
