#include "models/belt/dulling.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace drumlin::models {
namespace {

TEST(Dulling, StartsFreshEndsAtItsShareAndFallsFastFirst) {
  const Dulling law{.life_volume = 1, .worn_share = 0.3, .run_in = 0.25};
  EXPECT_DOUBLE_EQ(law.sharpness(0), 1.0);
  EXPECT_NEAR(law.sharpness(1), 0.3, 1e-15);
  EXPECT_NEAR(law.sharpness(2), 0.3, 1e-15);
  double last = 1.0;
  double last_fall = 1.0;
  for (int i = 1; i <= 20; ++i) {
    const double now = law.sharpness(i / 20.0);
    EXPECT_LT(now, last);
    EXPECT_LT(last - now, last_fall);
    last_fall = last - now;
    last = now;
  }
}

// Removal at constant force falls to half after 15 to 40 % of life (common practice, no source):
// the library's law must do so.
TEST(Dulling, HalvesTheRemovalWhereTheTradeSaysItDoes) {
  const Dulling law{.life_volume = 1, .worn_share = 0.3, .run_in = 0.25};
  EXPECT_GT(law.sharpness(0.15), 0.5);
  EXPECT_LT(law.sharpness(0.40), 0.5);
}

// Worn belts: normal over tangential force 1.7 fresh to 3.3 dull, energy 2 to 4 times (from
// memory).
TEST(Dulling, ShareOfFrictionAndEnergyMeetWornBelts) {
  for (const double sharpness : {0.2, 0.25, 0.3}) {
    const double friction = dull_friction_share(sharpness);
    const double energy = friction / sharpness;
    EXPECT_NEAR(friction, 1.7 / 3.3, 0.08);
    EXPECT_GT(energy, 1.8);
    EXPECT_LT(energy, 4.0);
  }
}

TEST(Loading, TakesWhatItTakesAndNothingOfCleanMetals) {
  EXPECT_DOUBLE_EQ(loading_share(0.0, 10.0, 0.1), 1.0);
  EXPECT_DOUBLE_EQ(loading_share(0.4, 0.0, 0.1), 1.0);
  EXPECT_NEAR(loading_share(0.4, 100.0, 0.1), 0.6, 1e-12);
  EXPECT_NEAR(loading_share(0.4, 0.4, 0.1), 1.0 - 0.4 * (1.0 - std::exp(-1.0)), 1e-12);
}

}  // namespace
}  // namespace drumlin::models
