// Fine cells nested into drum-scale ones and strides that grow, against the reference: even cells
// of 5 um and even strides. What they may differ by is one per cent of removal, of the burr's
// height and of the edge's drop.

#include <cmath>

#include <gtest/gtest.h>

#include "sim/line/edge_shape.hpp"
#include "sim/line/line_model.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;

namespace {

struct Seen {
  double removal;
  double burr;
  double drop;
  double other_drop;
  double peak;
  double coating;
};

Seen pass(const sim::BeltSetup& station, double burr, bool nested, double size = 6.0) {
  sim::Setup setup{};
  setup.scenario.part.thickness = 1.5;
  setup.scenario.part.coating.emplace();
  setup.scenario.part.coating->thickness = 0.02;
  setup.scenario.part.features.push_back(
      {.name = "hole",
       .kind = cases::FeatureKind::hole,
       .size = size,
       .side = cases::Side::trailing,
       .burr = models::WallBurr{.height = burr, .root = 0.15, .taper = 0, .flow_stress = 300}});
  setup.scenario.conveyor.passes = 1;
  setup.stations = {station};
  sim::line::LineOptions options;
  options.fineness.nested = nested;
  const auto answer = sim::line::simulate(setup, options);
  const auto& last = answer.last.front();
  const auto& strip = last.part.burrs.strips.front();
  const auto trailing =
      sim::line::edge_shape(strip, strip.edges[0], last.part.burrs.face.removed, true);
  const auto leading =
      sim::line::edge_shape(strip, strip.edges[1], last.part.burrs.face.removed, true);
  return {last.part.burrs.face.removed, *trailing.burr_height, trailing.drop, leading.drop,
          strip.edges[0].peak_pressure, *leading.coating_left};
}

void expect_alike(const sim::BeltSetup& station, double burr, double size = 6.0) {
  const Seen even = pass(station, burr, false, size);
  const Seen nested = pass(station, burr, true, size);
  EXPECT_NEAR(nested.removal / even.removal, 1.0, 0.01);
  // A burr that is ground away leaves a height of some micrometres below the face: 1 % of what was
  // taken off it.
  EXPECT_NEAR(nested.burr, even.burr, 0.01 * (burr - even.burr));
  EXPECT_NEAR(nested.drop, even.drop, 0.01 * std::abs(even.drop) + 0.01 * burr);
  EXPECT_NEAR(nested.other_drop / even.other_drop, 1.0, 0.01);
  // A peak that lasts for one step depends on where in its stride the burr is met.
  EXPECT_NEAR(nested.peak / even.peak, 1.0, 0.05);
}

}  // namespace

TEST(Nested, AgreesWithTheSingleGridOnASoftDrum) {
  expect_alike(tests::belted_drum(20), 0.15);
}

TEST(Nested, AgreesWithTheSingleGridOnAHardDrum) {
  expect_alike(tests::belted_drum(80), 0.15);
}

// A burr that is left standing: its height is what was asked for.
TEST(Nested, AgreesWithTheSingleGridOnABurrThatStays) {
  auto station = tests::belted_drum(40);
  station.setting = cases::InterferenceSetting{0.1};
  station.substrate.law = models::Preston{.coefficient = 1e-5, .threshold = 0.0};
  station.coating = station.substrate;
  expect_alike(station, 0.3);
}

// Without a belt pressure is singular at edges and only cells and wear blunt it.
TEST(Nested, AgreesWithTheSingleGridWithoutABelt) {
  expect_alike(tests::bare_drum(40), 0.15);
}

TEST(Nested, AgreesWithTheSingleGridOnAMovingDrum) {
  expect_alike(tests::moving_drum(30), 0.15);
}

TEST(Nested, AgreesWithTheSingleGridOnASmallHole) {
  expect_alike(tests::moving_drum(40), 0.1, 2.0);
}
