// Drums between the rungs of a ladder against drums made for themselves.

#include "sim/fast/drum_ladder.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include "models/elastomer/hardness.hpp"
#include "sim/fast/drums.hpp"
#include "tests/support/stations.hpp"

namespace drumlin {
namespace {

using sim::fast::Drum;
using sim::fast::Drums;

struct Worst {
  double load = 0, slope = 0, width = 0, kernel = 0, peak = 0;
};

void hold_against(Drum& between, Drum& itself, double depth, Worst& worst) {
  const auto off = [](double a, double b) { return std::abs(a / b - 1.0); };
  const auto worse = [](double& so_far, double now) { so_far = std::max(so_far, now); };
  worse(worst.load, off(between.law.line_load(depth), itself.law.line_load(depth)));
  worse(worst.slope, off(between.law.line_load_slope(depth), itself.law.line_load_slope(depth)));
  worse(worst.width, off(between.law.half_width(depth), itself.law.half_width(depth)));
  worse(worst.peak, off(between.peak_pressure(depth), itself.peak_pressure(depth)));
  for (const double x : {0.03, 0.3, 3.0, 15.0}) {
    const auto a = between.law.kernel().leaning(x);
    const auto b = itself.law.kernel().leaning(x);
    worse(worst.kernel, std::max(off(a.there, b.there), off(a.back, b.back)));
  }
}

/// Drums drawn at random, the same every time.
Worst over_random_drums(sim::fast::LadderAxes axes, bool at_any_speed) {
  std::mt19937 generator(11);
  const auto between = [&](double low, double high) {
    return low * std::pow(high / low, std::uniform_real_distribution<>(0.0, 1.0)(generator));
  };
  Drums ladder(1, {axes});
  Drums single;
  Worst worst;
  for (int k = 0; k < 60; ++k) {
    auto station = tests::moving_drum(between(15.0, 70.0));
    if (at_any_speed) station.belt_speed = between(3000.0, 12000.0);
    const double depth = between(0.05, 2.0);
    if (!sim::fast::may_interpolate(station, depth)) continue;
    hold_against(ladder.of(0, station, depth), single.of(0, station, depth), depth, worst);
  }
  return worst;
}

// A cubic through four rungs a tenth apart in the logarithm follows 1/E to 2e-6 and what inertia
// adds (pole at least 1.0 away where the ladder ends) to 5e-5. The peak is itself solved on cells
// that move with the nip's end, 0.5 % off at most: the drum's own so much, and that between rungs
// by the sizes of their shares, 1.25 in all over one axis and 1.56 over two.
TEST(DrumLadder, GivesDrumsOfAnyHardnessAndInterference) {
  const Worst worst = over_random_drums({.modulus = true, .speed = false}, false);
  EXPECT_LT(worst.load, 1e-4);
  EXPECT_LT(worst.slope, 1e-4);
  EXPECT_LT(worst.width, 1e-4);
  EXPECT_LT(worst.kernel, 1e-4);
  EXPECT_LT(worst.peak, 5e-3 * (1.0 + 1.25));
}

TEST(DrumLadder, GivesDrumsOfAnyBeltSpeed) {
  const Worst worst = over_random_drums({.modulus = true, .speed = true}, true);
  EXPECT_LT(worst.load, 1e-3);
  EXPECT_LT(worst.slope, 1e-3);
  EXPECT_LT(worst.width, 1e-3);
  EXPECT_LT(worst.kernel, 1e-3);
  EXPECT_LT(worst.peak, 5e-3 * (1.0 + 1.5625));
}

// What was asked before must not tell, to the last bit.
TEST(DrumLadder, DoesNotDependOnWhatWasAskedBefore) {
  const auto station = tests::moving_drum(30.0);
  Drums fresh(1, {{.modulus = true, .speed = true}});
  Drums used(1, {{.modulus = true, .speed = true}});
  for (const double hardness : {15.0, 60.0, 29.0}) {
    auto other = tests::moving_drum(hardness);
    other.belt_speed = 5000.0;
    used.of(0, other, 1.3);
  }
  Drum& a = fresh.of(0, station, 0.4);
  Drum& b = used.of(0, station, 0.4);
  EXPECT_EQ(a.law.line_load(0.4), b.law.line_load(0.4));
  EXPECT_EQ(a.peak_pressure(0.4), b.peak_pressure(0.4));
  EXPECT_EQ(a.law.kernel().leaning(0.7).there, b.law.kernel().leaning(0.7).there);
}

// Near waves of the cover a drum is made for itself: rungs would straddle a resonance.
TEST(DrumLadder, LeavesDrumsNearWavesAlone) {
  auto station = tests::moving_drum(15.0);
  station.belt_speed = 16000.0;
  EXPECT_FALSE(sim::fast::may_interpolate(station, 0.3));
  Drums ladder(1, {{.modulus = true, .speed = true}});
  Drums single;
  EXPECT_EQ(ladder.of(0, station, 0.3).law.line_load(0.3),
            single.of(0, station, 0.3).law.line_load(0.3));
}

}  // namespace
}  // namespace drumlin
