#include <gtest/gtest.h>

#include "models/burr/wall.hpp"

using namespace drumlin::models;

namespace {
WallBurr burr(double height, double root, double flow_stress) {
  return {.height = height, .root = root, .taper = 0.0, .flow_stress = flow_stress};
}
}  // namespace

// Plastic hinge of a wide strip, (2/sqrt 3) sigma_y t^2 / 4 (textbook plasticity, e.g. Hill 1950);
// the table of the handbook sheets, four digits.
TEST(WallBurr, BendsAtThePlasticMomentOfTheTable) {
  EXPECT_NEAR(plastic_moment(burr(0.15, 0.05, 140)), 0.101, 5e-4);
  EXPECT_NEAR(plastic_moment(burr(0.15, 0.10, 235)), 0.678, 5e-4);
  EXPECT_NEAR(plastic_moment(burr(0.15, 0.15, 235)), 1.526, 5e-4);
  EXPECT_NEAR(plastic_moment(burr(0.15, 0.30, 460)), 11.95, 5e-3);
}

// h 0.15, mu 0.4, t_b 0.10, 235 MPa: folds from 11.3 N/mm on. And per width at the tip:
// t 0.05, h 0.2, 400 MPa: 1.44 N/mm of drag.
TEST(WallBurr, FoldsAtTheForceOfTheWorkedExamples) {
  EXPECT_NEAR(folding_force(burr(0.15, 0.10, 235), 0.4), 11.3, 0.05);
  EXPECT_NEAR(folding_force(burr(0.2, 0.05, 400), 1.0), 1.44, 0.005);
}

TEST(WallBurr, NeedsFourTimesTheForceAtTwiceTheRoot) {
  EXPECT_DOUBLE_EQ(folding_force(burr(0.15, 0.2, 235), 0.4),
                   4.0 * folding_force(burr(0.15, 0.1, 235), 0.4));
}

TEST(WallBurr, StandsUprightWithoutTaperAndLeansWithIt) {
  WallBurr b = burr(0.15, 0.10, 235);
  EXPECT_EQ(profile(b, 0.0999), 0.15);
  EXPECT_EQ(profile(b, 0.1001), 0.0);
  EXPECT_EQ(profile(b, -0.001), 0.0);
  b.taper = 0.3;
  EXPECT_NEAR(profile(b, 0.09), 0.01 / 0.30933625, 1e-7);  // tan(0.3) = 0.30933625
  EXPECT_EQ(profile(b, 0.01), 0.15);
}
