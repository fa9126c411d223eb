// Removal by a power of pressure in both models: the flat pass against a quadrature, the models
// against each other, their steps, and random set-ups.

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "models/removal/removal_keys.hpp"
#include "sim/fast/wearing_pass.hpp"
#include "sim/line/line_model.hpp"
#include "sim/line/line_result.hpp"
#include "sim/numerics/error.hpp"
#include "tests/support/fast_cases.hpp"
#include "tests/support/random_stations.hpp"

using namespace drumlin;
using models::ThresholdPower;
using sim::fast::abrasion_of;
using sim::fast::Drums;

namespace {

constexpr double path_per_feed = 300.0;

ThresholdPower power(double exponent, double coefficient = 4e-5) {
  return {.coefficient = coefficient, .exponent = exponent, .saturation_pressure = 1e6};
}

sim::BeltSetup with_law(sim::BeltSetup station, const models::AnyRemovalLaw& law) {
  station.substrate.law = law;
  station.coating = station.top = station.substrate;
  return station;
}

/// A hole and a leading edge with wall burrs.
sim::Setup burred_part(const sim::BeltSetup& station, double height, double root) {
  const models::WallBurr burr{.height = height, .root = root, .taper = 0, .flow_stress = 300};
  return tests::belt_line(
      station, {tests::hole(burr), tests::outer_edge("edge", cases::Side::leading, burr)});
}

sim::StatedAnswer line_answer(const sim::Setup& setup, int steps = 300, double resolution = 0.01) {
  const sim::line::LineOptions options{
      .fineness = {.resolution = resolution, .root_cells = 8, .steps = steps},
      .frames = 0,
      .progress = {},
      .stop = {}};
  return sim::line::state(setup, sim::line::simulate(setup, options), false);
}

/// Integral of r(p) over a nip given at even places, by the trapezium rule.
double quadrature(const sim::line::PlainPass& pass, const ThresholdPower& law) {
  double sum = 0.0;
  for (const double p : pass.nip.pressure)
    sum += law.per_path(p);
  return sum * (pass.nip.offset[1] - pass.nip.offset[0]);
}

}  // namespace

// A law that removes next to nothing leaves the static nip: h = (v / v_f) integral of r(p) dx over
// it, summed here over the drum's own profile. K is a millionth of the usual, so relief is 1e-6.
TEST(PowerLaw, TakesTheIntegralOverTheStaticNip) {
  for (const double m : {0.6, 1.5, 2.2}) {
    for (const double shore : {20.0, 80.0}) {
      const ThresholdPower law{.coefficient = 4e-11,
                               .threshold = 0.01,
                               .exponent = m,
                               .saturation_pressure = 0.5,
                               .saturated_exponent = 0.55};
      const auto station = with_law(tests::belted_drum(shore), law);

      const auto pass = tests::plain_pass_of(station, 0.5);
      const auto still = tests::plain_pass_of(with_law(station, power(1.0, 0.0)), 0.5);
      // Both on the line model's own cells: halves of cells against whole ones, the solve's 1e-5.
      EXPECT_NEAR(pass.removal / (path_per_feed * quadrature(still, law)), 1.0, 1e-4)
          << m << " " << shore;

      Drums drums;
      const auto& drum = drums.of(0, station, 0.5).law;
      const auto fast = sim::fast::wearing_pass(drum, abrasion_of(station), 0.0, 0.5);
      const auto shape = drum.shape(0.5);
      double sum = 0.0;
      for (Eigen::Index i = 0; i < shape.pressure.size(); ++i)
        sum += 2.0 * (shape.edge(i + 1) - shape.edge(i)) * law.per_path(shape.pressure(i));
      EXPECT_NEAR(fast.removal / (path_per_feed * sum), 1.0, 1e-4) << m << " " << shore;
      // Against each other: what is published of `fast` for the face, 5 %, up to m = 1.5. At 2.2 a
      // soft drum under a belt is 6.5 % off: the belt presses at the rim of the nip, where `fast`
      // has cells of half a millimetre, one of which comes out 40 % high.
      EXPECT_NEAR(fast.removal / pass.removal, 1.0, m > 2 ? 0.08 : 0.05) << m << " " << shore;
      std::printf("  m %g, %g Shore A: fast over line %.4f\n", m, shore,
                  fast.removal / pass.removal);
    }
  }
}

// A line load that a law of m = 1 turns into the same removal on any drum, one of m = 2 turns into
// more on the hard drum, whose nip is shorter: h = K (v / v_f) integral p^2 dx / p_r. For a thick
// cover the nip is Hertz's, p = p_0 sqrt(1 - (x/a)^2): integral p^2 dx = (4/3) a p_0^2 and P' =
// (pi/2) a p_0, so h goes as P'^2 / a and a^2 = 4 P' R / (pi E*): the ratio of two drums is
// sqrt(E*_hard / E*_soft). Half-space to a / t = 0.1: 1 %, the layer's correction (a/t)^2.
TEST(PowerLaw, TakesMoreUnderAHardDrumAtEqualLineLoad) {
  const auto removal = [](double shore, double thickness, double m, double load) {
    auto station = with_law(tests::bare_drum(shore), power(m, 4e-11));
    station.cover.thickness = thickness;
    station.radius = 4.0 * thickness;
    Drums drums;
    const auto& drum = drums.of(0, station, 0.3).law;
    const auto abrasion = abrasion_of(station);
    const double depth = sim::fast::interference_for(drum, abrasion, 0.0, load);
    const auto& fit = drums.of(0, station, depth).law;
    return sim::fast::wearing_pass(fit, abrasion, 0.0, depth).removal;
  };
  const double moduli = models::gent_modulus(80) / models::gent_modulus(40);
  // Covers of 100 mm: nips of 4 and 9 mm half width.
  const double thick = removal(80, 100, 2.0, 0.5) / removal(40, 100, 2.0, 0.5);
  EXPECT_NEAR(thick / std::sqrt(moduli), 1.0, 0.01);
  EXPECT_NEAR(removal(80, 100, 1.0, 0.5) / removal(40, 100, 1.0, 0.5), 1.0, 1e-3);
  // A thin layer that gives as springs do: p = p_0 (1 - (x/a)^2), integral p^2 dx = (16/15) a
  // p_0^2, P' = (4/3) a p_0, a^3 = 3 P' R t / (2 M): the ratio goes as the cube root of the moduli.
  // The drum of every day, 15 mm of cover, lies between the two.
  const double usual = removal(80, 15, 2.0, 0.5) / removal(40, 15, 2.0, 0.5);
  EXPECT_GT(usual, std::cbrt(moduli));
  EXPECT_LT(usual, std::sqrt(moduli));
  RecordProperty("thick_over_closed_form", std::to_string(thick / std::sqrt(moduli)));
  RecordProperty("usual", std::to_string(usual));
  std::printf("  hard over soft at m = 2: thick %.4f (closed form %.4f), 15 mm cover %.4f\n", thick,
              std::sqrt(moduli), usual);
}

// Removal per pass goes with 1 / feed at a set line load: 4.0 from feed 40 to 10; the open data
// have 4^0.97. The belt runs with the part, which is 0.1 % here.
TEST(PowerLaw, TakesFourTimesAsMuchAtAQuarterOfTheFeed) {
  const auto removal = [](double feed) {
    auto station = with_law(tests::belted_drum(40), power(2.0, 1e-5));
    station.setting = cases::LineLoadSetting{0.5};
    station.feed = feed;
    return tests::fast_answer(tests::belt_line(station, {})).part.face.removal->value;
  };
  const double ratio = removal(10) / removal(40);
  EXPECT_NEAR(ratio / std::pow(4.0, 0.972), 1.0, 0.10);
  std::printf("  1 / feed: ratio %.3f\n", ratio);
}

// m = n = 1 gives Preston's answers in both models, but for rounding that the solvers' stops
// amplify.
TEST(PowerLaw, IsPrestonsLawInBothModelsAtExponentsOfOne) {
  ThresholdPower one = power(1.0);
  one.threshold = 0.01;
  one.saturated_exponent = 1.0;
  const models::Preston line_law{.coefficient = 4e-5, .threshold = 0.01};
  const auto a = burred_part(with_law(tests::belted_drum(40), one), 0.15, 0.15);
  const auto b = burred_part(with_law(tests::belted_drum(40), line_law), 0.15, 0.15);
  const auto alike = [](const sim::StatedAnswer& left, const sim::StatedAnswer& right) {
    EXPECT_NEAR(left.part.face.removal->value / right.part.face.removal->value, 1.0, 1e-9);
    for (std::size_t i = 0; i < 2; ++i)
      EXPECT_NEAR(left.part.features[i].burr_height->value,
                  right.part.features[i].burr_height->value, 1e-7);
  };
  alike(tests::fast_answer(a), tests::fast_answer(b));
  alike(line_answer(a), line_answer(b));
}

// `fast` against `line` under m = 1.5 within what is published for it: face 5 %, burr left 15 % or
// a twentieth of its height.
TEST(PowerLaw, LeavesTheSameInBothModels) {
  for (const double shore : {20.0, 60.0}) {
    for (const double m : {0.7, 1.5}) {
      const double height = 0.15;
      const auto setup =
          burred_part(with_law(tests::belted_drum(shore), power(m, 2e-5)), height, 0.15);
      const auto fast = tests::fast_answer(setup);
      const auto line = line_answer(setup);
      EXPECT_NEAR(fast.part.face.removal->value / line.part.face.removal->value, 1.0, 0.05);
      std::printf("  %g Shore A, m %g: face fast %.2f line %.2f um", shore, m,
                  1e3 * fast.part.face.removal->value, 1e3 * line.part.face.removal->value);
      for (std::size_t i = 0; i < 2; ++i) {
        const double left = line.part.features[i].burr_height->value;
        const double off = fast.part.features[i].burr_height->value - left;
        EXPECT_LE(std::abs(off), std::max(0.15 * std::abs(left), 0.05 * height))
            << shore << " " << m;
        std::printf(", burr left fast %.1f line %.1f um", 1e3 * (left + off), 1e3 * left);
      }
      std::printf("\n");
    }
  }
}

// Backward Euler is of first order in the stride under any law. Single halvings scatter (a burr is
// met at another place in its stride), so the order is taken over a factor of four, as for
// Preston's law (passage_test.cpp, 1.07 seen). The burr stands after the pass.
TEST(PowerLaw, IsMarchedWithFirstOrderInTheStride) {
  for (const double m : {0.7, 1.5}) {
    const auto station = with_law(tests::belted_drum(20), power(m, m < 1 ? 4e-5 : 2e-6));
    const std::size_t middle = 1750;
    const auto height = [&](int stride) {
      auto strip = tests::plain_strip(2 * middle + 1, 0.02);
      for (std::size_t i = middle - 150; i < middle + 150; ++i)
        strip.metal[i] = 0;
      for (std::size_t i = middle + 150; i < middle + 158; ++i)
        strip.height[i] = strip.burr[i] = 0.3;
      tests::pass_over(station, strip,
                       {.interference = 0.5,
                        .from = static_cast<int>(middle) + 32 * 26,
                        .to = static_cast<int>(middle) - 32 * 16,
                        .stride = stride,
                        .longest = stride},
                       13.0);
      return *std::max_element(strip.height.begin() + 1900, strip.height.begin() + 1908);
    };
    const double finest = height(4);
    const double last = height(8) - finest;
    const double first = height(32) - height(16);
    const double order = std::log2(first / last) / 2.0;
    std::printf("  m %g: burr left %.1f um, order %.2f\n", m, 1e3 * finest, order);
    RecordProperty("order_at_" + std::to_string(m), std::to_string(order));
    EXPECT_GT(finest, 0.03);
    EXPECT_NEAR(order, 1.0, 0.2) << m;
  }
}

// Drums, belts, laws, burrs and settings drawn at random, the same every time: every pass is solved
// in both models, and what must hold of removal does.
TEST(PowerLaw, IsSolvedOnRandomSetUps) {
  tests::RandomStations random(23);
  int unsolved_fast = 0;
  int unsolved_line = 0;
  const int draws = 300;
  for (int i = 0; i < draws; ++i) {
    auto station = random.belted(0.49);
    const double depth = random.spread(0.05, 0.08 * station.cover.thickness);
    station.setting = cases::InterferenceSetting{depth};
    station.feed = station.sliding_speed / random.spread(100, 400);
    const ThresholdPower law{.coefficient = random.spread(0.3e-5, 6e-5),
                             .threshold = i % 3 == 0 ? random.even(0.0, 0.02) : 0.0,
                             .exponent = random.even(0.5, 2.5),
                             .reference_pressure = random.spread(0.03, 0.5),
                             .saturation_pressure = random.spread(0.1, 100),
                             .saturated_exponent = random.even(0.0, 1.2)};
    auto setup =
        burred_part(with_law(station, law), random.spread(0.03, 0.5), random.spread(0.05, 0.3));
    if (i % 2 == 1) {
      setup.scenario.part.coating.emplace();
      setup.scenario.part.coating->thickness = random.even(0.005, 0.02);
      std::get<ThresholdPower>(setup.belt(0).coating.law).coefficient *= 2.5;
      setup.belt(0).top = setup.belt(0).coating;
    }
    const auto sound = [&](const sim::StatedAnswer& answer) {
      EXPECT_GE(answer.part.face.removal->value, 0.0) << i;
      EXPECT_TRUE(std::isfinite(answer.part.face.removal->value)) << i;
      for (const auto& feature : answer.part.features)
        EXPECT_TRUE(std::isfinite(feature.burr_height->value)) << i;
    };
    try {
      sound(tests::fast_answer(setup));
    } catch (const sim::NumericsError& error) {
      ++unsolved_fast;
      std::printf("  %d fast: %s: m %g n %g p_th %g p_r %g p_s %g K %g\n", i, error.what(),
                  law.exponent, law.saturated_exponent, law.threshold, law.reference_pressure,
                  law.saturation_pressure, law.coefficient);
    }
    // The line model takes a hundred times as long: one in three (all 300 are solved).
    if (i % 3 != 0) continue;
    try {
      sound(line_answer(setup, 100, 0.03));
    } catch (const sim::NumericsError& error) {
      ++unsolved_line;
      std::printf("  %d line: %s\n", i, error.what());
    }
  }
  EXPECT_EQ(unsolved_fast, 0);
  EXPECT_EQ(unsolved_line, 0);
}
