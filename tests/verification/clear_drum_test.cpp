#include <algorithm>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "sim/fast/drums.hpp"
#include "sim/fast/edge_pass.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;
using namespace sim::fast;

namespace {

/// Both rims of a 6 mm hole, plain or with wall burrs.
Section hole(double burr_height) {
  models::AnyBurr burr = models::NoBurr{};
  if (burr_height > 0.0)
    burr =
        models::WallBurr{.height = burr_height, .root = 0.15, .taper = 0.0, .flow_stress = 300.0};
  return unworn_section("hole",
                        {{"leading", 3.0, +1, burr, 1.0}, {"trailing", -3.0, -1, burr, 1.0}},
                        {.widest = 0.5, .extent = 20.0});
}

struct Cost {
  int steps = 0;
  int newton_steps = 0;
  double usual = 0;  ///< strides of usual length on the way over both rims
};

Cost cost_of(double interference, double burr_height) {
  const auto station = tests::belted_drum(20);
  Drums drums;
  Drum& drum = drums.of(0, station, interference);
  const Abrasion abrasion = abrasion_of(station);
  Section section = hole(burr_height);
  const WearingPass plain = wearing_pass(drum.law, abrasion, 0.0, interference);
  EdgePass edges(drum.pairs(section), drum.law, abrasion, section);
  edges.run(section, interference, plain, {});
  // From where the first rim's burr or nip is met to where the last one's is left, in sixths of the
  // nip at a micrometre or of a tenth of the drum's reach over the burr.
  const double touch = std::sqrt(2.0 * station.radius * (interference + burr_height));
  const double way = 6.0 + 2.0 * edge_pass_reach(drum.law, interference, burr_height);
  const double scale = std::max(drum.law.half_width(std::max(interference, 1e-3)), 0.1 * touch);
  return {edges.steps(), edges.newton_steps(), 6.0 * way / scale};
}

}  // namespace

TEST(ClearDrum, TakesNoStepWhereNothingCanTouch) {
  EXPECT_EQ(cost_of(0.0, 0.0).steps, 0);
}

// Strides go by the nip, which narrows without end as the drum leaves the face.
TEST(ClearDrum, TakesUsualStridesHoweverLittleItTouches) {
  for (const double height : {0.0, 0.02, 0.15}) {
    for (const double interference : {1e-2, 1e-3, 1e-4, 1e-6, 1e-9, 0.0}) {
      const Cost shallow = cost_of(interference, height);
      const std::string where = std::to_string(height) + " " + std::to_string(interference);
      // Twice the usual, since burrs that lose height shorten strides.
      EXPECT_LE(shallow.steps, 2.0 * shallow.usual) << where;
      // So narrow a nip is found in one Newton step as a rule.
      EXPECT_LE(shallow.newton_steps, 2.0 * shallow.usual) << where;
    }
  }
}

// The cover's finite strain goes with the interference, but no strain is none.
TEST(ClearDrum, IsMadeOnceForEverythingThatHardlyTouches) {
  const auto station = tests::moving_drum(20);
  Drums drums;
  for (const double interference : {0.0, 1e-3, 1e-6, 0.0})
    (void)drums.of(0, station, interference);
  EXPECT_EQ(drums.made(), 1);
}

// Below the first cell's own gap no cell carries: there is no peak to take, which is no reason to
// end badly.
TEST(ClearDrum, StatesAPeakPressureHoweverLittleItTouches) {
  for (const auto& station : {tests::belted_drum(20), tests::bare_drum(20)}) {
    Drums drums;
    Drum& drum = drums.of(0, station, 0.3);
    double before = 0.0;
    for (const double interference : {1e-12, 1e-9, 1e-7, 1e-5, 1e-3}) {
      const double peak = drum.peak_pressure(interference);
      EXPECT_GE(peak, before) << interference;
      EXPECT_TRUE(std::isfinite(peak));
      before = peak;
    }
    EXPECT_GT(before, 0.0);
  }
}
