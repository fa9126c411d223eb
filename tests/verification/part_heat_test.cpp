#include "sim/heat/part_heat.hpp"

#include <cmath>
#include <filesystem>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "models/heat/slab.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/heat/heat_warnings.hpp"
#include "sim/heat/zinc_heat.hpp"
#include "sim/run.hpp"
#include "tests/support/marked_case.hpp"
#include "tests/support/places.hpp"

namespace drumlin::sim {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

Setup marked(const std::string& text = support::whole_case()) {
  sim::Setup setup = set_up(cases::parse(text, "panel.toml"));
  setup.scenario.numerics.model = "fast";
  setup.scenario.numerics.bands = false;
  return setup;
}

/// Two belts, the second set less deep.
Setup two_belts(Setup setup) {
  setup.stations.push_back(setup.stations.front());
  setup.scenario.stations.push_back(setup.scenario.stations.front());
  setup.belt(1).setting = cases::InterferenceSetting{0.3};
  return setup;
}

StatedAnswer answer_of(const Setup& setup) {
  fast::Drums drums;
  return fast::state(setup, fast::simulate(setup, drums), false);
}

double flash(const Setup& setup) {
  return answer_of(setup).stations.front().heat->flash_rise->value;
}
double hottest(const Setup& setup) {
  return answer_of(setup).stations.back().after.face.temperature->value;
}

// Nothing of the power is lost or made: shares add to 1, powers to the power, and what the sheet
// holds after the line is what went in (no cooling on the way): to rounding.
TEST(PartHeat, BalancesOverALineOfTwoBelts) {
  sim::Setup setup = two_belts(marked());
  setup.heat.film = 0.0;
  const StatedAnswer answer = answer_of(setup);
  double into_sheet = 0.0;
  for (const auto& station : answer.stations) {
    const StationHeat& heat = *station.heat;
    EXPECT_NEAR(heat.share_to_part->value + heat.share_to_chips->value + heat.share_to_rest->value,
                1.0, 1e-12);
    EXPECT_NEAR((heat.into_part->value + heat.into_chips->value + heat.into_rest->value) /
                    station.power->value,
                1.0, 1e-12);
    EXPECT_EQ(heat.power_in->value, station.power->value);
    into_sheet += heat.into_part->value;
  }
  const auto& metal = setup.heat.part->thermal;
  const double held = models::heat_capacity(metal) * setup.scenario.part.thickness *
                      setup.scenario.conveyor.speed *
                      (answer.stations.back().heat->leaving->value - setup.heat.room);
  EXPECT_GT(into_sheet, 0.0);
  EXPECT_NEAR(held / into_sheet, 1.0, 1e-12);
}

// On the way the sheet falls towards the room by exp(-h t' / (rho c t)), t' = spacing / feed.
TEST(PartHeat, CoolsOnTheWayToTheNextStation) {
  const sim::Setup setup = two_belts(marked());
  const StatedAnswer answer = answer_of(setup);
  const double time = setup.heat.station_spacing / setup.scenario.conveyor.speed;
  const double kept = std::exp(-0.05 * time / (7.85e-9 * 480e6 * 1.5));
  EXPECT_NEAR(answer.stations[1].heat->arrival->value - setup.heat.room,
              kept * (answer.stations[0].heat->leaving->value - setup.heat.room), 1e-9);
  EXPECT_LT(kept, 1.0);
}

TEST(PartHeat, IsHotterWithMoreSpeedMoreLoadThinnerSheetAndDry) {
  const sim::Setup base = marked();
  sim::Setup faster = base;
  faster.belt(0).sliding_speed *= 1.5;
  EXPECT_GT(flash(faster), flash(base));
  sim::Setup heavier = base;
  heavier.belt(0).setting = cases::InterferenceSetting{0.8};
  EXPECT_GT(flash(heavier), flash(base));
  sim::Setup thinner = base;
  thinner.scenario.part.thickness = 0.75;
  EXPECT_GT(flash(thinner), flash(base));
  const sim::Setup wet = marked(support::with_added("environment", "cooling = \"wet\""));
  EXPECT_LT(flash(wet), flash(base));
  sim::Setup twice = base;
  twice.scenario.conveyor.passes = 2;
  EXPECT_GT(hottest(twice), hottest(base));
}

TEST(PartHeat, StartsFromTheRoom) {
  const sim::Setup warm = marked(support::with_added("environment", "temperature = \"30 degC\""));
  EXPECT_DOUBLE_EQ(warm.heat.room, 303.15);
  EXPECT_NEAR(answer_of(warm).stations[0].heat->arrival->value, 303.15, 1e-9);
  EXPECT_DOUBLE_EQ(marked().heat.room, 293.15);
}

// After a station an edge is as warm as its burr or the face were so far, whichever is more.
TEST(PartHeat, CountsTheHighestSoFar) {
  const StatedAnswer answer = answer_of(two_belts(marked()));
  double face = 0.0;
  double edge = 0.0;
  for (const auto& station : answer.stations) {
    EXPECT_GE(station.after.face.temperature->value, face);
    face = station.after.face.temperature->value;
    const auto& hole = station.after.features.front();
    EXPECT_GE(hole.temperature->value, std::max(edge, face));
    edge = hole.temperature->value;
  }
  EXPECT_GT(edge, face);
  EXPECT_EQ(answer.part.features.front().temperature->value, edge);
}

// Turned over, the other face takes the flash of the second belt; beneath a belt a face is as warm
// as the sheet.
TEST(PartHeat, FollowsBothFacesThroughAFlip) {
  sim::Setup setup = two_belts(marked());
  setup.stations.insert(setup.stations.begin() + 1, FlipSetup{.description = "part turned over"});
  setup.scenario.stations.insert(setup.scenario.stations.begin() + 1, cases::FlipStation{});
  const StatedAnswer answer = answer_of(setup);
  const auto& heat = *answer.stations[2].heat;
  ASSERT_TRUE(answer.part.reverse);
  EXPECT_NEAR(answer.part.reverse->face.temperature->value,
              heat.arrival->value + heat.flash_rise->value, 1e-9);
  EXPECT_EQ(answer.part.face.temperature->value,
            std::max(answer.stations[0].after.face.temperature->value, heat.leaving->value));
}

TEST(PartHeat, IsAbsentWhereTheMetalIsNotKnown) {
  sim::Setup setup = marked();
  setup.heat.part.reset();
  const StatedAnswer answer = answer_of(setup);
  EXPECT_FALSE(answer.part.face.temperature);
  EXPECT_FALSE(answer.part.features.front().temperature);
  EXPECT_FALSE(answer.stations[0].heat);
}

// The share's own band must be in the temperatures: 0.60 to 0.85 of the power on a rise of 0.65.
TEST(PartHeat, CarriesTheBandOfTheShare) {
  sim::Setup setup = marked();
  setup.scenario.numerics.bands = true;
  const Result result = run(setup);
  const Banded face = *result.part.face.temperature;
  const StationHeat& heat = *result.stations[0].heat;
  const double share = heat.share_to_part->value;
  const double rise = face.value - setup.heat.room;
  EXPECT_GE(*face.high - setup.heat.room, rise * 0.85 / share * (1 - 1e-9));
  EXPECT_LE(*face.low - setup.heat.room, rise * 0.60 / share * (1 + 1e-9));
  EXPECT_GE(*face.low, setup.heat.room);
  EXPECT_LE(*heat.share_to_part->high, 0.85 + 1e-12);
  EXPECT_GE(*heat.share_to_part->low, 0.60 - 1e-12);
  EXPECT_THAT(result.notes, Contains(HasSubstr("heat of the part: an estimate")));
}

/// Dull, dry, heavy, slow: grains that rub and hardly cut, a hard cover set deep.
Setup abused() {
  sim::Setup setup = marked();
  auto& belt = setup.belt(0);
  belt.cover.modulus *= 8.0;
  belt.setting = cases::InterferenceSetting{0.8};
  belt.friction = 0.6;
  for (LayerLaw* layer : {&belt.substrate, &belt.coating, &belt.top}) {
    std::get<models::Preston>(layer->law).coefficient = 2e-6;
    layer->coefficient = 2e-6;
  }
  belt.options = {};
  return setup;
}

TEST(HeatWarnings, SayWhereZincMeltsWhenTheLineIsAbused) {
  const Result result = run(abused());
  EXPECT_THAT(result.warnings, Contains(testing::AllOf(HasSubstr("station[0]"),
                                                       HasSubstr("where it begins to melt"))));
  EXPECT_TRUE(zinc_heat(abused(), result)->melts);
}

TEST(HeatWarnings, DoNotSpeakOfMeltingOnShippedLines) {
  const std::filesystem::path folder = support::examples();
  int seen = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".toml") continue;
    sim::Setup setup = set_up(cases::read(entry.path()));
    setup.scenario.numerics.model = "fast";
    setup.scenario.numerics.bands = false;
    const Result result = run(setup);
    EXPECT_THAT(result.warnings, Not(Contains(HasSubstr("begins to melt")))) << entry.path();
    ++seen;
  }
  EXPECT_GE(seen, 5);
}

TEST(HeatWarnings, NameAColourWithItsSpreadOnBareSteel) {
  sim::Setup setup = abused();
  setup.scenario.part.coating.reset();
  const Result result = run(setup);
  EXPECT_THAT(result.warnings,
              Contains(testing::AllOf(HasSubstr("temper colour about"), HasSubstr("+- 15 K"),
                                      HasSubstr("held longer"))));
}

// A melting burr is held at its melting point and says so.
TEST(HeatWarnings, HoldABurrAtItsMeltingPoint) {
  sim::Setup setup = abused();
  const Result result = run(setup);
  const auto& edges = result.stations[0].heat->edges;
  ASSERT_FALSE(edges.empty());
  for (const auto& edge : edges) {
    ASSERT_TRUE(edge.burr);
    EXPECT_LE(edge.burr->value, *setup.heat.part->melting_point);
    EXPECT_EQ(edge.melts, edge.burr->value == *setup.heat.part->melting_point);
    EXPECT_LE(edge.beside->value, edge.burr->value);
  }
}

}  // namespace
}  // namespace drumlin::sim
