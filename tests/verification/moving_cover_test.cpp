#include <array>
#include <cmath>
#include <complex>

#include <gtest/gtest.h>

#include "models/elastomer/cover.hpp"
#include "models/elastomer/cover_table.hpp"
#include "models/elastomer/half_space.hpp"
#include "tests/support/layer_judges.hpp"

using namespace drumlin::models;
using drumlin::tests::by_potentials;
using drumlin::tests::by_virtual_work;

namespace {

using Complex = std::complex<double>;

constexpr double rubber = 1.1e-9;  // t/mm^3

Cover still(double nu, double curvature = 0.0) {
  Cover cover;
  cover.layer = {.thickness = 15.0, .modulus = 1.69, .poisson_ratio = nu};
  cover.curvature = curvature;
  cover.density = rubber;
  return cover;
}

double shear_speed(const Cover& cover) {
  return std::sqrt(cover.layer.modulus / (2.0 * (1.0 + cover.layer.poisson_ratio) * rubber));
}

Cover at_share_of_shear_speed(Cover cover, double share) {
  cover.speed = share * shear_speed(cover);
  return cover;
}

/// Largest difference of the three compliances, each over its own size (coupling over that of tt,
/// since it passes through zero).
double difference(const SurfaceCompliance& a, const SurfaceCompliance& b) {
  return std::max({std::abs(a.nn / b.nn - 1.0), std::abs(a.nt - b.nt) / std::abs(b.tt),
                   std::abs(a.tt / b.tt - 1.0)});
}

SurfaceCompliance judged(const Cover& cover, double q) {
  const auto c = by_virtual_work(cover, q);
  const Complex i(0.0, 1.0);
  return {c.normal, i * c.coupling, -i * c.coupling, c.tangential};
}

}  // namespace

// The promise is 1e-6; the flat closed form on one side, the integration outward on the other.
TEST(CoverInMotion, IsTheStaticCoverWhenItHardlyMoves) {
  for (const double nu : {0.3, 0.47, 0.4999}) {
    for (const double w : {1e-3, 0.05, 0.5, 2.0, 8.0, 20.0, 30.0}) {
      Cover crawling = still(nu);
      crawling.speed = 1.0;  // 1 mm/s: inertia of order 1e-9
      const double q = w / crawling.layer.thickness;
      EXPECT_LT(difference(surface_compliance(crawling, q), surface_compliance(still(nu), q)), 1e-6)
          << "nu " << nu << " w " << w;
    }
  }
}

TEST(CoverInMotion, GivesTheBondedLayersNormalComplianceAtRest) {
  for (const double w : {1e-3, 0.5, 3.0, 30.0}) {
    const double q = w / 15.0;
    EXPECT_DOUBLE_EQ(surface_compliance(still(0.47), q).nn.real(),
                     surface_compliance(still(0.47).layer, q));
    EXPECT_EQ(surface_compliance(still(0.47), q).nn.imag(), 0.0);
  }
}

// The difference to flat is of first order in t / R, below five of them: 15e-8 at R = 1e9 mm.
TEST(CoverInMotion, IsTheFlatLayerOnAHugeDrum) {
  for (const double share : {0.0, 0.6}) {
    for (const double w : {0.02, 0.5, 2.0, 8.0, 20.0, 200.0}) {
      const double q = w / 15.0;
      const Cover drum = at_share_of_shear_speed(still(0.47, 1e-9), share);
      const Cover flat = at_share_of_shear_speed(still(0.47), share);
      EXPECT_LT(difference(surface_compliance(drum, q), surface_compliance(flat, q)), 1e-6)
          << "share " << share << " w " << w;
    }
  }
}

// Virtual work with polynomials of degree 28 is exact to 1e-8 up to some ten radians through the
// cover; incompressibility does not lock it at that degree.
TEST(CoverInMotion, AgreesWithVirtualWorkFlatAndOnTheDrumAtRestAndInMotion) {
  for (const double curvature : {0.0, 0.01, 0.025}) {
    for (const double nu : {0.3, 0.47, 0.4999}) {
      for (const double share : {0.0, 0.4, 0.8}) {
        for (const double loss : {0.0, 0.2}) {
          Cover cover = at_share_of_shear_speed(still(nu, curvature), share);
          if (loss > 0.0) cover.relaxation = ConstantLoss{loss};
          for (const double w : {0.01, 0.15, 0.6, 2.0, 6.0, 11.0}) {
            const double q = w / 15.0;
            EXPECT_LT(difference(surface_compliance(cover, q), judged(cover, q)), 1e-6)
                << "curvature " << curvature << " nu " << nu << " v/cs " << share << " loss "
                << loss << " w " << w;
          }
        }
      }
    }
  }
}

// Lame's ring in plane strain, bonded inside: u = A r + B / r with u = 0 at the hub.
TEST(CoverInMotion, IsLamesRingWithoutAWave) {
  for (const double nu : {0.3, 0.4999}) {
    const Cover drum = still(nu, 0.01);
    const double g = drum.layer.modulus / (2.0 * (1.0 + nu));
    const double lame = 2.0 * g * nu / (1.0 - 2.0 * nu);
    const double hub = 85.0;
    const double outer = 100.0;
    const double radial =
        (outer - hub * hub / outer) / (2.0 * (lame + g) + 2.0 * g * hub * hub / (outer * outer));
    EXPECT_NEAR(surface_compliance(drum, 0.0).nn.real() / radial, 1.0, 1e-7) << nu;
    // Twist of the ring: sigma_rt = T R^2 / r^2 and u_t / r = -T R^2 / (2 G r^2) + constant.
    const double twist = outer / (2.0 * g) * (outer * outer / (hub * hub) - 1.0);
    EXPECT_NEAR(surface_compliance(drum, 0.0).tt.real() / twist, 1.0, 1e-7) << nu;
  }
}

// Rounded to four digits in the sources the numbers were taken from.
TEST(CoverInMotion, SoftensTowardsTheWaveSpeedAsThePotentialsSay) {
  constexpr std::array<double, 4> shares{1.0 / 3.0, 0.5, 2.0 / 3.0, 0.8};
  constexpr std::array<double, 4> deep{1.092, 1.242, 1.580, 2.340};
  constexpr std::array<double, 4> at_two{1.041, 1.098, 1.190, 1.303};
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const Cover moving = at_share_of_shear_speed(still(0.47), shares[i]);
    const double x = shares[i] * shares[i];
    for (const auto& [w, expected] : {std::pair{25.0, deep[i]}, std::pair{2.0, at_two[i]}}) {
      const double q = w / 15.0;
      const double ratio =
          (surface_compliance(moving, q).nn / surface_compliance(still(0.47), q).nn).real();
      EXPECT_NEAR(ratio, expected, 1e-3) << "v/cs " << shares[i] << " w " << w;
    }
    EXPECT_NEAR(half_space(x, 0.47).normal.real() / 0.53, deep[i], 1e-3);
    // The same by a direct solve; long double leaves 1e-9 of it.
    const double q = 2.0 / 15.0;
    const double g = moving.layer.modulus / (2.0 * 1.47);
    EXPECT_NEAR(surface_compliance(moving, q).nn.real() * g * q / 0.53, by_potentials(0.47, 2.0, x),
                1e-6);
  }
}

// The switch to the half-space leaves 4 w^2 exp(-2 w) at w = 12, 2e-8, more where waves fall off
// slowly; a drum has no switch to a closed form at all.
TEST(CoverInMotion, JoinsTheHalfSpaceWithoutAStep) {
  for (const double curvature : {0.0, 0.01}) {
    for (const double share : {0.0, 0.5, 0.9}) {
      const Cover cover = at_share_of_shear_speed(still(0.49, curvature), share);
      const double join = 12.0 / std::sqrt(1.0 - share * share) / 15.0;
      const auto scaled = [&](double q) { return surface_compliance(cover, q).nn * q; };
      EXPECT_LT(std::abs(scaled(join * (1.0 + 1e-9)) / scaled(join * (1.0 - 1e-9)) - 1.0), 1e-5)
          << curvature << " " << share;
    }
  }
}

TEST(CoverInMotion, IsReciprocalAndConjugateInTheWaveNumber) {
  Cover cover = at_share_of_shear_speed(still(0.47, 0.01), 0.5);
  cover.relaxation = ConstantLoss{0.15};
  const SurfaceCompliance ahead = surface_compliance(cover, 0.13);
  const SurfaceCompliance back = surface_compliance(cover, -0.13);
  EXPECT_EQ(back.nn, std::conj(ahead.nn));
  EXPECT_EQ(back.nt, std::conj(ahead.nt));
  EXPECT_EQ(back.tt, std::conj(ahead.tt));
  // Betti with the travelling direction reversed: tn(q) = nt(-q) for real moduli, and tn = -nt as
  // functions of the modulus.
  EXPECT_EQ(ahead.tn, -ahead.nt);
}

// The mirror image along x: the same cover, seen from the other side.
TEST(CoverInMotion, TravelsTheOtherWayAsItsMirrorImage) {
  Cover ahead = at_share_of_shear_speed(still(0.47, 0.01), 0.5);
  ahead.relaxation = ConstantLoss{0.15};
  Cover back = ahead;
  back.speed = -ahead.speed;
  const SurfaceCompliance a = surface_compliance(ahead, 0.13);
  const SurfaceCompliance b = surface_compliance(back, -0.13);
  // The two integrations see conjugate numbers, step by step.
  EXPECT_NEAR(std::abs(b.nn / a.nn - 1.0), 0.0, 1e-14);
  EXPECT_NEAR(std::abs(b.nt / a.nt + 1.0), 0.0, 1e-14);
  EXPECT_NEAR(std::abs(b.tt / a.tt - 1.0), 0.0, 1e-14);
}

// Power of the tractions f on the moving surface, Re conj(f) . (i q v C f), is what the cover turns
// into heat: the part of i q v C that is Hermitian must be positive for v > 0, whatever the
// traction.
TEST(CoverInMotion, TakesWorkAndNeverGivesAny) {
  for (const double curvature : {0.0, 0.01, 0.025}) {
    for (const double share : {0.2, 0.6, 0.9, 1.2}) {
      for (const double loss : {0.02, 0.3}) {
        Cover cover = at_share_of_shear_speed(still(0.48, curvature), share);
        cover.relaxation = ConstantLoss{loss};
        for (const double w : {0.05, 0.5, 1.5, 3.0, 7.0, 40.0}) {
          const SurfaceCompliance c = surface_compliance(cover, w / 15.0);
          const double coupling = c.nt.real();  // imaginary part of nt / i, with a sign
          EXPECT_LT(c.nn.imag(), 0.0);
          EXPECT_LT(c.tt.imag(), 0.0);
          // Equality is possible; 1e-9 of the product covers the rounding.
          EXPECT_LE(coupling * coupling, c.nn.imag() * c.tt.imag() * (1.0 + 1e-9) + 1e-15)
              << curvature << " " << share << " " << loss << " " << w;
        }
      }
    }
  }
}

// Where a cover without loss outruns its own waves the compliance passes poles; the judge has none
// on its way. Close to a pole every digit of one is worth ten of the other: 1e-4.
TEST(CoverInMotion, FollowsAnElasticCoverBeyondItsWaveSpeed) {
  for (const double curvature : {0.0, 0.01}) {
    const Cover cover = at_share_of_shear_speed(still(0.47, curvature), 1.6);
    for (const double w : {0.5, 1.3, 2.1, 4.0, 7.0}) {
      EXPECT_LT(difference(surface_compliance(cover, w / 15.0), judged(cover, w / 15.0)), 1e-4)
          << curvature << " " << w;
    }
  }
}

// The dimensions: lengths times 10, moduli and densities times 7 (speeds as they are).
TEST(CoverInMotion, ScalesWithLengthAndModulus) {
  Cover cover = at_share_of_shear_speed(still(0.47, 0.01), 0.6);
  Cover big = cover;
  big.layer.thickness *= 10.0;
  big.layer.modulus *= 7.0;
  big.density *= 7.0;
  big.curvature /= 10.0;
  const SurfaceCompliance small = surface_compliance(cover, 0.2);
  SurfaceCompliance scaled = surface_compliance(big, 0.02);
  for (Complex* part : {&scaled.nn, &scaled.nt, &scaled.tn, &scaled.tt})
    *part *= 0.7;
  EXPECT_LT(difference(scaled, small), 1e-9);
}

// What the table promises: its accuracy against the larger of the wave's and the cover's own give;
// a factor of two for the steps of its own integration.
TEST(CoverTable, KeepsItsAccuracy) {
  for (const double accuracy : {1e-3, 1e-5}) {
    for (const double curvature : {0.0, 0.01}) {
      for (const double share : {0.0, 0.6}) {
        Cover cover = at_share_of_shear_speed(still(0.47, curvature), share);
        if (share > 0.0) cover.relaxation = ConstantLoss{0.15};
        const CoverTable table(cover, accuracy);
        for (int i = 0; i < 80; ++i) {
          const double w = 0.0123 * std::pow(1.17, i);
          const SurfaceCompliance direct = surface_compliance(cover, w / 15.0);
          const auto c = table(w / 15.0);
          const double size = std::abs(direct.tt);
          EXPECT_LT(std::abs(c.normal - direct.nn) / size, 2.0 * accuracy) << w;
          EXPECT_LT(std::abs(Complex(0.0, 1.0) * c.coupling - direct.nt) / size, 2.0 * accuracy)
              << w;
          EXPECT_LT(std::abs(c.tangential - direct.tt) / size, 2.0 * accuracy) << w;
        }
      }
    }
  }
}
