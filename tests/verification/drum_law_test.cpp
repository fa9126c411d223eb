#include "sim/fast/drum_law.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include <gtest/gtest.h>

#include "models/elastomer/bonded_layer.hpp"
#include "sim/fast/drums.hpp"
#include "sim/line/drum.hpp"
#include "sim/line/plain_nip.hpp"
#include "tests/support/random_stations.hpp"

using namespace drumlin;
using sim::fast::DrumLaw;
using sim::fast::LineKernel;

namespace {

double window_for(const sim::BeltSetup& station) {
  // On a drum only whole harmonics exist: the window is the circumference.
  if (station.options.curved) return 2.0 * std::numbers::pi * station.radius;
  return std::max(320.0, 30.0 * station.cover.thickness);
}

struct Errors {
  double load = 0, slope = 0, half_width = 0, peak = 0;
};

/// Largest relative errors against the line model over stations drawn at random.
Errors worst_of(tests::RandomStations& random, int count, double deepest_share, double most_poisson,
                const sim::Options& options) {
  Errors worst;
  for (int i = 0; i < count; ++i) {
    sim::BeltSetup station = i % 2 == 0 ? random.drum(most_poisson) : random.belted(most_poisson);
    station.options = options;
    const double deepest = deepest_share * station.cover.thickness;
    const double depth = random.spread(0.02, deepest);
    sim::fast::Drums drums;
    const DrumLaw& law = drums.of(0, station, depth).law;
    const auto exact =
        sim::line::static_nip(sim::line::Drum(station, depth), depth, window_for(station));
    const auto grow = [](double& most, double value, double reference) {
      most = std::max(most, std::abs(value / reference - 1.0));
    };
    grow(worst.load, law.line_load(depth), exact.line_load);
    grow(worst.slope, law.line_load_slope(depth), exact.line_load_slope);
    grow(worst.half_width, law.half_width(depth), exact.half_width);
    grow(worst.peak, law.peak_pressure(depth), exact.peak_pressure);
  }
  return worst;
}

DrumLaw bare_law(const models::BondedLayer& layer, double radius, double deepest) {
  return {LineKernel([&](double q) { return models::surface_compliance(layer, q); }),
          {.radius = radius},
          0.0,
          deepest};
}

}  // namespace

// The kernel of a half-space is known: K = -(2 / pi E*) ln x, so second differences of G are those
// of -(1 / pi E*) x^2 ln x. A cover far thicker than any distance here differs from it by a
// constant and terms of (x / t)^2.
TEST(LineKernel, IsTheLogarithmOnAThickCover) {
  const models::BondedLayer layer{400.0, 1.0, 0.45};
  const LineKernel kernel([&](double q) { return models::surface_compliance(layer, q); });
  const double modulus = models::plane_strain_modulus(layer);
  const auto exact = [&](double x) {
    return x == 0.0 ? 0.0 : -x * x * std::log(x) / (std::numbers::pi * modulus);
  };
  // Cells of width 1: the difference between two distances takes the constant away.
  const auto cell = [](const auto& g, double x) { return g(x + 1) - 2.0 * g(x) + g(x - 1); };
  for (const double x : {1.0, 2.0, 5.0, 10.0}) {
    const double thickness_felt = std::pow(2.0 * x / layer.thickness, 2);
    EXPECT_NEAR(cell(kernel, x) - cell(kernel, 2 * x), cell(exact, x) - cell(exact, 2 * x),
                5e-5 + 0.5 * thickness_felt);
  }
}

// Johnson (1985), ch. 4: a^2 = 4 P' R / (pi E*), p0 = 2 P' / (pi a); the approach for a << t is
// (a^2 / 2R)(ln(t / a) + C), C 0.38720 at nu 0.45 (half-space series of the same layer). What is
// left is of order (a / t)^2, 1e-3 at a/t 0.03 (0.25 % at 0.05), and below the first cells nothing
// but the constant's own error of 1e-4.
TEST(DrumLaw, IsHertzOnAThickCover) {
  const models::BondedLayer layer{40.0, 2.0, 0.45};
  const DrumLaw law = bare_law(layer, 100.0, 8.0);
  const double modulus = models::plane_strain_modulus(layer);
  for (const double ratio : {1e-3, 3e-3, 0.01, 0.03}) {
    const double a = ratio * layer.thickness;
    const double approach = a * a / 200.0 * (std::log(1.0 / ratio) + 0.38720);
    const double load = std::numbers::pi * modulus * a * a / 400.0;
    EXPECT_NEAR(law.line_load(approach) / load, 1.0, 4e-3) << ratio;
    EXPECT_NEAR(law.half_width(approach) / a, 1.0, 0.03) << ratio;
  }
}

// Johnson (1985), ch. 5.8: a compressible cover much thinner than the contact is a foundation,
// P' = 2 M a^3 / (3 R t), a^2 = 2 R delta. The compliance leaves that limit with (t / a)^2, 0.3 %
// for the thinner one here; the law's cells add 0.3 %.
TEST(DrumLaw, IsAFoundationOnAThinCover) {
  for (const double t : {0.5, 0.25}) {
    const models::BondedLayer layer{t, 2.0, 0.3};
    const double approach = 0.1;
    const double a = std::sqrt(2.0 * 100.0 * approach);
    const double thin = 2.0 * models::constrained_modulus(layer) * a * a * a / (300.0 * t);
    EXPECT_NEAR(bare_law(layer, 100.0, 0.2).line_load(approach) / thin, 1.0, 6e-3) << t;
  }
}

// Fixed seed over R 50..250, t 5..40, 20..80 Shore A, nu to 0.4999, with and without belt, from
// 0.02 mm to a tenth of the cover: 2 % is the customer's; a tenth of that is the line model's own.
// A longer run by hand (400 cells, to a fifth of the cover) gave 0.8 %.
TEST(DrumLaw, IsWithinTwoPercentOfTheLineModel) {
  tests::RandomStations random(7);
  const Errors worst = worst_of(random, 60, 0.1, 0.4999, {});
  EXPECT_LT(worst.load, 0.02);
  EXPECT_LT(worst.slope, 0.03);       // one order less than the load's
  EXPECT_LT(worst.half_width, 0.04);  // the line model knows the end to half a cell, as does this
  EXPECT_LT(worst.peak, 0.03);
  RecordProperty("worst_load", std::to_string(worst.load));
}

TEST(DrumLaw, IsWithinFivePercentToAFifthOfTheCover) {
  tests::RandomStations random(11);
  const Errors worst = worst_of(random, 30, 0.2, 0.4999, {});
  EXPECT_LT(worst.load, 0.05);
  RecordProperty("worst_load", std::to_string(worst.load));
}

// The drum's own ring and a belt that grips it: compliance and gap change, the law does not.
TEST(DrumLaw, IsWithinTwoPercentOnAGrippedDrum) {
  tests::RandomStations random(13);
  const Errors worst = worst_of(random, 10, 0.1, 0.49, {.curved = true, .gripped = true});
  EXPECT_LT(worst.load, 0.02);
  EXPECT_LT(worst.peak, 0.03);
  RecordProperty("worst_load", std::to_string(worst.load));
}

// Interference and line load are each other's inverse, to the 14 digits of the root finding over
// the steepest exponent; also below the first cell and beyond the deepest.
TEST(DrumLaw, GoesFromInterferenceToLineLoadAndBack) {
  tests::RandomStations random(3);
  for (int i = 0; i < 20; ++i) {
    const auto station = i % 2 == 0 ? random.drum(0.4999) : random.belted(0.4999);
    sim::fast::Drums drums;
    const DrumLaw& law = drums.of(0, station, 0.1).law;
    for (double depth = 1e-4; depth < station.cover.thickness; depth *= 1.7)
      EXPECT_NEAR(law.interference(law.line_load(depth)) / depth, 1.0, 1e-10) << i;
  }
}

// The slope is the load's derivative: against central differences of 1e-5, whose own error is 1e-9.
TEST(DrumLaw, StatesTheSlopeOfItsOwnLoad) {
  const auto station = tests::belted_drum(30);
  sim::fast::Drums drums;
  const DrumLaw& law = drums.of(0, station, 0.5).law;
  for (double depth = 2e-3; depth < 3.0; depth *= 1.37) {
    const double step = 1e-5 * depth;
    const double difference =
        (law.line_load(depth + step) - law.line_load(depth - step)) / (2.0 * step);
    EXPECT_NEAR(law.line_load_slope(depth) / difference, 1.0, 1e-6) << depth;
  }
}

// More interference, more load, at no smaller rate: the contact only grows. 1 % of room for the
// rate, which holds a cell's width.
TEST(DrumLaw, RisesAndStiffensWithInterference) {
  tests::RandomStations random(5);
  for (int i = 0; i < 20; ++i) {
    const auto station = i % 2 == 0 ? random.drum(0.4999) : random.belted(0.4999);
    sim::fast::Drums drums;
    const DrumLaw& law = drums.of(0, station, 0.1).law;
    double load = 0.0;
    double slope = 0.0;
    for (double depth = 0.01; depth < 0.2 * station.cover.thickness; depth *= 1.2) {
      EXPECT_GT(law.line_load(depth), load);
      EXPECT_GT(law.line_load_slope(depth), 0.99 * slope) << i << " " << depth;
      load = law.line_load(depth);
      slope = law.line_load_slope(depth);
    }
  }
}

// Lengths x 10, moduli x 7: line load x 70, pressures x 7. Nothing in the law has a length of its
// own but the grid of wave numbers and the smallest cell, which move the load by 0.2 %.
TEST(DrumLaw, FollowsItsDimensions) {
  auto small = tests::belted_drum(40);
  auto large = small;
  large.cover.thickness *= 10;
  large.cover.modulus *= 7;
  large.radius *= 10;
  large.belt.bending_stiffness *= 7 * 1000;
  large.belt.tension *= 7 * 10;
  large.belt.grain_compliance *= 10.0 / 7.0;
  sim::fast::Drums drums;
  const DrumLaw a = drums.of(0, small, 0.5).law;
  const DrumLaw b = drums.of(1, large, 5.0).law;
  EXPECT_NEAR(b.line_load(5.0) / a.line_load(0.5), 70.0, 70.0 * 3e-3);
  EXPECT_NEAR(b.peak_pressure(5.0) / a.peak_pressure(0.5), 7.0, 7.0 * 1e-2);
}
