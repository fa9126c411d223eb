#include <cmath>
#include <cstddef>

#include <gtest/gtest.h>

#include "sim/line/burr_fate.hpp"
#include "sim/line/line_model.hpp"
#include "sim/line/passage.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;
using sim::line::Strip;

namespace {

constexpr double coefficient = 2.5e-5;  // of every layer, so that depth = K p x path [1/MPa]
constexpr double ratio = 150.0;         // of belt to feed
constexpr double half_span = 14.0;      // half the patch [mm]

sim::BeltSetup belt(double shore, bool with_feed) {
  sim::BeltSetup station = tests::belted_drum(shore);
  station.with_feed = with_feed;
  station.grain_spacing = 0.6;
  station.feed = station.sliding_speed / ratio;
  station.substrate.law = models::Preston{.coefficient = coefficient, .threshold = 0.0};
  station.coating = station.top = station.substrate;
  return station;
}

Strip hole_with_feathers() {
  cases::Part part;
  part.thickness = 1.5;
  cases::Feature hole;
  hole.name = "hole";
  hole.kind = cases::FeatureKind::hole;
  hole.size = 6.0;
  hole.burr = models::WallBurr{.height = 0.12, .root = 0.02, .taper = 0, .flow_stress = 220};
  part.features = {hole};
  return sim::line::unworn_surface(part, {}, half_span, half_span).strips.front();
}

/// Metal over the nominal face, burrs and lips with it [mm^2].
double metal(const Strip& strip) {
  double area = 0.0;
  for (std::size_t i = 0; i < strip.size(); ++i) {
    if (strip.metal[i] != 0)
      area += strip.width(i) * (strip.lip[i] != 0 ? strip.burr[i] : strip.height[i]);
  }
  return area;
}

/// Drives a drum over a strip; what it grinds off by the law, K p path, cell by cell [mm^2].
double ground_off(const sim::BeltSetup& station, double interference, Strip& strip) {
  const double unit = strip.cells.unit;
  const auto units = [&](double length) { return static_cast<int>(length / unit); };
  sim::line::Course course;
  course.interference = interference;
  course.from = units(24.0);
  course.to = units(-24.0);
  course.stride = course.longest = units(0.1);
  double ground = 0.0;
  double last = strip.origin + unit * (course.from + 0.5) + unit * course.longest;
  tests::pass_over(station, strip, course, half_span, [&](const sim::line::StepView& view) {
    const double path = ratio * (last - view.axis);
    last = view.axis;
    for (std::size_t i = 0; i < view.pressure.size(); ++i)
      ground += coefficient * view.pressure[i] * path * strip.width(view.first + i);
  });
  return ground;
}

}  // namespace

// Burr, lip and face lose together what two belts grind off, one with the feed, one against it,
// while one rim's burr folds into the hole and the other's onto the face. Bending and laying keep
// metal to rounding. What a step may take of a lip's cell beyond the cell's last metal, or drops of
// it as thinner than a tenth of a micrometre, is under 1e-4 mm on a tip as wide as the lip is long.
TEST(MetalBalance, HoldsOverALineOfTwoBeltsThatFoldBurrs) {
  Strip strip = hole_with_feathers();
  const double before = metal(strip);
  EXPECT_NEAR(before, 2.0 * 0.12 * 0.02, 1e-12);
  double ground = ground_off(belt(40, true), 0.3, strip);
  const double between = metal(strip);
  EXPECT_NEAR(before - between, ground, 1e-4 * 0.12);
  ground += ground_off(belt(20, false), 0.4, strip);
  const auto& leading = strip.edges[0].metal < 0 ? strip.edges[0] : strip.edges[1];
  ASSERT_TRUE(leading.lip);
  EXPECT_GT(*sim::line::burr_fate(strip, leading, 0.0).secondary_burr, 0.0);
  EXPECT_GT(ground, before);
  EXPECT_NEAR(before - metal(strip), ground, 1e-4 * 0.12);
}
