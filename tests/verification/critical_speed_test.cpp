#include "models/belt/critical_speed.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "models/elastomer/cover.hpp"
#include "models/elastomer/waves.hpp"

using namespace drumlin::models;

namespace {

constexpr double rubber = 1.1e-9;  // t/mm^3

BeltOnCover soft(Grip grip = Grip::slip) {
  BeltOnCover nip;
  nip.cover.layer = {.thickness = 15.0, .modulus = 0.732, .poisson_ratio = 0.47};  // 20 Shore A
  nip.cover.density = rubber;
  nip.grip = grip;
  return nip;
}

double shear(const BeltOnCover& nip) {
  return shear_wave_speed(nip.cover.layer, rubber);
}

}  // namespace

// Without a belt the slowest waves are the shortest: Rayleigh's, within what the hub still does to
// waves of a seventh of the cover, nothing.
TEST(CriticalSpeed, OfABareCoverIsItsRayleighSpeed) {
  const BeltOnCover bare = soft();
  const auto found = critical_speed(bare, 0.0);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->speed / rayleigh_wave_speed(bare.cover.layer, rubber), 1.0, 1e-6);
}

// A surface that may not stretch carries no Rayleigh wave: its secular function, 1 - beta_s beta_d
// over beta_s, has no root below the shear wave speed. What is found is the slowest wave trapped
// between hub and surface, 1 + (pi / 2 w)^2 / 2 at least: within 1 % of c_s.
TEST(CriticalSpeed, OfAHeldCoverIsThatOfShearWaves) {
  const auto found = critical_speed(soft(Grip::stick), 0.0);
  ASSERT_TRUE(found);
  EXPECT_GT(found->speed, shear(soft()));
  EXPECT_LT(found->speed, 1.01 * shear(soft()));
}

// A prototype moved 0.955 c_s to 1.03 with D 0.5, T 2 on a soft cover; which of the waves just
// above the shear wave speed count is a convention, two hundredths wide.
TEST(CriticalSpeed, IsRaisedByABeltThatHolds) {
  BeltOnCover belted = soft();
  belted.belt = {.bending_stiffness = 0.5, .tension = 2.0, .grain_compliance = 0.0};
  const auto found = critical_speed(belted, 0.0);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->speed / shear(belted), 1.03, 0.03);
  EXPECT_GT(found->speed, rayleigh_wave_speed(belted.cover.layer, rubber));
}

TEST(CriticalSpeed, FallsWithTheBeltsMassAndRisesWithTheModulus) {
  BeltOnCover belted = soft();
  belted.belt = {.bending_stiffness = 0.5, .tension = 2.0, .grain_compliance = 0.0};
  const auto light = critical_speed(belted, 0.0);
  const auto heavy = critical_speed(belted, 1.5e-9);  // 1.5 kg/m^2
  const auto stiff = critical_speed(belted, 0.0, 2.0);
  ASSERT_TRUE(light && heavy && stiff);
  EXPECT_LT(heavy->speed, light->speed);
  EXPECT_GT(stiff->speed, light->speed);
  // A bare cover's own goes with the root of its modulus, exactly.
  EXPECT_NEAR(critical_speed(soft(), 0.0, 2.0)->speed / critical_speed(soft(), 0.0)->speed,
              std::sqrt(2.0), 1e-9);
}

// Belt of tension T and mass m' alone, on hardly any rubber: waves along a string run at
// sqrt(T / m'), and no bending keeps the short ones from doing so. A cover of 1e-4 MPa is felt by
// 1e-4 / (T q) of it.
TEST(CriticalSpeed, OfABeltOnAlmostNothingIsThatOfAString) {
  BeltOnCover string = soft();
  string.cover.layer.modulus = 1e-4;
  string.cover.density = 1e-15;  // shear waves ten times as fast as the string's
  string.belt = {.bending_stiffness = 0.0, .tension = 2.0, .grain_compliance = 0.0};
  const double expected = std::sqrt(2.0 / 1e-9);
  const auto found = critical_speed(string, 1e-9);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->speed / expected, 1.0, 1e-3);
}

// The defining equation, with the compliance integrated through the cover instead of its four
// partial waves: what holds the wave changes sign there. A thousandth of the speed to either side.
TEST(CriticalSpeed, IsARootOfTheCoversOwnEquation) {
  for (const Grip grip : {Grip::slip, Grip::stick}) {
    BeltOnCover belted = soft(grip);
    belted.belt = {.bending_stiffness = 0.5, .tension = 2.0, .grain_compliance = 0.0};
    constexpr double mass = 1e-9;
    const auto found = critical_speed(belted, mass);
    ASSERT_TRUE(found);
    const auto held_by = [&](double v) {
      BeltOnCover moving = belted;
      moving.cover.speed = v;
      moving.belt.tension -= mass * v * v;
      return 1.0 / nip_compliance(moving, found->wave_number).real();
    };
    EXPECT_GT(held_by(0.999 * found->speed), 0.0);
    EXPECT_LT(held_by(1.001 * found->speed), 0.0);
  }
}
