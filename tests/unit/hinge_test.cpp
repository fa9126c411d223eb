#include "sim/line/hinge.hpp"

#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "sim/line/burr_fate.hpp"
#include "sim/line/surface.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;
using sim::line::BurrLoad;
using sim::line::Hinge;
using sim::line::Strip;

namespace {

constexpr double height = 0.12;
constexpr double root = 0.02;
constexpr double flow_stress = 220.0;

cases::Part part_with_hole(double angle = 0.0) {
  cases::Part part;
  part.thickness = 1.2;
  part.angle = angle;
  cases::Feature hole;
  hole.name = "hole";
  hole.kind = cases::FeatureKind::hole;
  hole.size = 6.0;
  hole.burr =
      models::WallBurr{.height = height, .root = root, .taper = 0, .flow_stress = flow_stress};
  part.features.push_back(hole);
  return part;
}

Strip hole_strip(double angle = 0.0) {
  return sim::line::unworn_surface(part_with_hole(angle), {}, 10.0, 10.0).strips.front();
}

/// Of two rims: the one with metal towards -x, where a belt with the feed leaves the metal.
std::size_t leading(const Strip& strip) {
  return strip.edges[0].metal < 0 ? 0 : 1;
}

double burr_area(const Strip& strip) {
  double area = 0.0;
  for (std::size_t i = 0; i < strip.size(); ++i)
    area += strip.burr[i] * strip.width(i);
  return area;
}

sim::BeltSetup station() {
  sim::BeltSetup belt = tests::belted_drum(40);
  belt.with_feed = true;
  return belt;
}

/// Even pressure on the burr of an edge, none elsewhere.
std::vector<double> pressure_on(const Strip& strip, std::size_t edge, double pressure) {
  std::vector<double> p(strip.size(), 0.0);
  for (std::size_t i = 0; i < strip.edges[edge].reach; ++i)
    p[Strip::inward(strip.edges[edge], i)] = pressure;
  return p;
}

}  // namespace

// An even pressure acts at the middle of the root, so that only the drag bends: mu f h against
// (2/sqrt 3) sigma t^2 / 4.
TEST(Hinge, FeelsTheDragAtTheTip) {
  Strip strip = hole_strip();
  const std::size_t edge = leading(strip);
  const Hinge hinge(station(), strip, edge);
  ASSERT_TRUE(hinge.bends());
  EXPECT_TRUE(hinge.falls_outward());
  const BurrLoad load = hinge.load(0, pressure_on(strip, edge, 10.0));
  EXPECT_NEAR(load.normal, 10.0 * root, 1e-12);
  EXPECT_NEAR(load.moment, 0.4 * 10.0 * root * height, 1e-12);
  EXPECT_NEAR(load.limit, 2.0 / std::sqrt(3.0) * flow_stress * root * root / 4.0, 1e-12);
}

// Pressure on the outer half alone also tips it outwards, by a quarter of the root.
TEST(Hinge, FeelsTheNormalForceOffItsMiddle) {
  Strip strip = hole_strip();
  const std::size_t edge = leading(strip);
  const Hinge hinge(station(), strip, edge);
  std::vector<double> p(strip.size(), 0.0);
  const std::size_t half = strip.edges[edge].reach / 2;
  ASSERT_EQ(2 * half, strip.edges[edge].reach);
  for (std::size_t i = 0; i < half; ++i)
    p[Strip::inward(strip.edges[edge], i)] = 10.0;
  const double force = 10.0 * root / 2.0;
  EXPECT_NEAR(hinge.load(0, p).moment, force * (0.4 * height + root / 4.0), 1e-12);
}

TEST(Hinge, FallsOnTheFaceWhereTheBeltComesOntoTheMetal) {
  Strip strip = hole_strip();
  const std::size_t trailing = 1 - leading(strip);
  EXPECT_FALSE(Hinge(station(), strip, trailing).falls_outward());
  sim::BeltSetup against = station();
  against.with_feed = false;
  EXPECT_TRUE(Hinge(against, strip, trailing).falls_outward());
  EXPECT_FALSE(Hinge(against, strip, leading(strip)).falls_outward());
}

// No metal comes or goes by bending; the lip reaches where its plate does. Cells near the tip are
// a tenth of its length wide, so that its last cell may be in or out.
TEST(Hinge, KeepsTheMetalOfABurrThatTurns) {
  const Strip unbent = hole_strip();
  const double area = burr_area(unbent);
  for (const double angle : {0.4, 1.0, 0.5 * std::numbers::pi, 2.0, 2.6}) {
    Strip strip = unbent;
    const std::size_t edge = leading(strip);
    Hinge hinge(station(), strip, edge);
    hinge.turn_to(angle);
    EXPECT_NEAR(burr_area(strip) / area, 1.0, 1e-9) << angle;
    EXPECT_NEAR(hinge.turn(), angle, 1e-12);
    strip.edges[edge].peak_pressure = 1.0;
    const auto fate = sim::line::burr_fate(strip, strip.edges[edge], 0.0);
    const double expected =
        height * std::sin(angle) + 0.5 * root * std::abs(std::cos(angle)) - 0.5 * root;
    EXPECT_NEAR(*fate.secondary_burr, expected, 0.1 * height) << angle;
    EXPECT_EQ(fate.outcome, "folded beyond the edge");
    EXPECT_NEAR(*fate.fold_start, height, 1e-9);
  }
}

// In two turns it comes to lie as in one.
TEST(Hinge, TurnsTheSameInOneGoOrTwo) {
  Strip once = hole_strip();
  Strip twice = once;
  const std::size_t edge = leading(once);
  Hinge(station(), once, edge).turn_to(1.9);
  Hinge second(station(), twice, edge);
  second.turn_to(1.6);
  second.turn_to(1.9);
  for (std::size_t i = 0; i < once.size(); ++i) {
    EXPECT_EQ(once.metal[i], twice.metal[i]);
    EXPECT_NEAR(once.height[i], twice.height[i], 1e-3 * height);
  }
  EXPECT_NEAR(burr_area(once) / burr_area(twice), 1.0, 1e-9);
}

TEST(Hinge, LaysABurrOnTheFaceWithAllItsMetal) {
  Strip strip = hole_strip();
  const double area = burr_area(strip);
  const std::size_t edge = 1 - leading(strip);
  Hinge hinge(station(), strip, edge);
  hinge.lay_on_face();
  EXPECT_NEAR(burr_area(strip) / area, 1.0, 1e-12);
  EXPECT_FALSE(hinge.bends());
  // As thick as its root was, as long as it was high.
  const auto& e = strip.edges[edge];
  EXPECT_NEAR(strip.height[e.cell], root, 1e-12);
  const std::size_t last = Strip::inward(e, e.laid - 1);
  EXPECT_NEAR(std::abs(strip.x(last) - strip.line(e)), height, strip.width(last));
}

// Across an edge that lies askew the burr is as thick as before; along the section it is longer,
// and only part of the drag goes across it.
TEST(Hinge, CountsLengthsAcrossAnEdgeThatLiesAskew) {
  const double angle = std::numbers::pi / 6.0;
  Strip strip = hole_strip(angle);
  const std::size_t edge = leading(strip);
  EXPECT_NEAR(strip.edges[edge].stretch, 1.0 / std::cos(angle), 1e-12);
  const Hinge hinge(station(), strip, edge);
  const BurrLoad load = hinge.load(0, pressure_on(strip, edge, 10.0));
  EXPECT_NEAR(load.normal, 10.0 * root, 1e-9);
  EXPECT_NEAR(load.moment, std::cos(angle) * 0.4 * 10.0 * root * height, 1e-9);
}
