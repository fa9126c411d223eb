#include "models/burr/burr_kinds.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <gtest/gtest.h>

#include "models/burr/fold.hpp"

using namespace drumlin;
using models::AnyBurr;
using models::Bead;
using models::Lip;
using models::WallBurr;

namespace {

/// Area under a burr's profile, by the midpoint rule on fine steps.
double area_under(const AnyBurr& burr) {
  constexpr int steps = 200000;
  const double width = models::footprint_of(burr);
  double sum = 0.0;
  for (int i = 0; i < steps; ++i)
    sum += models::profile_of(burr, (i + 0.5) * width / steps);
  return sum * width / steps;
}

const Bead bead{.width = 0.6, .height = 0.25, .specific_energy = 2e4, .bond_strength = 40.0};

}  // namespace

// A midpoint sum over 2e5 steps is good to 1e-6 where the profile's slope is finite.
TEST(BurrKinds, HaveTheAreaUnderTheirProfile) {
  const AnyBurr burrs[] = {
      WallBurr{.height = 0.15, .root = 0.1, .taper = 0.0, .flow_stress = 300},
      WallBurr{.height = 0.15, .root = 0.1, .taper = 0.5, .flow_stress = 300}, bead,
      Bead{.width = 2.0, .height = 1.0, .specific_energy = 1e4, .bond_strength = 10},
      models::Stub{.protrusion = 0.3, .height = 0.05, .root = 0.1}};
  for (const AnyBurr& burr : burrs)
    EXPECT_NEAR(models::area_of(burr) / area_under(burr), 1.0, 1e-5) << burr.index();
}

// Half a circle and a flat segment: pi r^2 / 2, and 2 w h / 3 as h goes to 0.
TEST(Bead, IsASegmentOfACircle) {
  const Bead half{.width = 2.0, .height = 1.0, .specific_energy = 1e4, .bond_strength = 10};
  EXPECT_NEAR(models::area_of(half), 0.5 * std::numbers::pi, 1e-12);
  EXPECT_NEAR(models::profile(half, 0.5), std::sqrt(0.75), 1e-12);
  const Bead flat{.width = 1.0, .height = 1e-3, .specific_energy = 1e4, .bond_strength = 10};
  // The next term of the series is (h/w)^2 of it.
  EXPECT_NEAR(models::area_of(flat) / (2.0 / 3.0 * 1e-3), 1.0, 1e-5);
}

// Beam on a foot of width w: tension 6 mu f h / w^2 - f / w at its edge, or shear mu f / w.
TEST(Bead, BreaksWhereTensionOrShearOfItsFootComesToTheBond) {
  const double mu = 0.4;
  const double f = models::breaking_force(bead, 0.25, mu);
  const double tension = 6.0 * mu * f * 0.25 / 0.36 - f / 0.6;
  const double shear = mu * f / 0.6;
  EXPECT_NEAR(std::max(tension, shear), 40.0, 1e-9);
  // Ground flat it can only shear.
  EXPECT_NEAR(models::breaking_force(bead, 0.0, mu), 40.0 * 0.6 / mu, 1e-9);
  // A strike from the side does not press it on.
  EXPECT_LT(models::breaking_strike(bead, 0.25), mu * f);
}

// The weakest section is where force times arm over thickness squared is largest: looked for here
// on a fine row of heights.
TEST(WallBurr, BendsAtItsWeakestSection) {
  for (const double taper : {0.0, 0.2, 0.35, 0.45}) {
    const WallBurr wall{.height = 0.2, .root = 0.1, .taper = taper, .flow_stress = 300};
    for (const double height : {0.2, 0.12, 0.05}) {
      double worst = 0.0;
      double at = 0.0;
      for (int i = 0; i < 20000; ++i) {
        const double z = height * i / 20000;
        const double t = wall.root - z * std::tan(taper);
        if (t <= 0.0) break;
        const double ratio = (height - z) / (t * t);
        if (ratio <= worst) continue;
        worst = ratio;
        at = z;
      }
      const auto weakest = models::weakest_section(wall, height);
      EXPECT_NEAR(weakest.height, at, 2e-5) << taper << ' ' << height;
      EXPECT_NEAR(weakest.thickness, wall.root - at * std::tan(taper), 2e-5);
    }
  }
}

// Corners of the turned plate, and its middle, by hand.
TEST(Lip, StandsUprightAndLiesFlat) {
  const Lip upright{.length = 0.12, .thickness = 0.02, .turn = 0.0};
  EXPECT_NEAR(models::top(upright, 0.0), 0.12, 1e-12);
  EXPECT_NEAR(models::reach(upright), 0.01, 1e-12);
  EXPECT_EQ(models::top(upright, 0.011), -std::numeric_limits<double>::infinity());
  const Lip flat{.length = 0.12, .thickness = 0.02, .turn = 0.5 * std::numbers::pi};
  EXPECT_NEAR(models::top(flat, 0.06), 0.01, 1e-12);
  EXPECT_NEAR(models::reach(flat), 0.12, 1e-12);
  const Lip half{.length = 0.12, .thickness = 0.02, .turn = 0.25 * std::numbers::pi};
  // On its upper side, half a thickness off the middle line.
  const double s = std::sqrt(0.5);
  EXPECT_NEAR(models::top(half, 0.06 * s - 0.01 * s), 0.06 * s + 0.01 * s, 1e-12);
  EXPECT_NEAR(models::reach(half), 0.12 * s + 0.01 * s, 1e-12);
}

// Even force needs no grains; one grain's force on a tip bends along 2 l + w.
TEST(GrainConcentration, IsOneForEvenForceAndGrowsWithTheSpacingSquared) {
  const auto through_grains = [](double spacing) {
    return models::grain_concentration(spacing, 0.12, 0.02, 0.02);
  };
  EXPECT_EQ(through_grains(0.0), 1.0);
  EXPECT_EQ(through_grains(0.05), 1.0);  // 0.0025 < 0.02 * 0.26
  EXPECT_NEAR(through_grains(0.3), 0.09 / (0.02 * 0.26), 1e-12);
  EXPECT_NEAR(through_grains(0.6) / through_grains(0.3), 4.0, 1e-12);
}

// However little of a plate is pressed on, a grain's patch is as long as the plate is thick.
TEST(GrainConcentration, TakesNoShorterPatchThanThePlateIsThick) {
  const double least = models::grain_concentration(0.3, 0.01, 0.02, 0.02);
  EXPECT_NEAR(least, 0.09 / (0.02 * 0.04), 1e-12);
  for (const double width : {0.01, 0.001, 1e-6})
    EXPECT_EQ(models::grain_concentration(0.3, 0.01, width, 0.02), least) << width;
  EXPECT_LT(models::grain_concentration(0.3, 0.01, 0.03, 0.02), least);
}
