#include "sim/early_warnings.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/feed_angle.hpp"
#include "sim/lanes.hpp"
#include "tests/support/drums.hpp"

namespace drumlin::sim {
namespace {

using testing::Contains;
using testing::HasSubstr;

/// One belt station of P60 on X cloth, as set-up and as case, on a part with one burr.
Setup line_with(const models::AnyBurr& burr) {
  Setup setup;
  setup.stations = {tests::drum_at_work(40)};
  cases::BeltStation belt;
  belt.belt.grit.designation = "P60";
  belt.belt.grit.bead_height = {.value = 0.538, .low = 0.27, .high = 1.1, .source = "a trial"};
  belt.belt.backing.name = "X";
  belt.belt.backing.bead_height =
      cases::Sourced{.value = 0.5, .low = 0.3, .high = 0.8, .source = "our shop"};
  setup.scenario.stations = {belt};
  setup.scenario.conveyor.passes = 1;
  setup.scenario.part.thickness = 8;
  setup.scenario.part.length = 400;
  setup.scenario.part.width = 300;
  cases::Feature feature;
  feature.name = "edge";
  feature.burr = burr;
  setup.scenario.part.features = {feature};
  return setup;
}

void put_first(Setup& setup, const cases::KnockOffStation& tool) {
  setup.scenario.stations.insert(setup.scenario.stations.begin(), tool);
  setup.stations.insert(setup.stations.begin(), KnockOffSetup{});
}

const models::Bead plasma{
    .width = 2.5, .height = 1.0, .specific_energy = 25e3, .bond_strength = 100};

// 8 mm plate, plasma bead of 1.0 mm, a P60 belt only: warned of before anything runs, with the
// limit, its source and what to do.
TEST(BeadWarning, NamesTheLimitItsSourceAndTheRemedy) {
  EXPECT_THAT(
      early_warnings(line_with(plasma)),
      testing::ElementsAre(
          "edge: the bead of 1 mm stands above what the belt of station[0] takes, 0.5 mm (backing "
          "X; "
          "our shop); it tears belts; strike it off first: put [[station]] kind = \"knock-off\" "
          "before station[0]"));
}

TEST(BeadWarning, IsGoneBehindAKnockOffThatGoesLowEnough) {
  sim::Setup setup = line_with(plasma);
  put_first(setup, {.clearance = 0.3, .line_force = 200});
  EXPECT_THAT(early_warnings(setup), testing::IsEmpty());
  sim::Setup high = line_with(plasma);
  put_first(high, {.clearance = 0.7, .line_force = 200});
  EXPECT_THAT(early_warnings(high),
              Contains(HasSubstr("the knock-off station before it leaves up to 0.7 mm; set its "
                                 "clearance to 0.5 mm or less")));
}

TEST(BeadWarning, GoesByTheFinerOfGritAndBacking) {
  sim::Setup setup = line_with(plasma);
  std::get<cases::BeltStation>(setup.scenario.stations[0]).belt.grit.bead_height.value = 0.25;
  EXPECT_THAT(early_warnings(setup), Contains(HasSubstr("takes, 0.25 mm (grit P60; a trial)")));
  models::Bead low = plasma;
  low.height = 0.2;
  setup.scenario.part.features[0].burr = low;
  EXPECT_THAT(early_warnings(setup), testing::IsEmpty());
}

// Through single grains 0.5 mm apart a wall of 0.12 x 0.02 mm bends long before one of 0.15 x
// 0.15 mm: the root's moment goes with its square.
TEST(LipWarning, ComesForThinBurrsUnderALastBelt) {
  const models::WallBurr feather{.height = 0.12, .root = 0.02, .taper = 0, .flow_stress = 330};
  sim::Setup setup = line_with(feather);
  setup.belt(0).grain_spacing = 0.5;
  EXPECT_THAT(early_warnings(setup),
              Contains(testing::AllOf(HasSubstr("station[0] is the last tool"),
                                      HasSubstr("leave a new lip, at edge"))));
  const models::WallBurr stout{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 330};
  sim::Setup thick = line_with(stout);
  thick.belt(0).grain_spacing = 0.5;
  EXPECT_THAT(early_warnings(thick), testing::IsEmpty());
}

TEST(SideWarning, ComesWhereNoToolMeetsTheBurrs) {
  const models::WallBurr stout{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 330};
  sim::Setup setup = line_with(stout);
  setup.scenario.part.burr_side = cases::BurrSide::down;
  EXPECT_THAT(early_warnings(setup), Contains(HasSubstr("the burrs lie down and no station turns "
                                                        "the part over: no tool meets them")));
  setup.scenario.stations.insert(setup.scenario.stations.begin(), cases::FlipStation{});
  setup.stations.insert(setup.stations.begin(), FlipSetup{});
  EXPECT_THAT(early_warnings(setup), testing::IsEmpty());
  setup.scenario.part.burr_side = cases::BurrSide::up;
  EXPECT_THAT(early_warnings(setup), Contains(HasSubstr("turned over before any tool meets")));
}

TEST(EarlyWarnings, SayThatBeltsHardlyReachTheFlank) {
  sim::Setup setup = line_with(models::NoBurr{});
  setup.scenario.part.flank_oxide = 0.015;
  EXPECT_THAT(early_warnings(setup), Contains(HasSubstr("the cut flanks carry 15 um of oxide")));
}

// 300 x 200 mm fed at 90 degrees takes 200 mm of conveyor along and 300 mm across.
TEST(Turning, TellsWhatEdgesBecomeAndWhatWidthThePartTakes) {
  cases::Part part;
  part.length = 300;
  part.width = 200;
  EXPECT_EQ(turning_text(part), "");
  part.angle = 1.5707963267948966;
  EXPECT_EQ(
      turning_text(part),
      "turned by 90 deg, the edges drawn as leading are fed as side, trailing as side, side as "
      "trailing and leading; the part takes 300 mm across the conveyor instead of 200 mm and "
      "200 mm along it instead of 300 mm");
  part.angle = 3.141592653589793;
  EXPECT_THAT(turning_text(part), HasSubstr("drawn as leading are fed as trailing, trailing as "
                                            "leading, side as side"));
}

/// A coated panel with a burr all round a hole, fed at 0 degrees.
Setup panel_with_hole() {
  Setup setup =
      line_with(models::WallBurr{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 330});
  setup.scenario.part.features[0].kind = cases::FeatureKind::hole;
  setup.scenario.part.features[0].size = 6.0;
  return setup;
}

// A hole looks alike after every quarter turn, so no turn is better than none.
TEST(FeedAngle, StaysWhereNoTurnIsBetter) {
  sim::Setup setup = panel_with_hole();
  cases::Limit limit;
  limit.high = 0.5;
  setup.scenario.accept.limits = {{"burr_height", limit}};
  EXPECT_THAT(feed_angle_text(setup), HasSubstr("fed as it is, at 0 deg, the part does as well"));
}

// 400 mm and 50 mm between parts, three lanes at 4 m/min: 1600 parts an hour.
TEST(Lanes, GiveThePartsThatLeaveTheLine) {
  cases::Part part;
  part.length = 400;
  part.width = 200;
  cases::Conveyor conveyor{.speed = 4000.0 / 60.0, .passes = 1, .lanes = 3, .gap = 50};
  EXPECT_NEAR(3600.0 * throughput(part, conveyor, 0.0), 1600.0, 1e-9);
  // Turned, 3 (200 + 50) mm of width hold one part of 400 + 50 mm, and 250 mm of length one more.
  EXPECT_EQ(lanes_at(part, conveyor, 1.5707963267948966), 1);
  EXPECT_NEAR(3600.0 * throughput(part, conveyor, 1.5707963267948966), 960.0, 1e-9);
  conveyor.passes = 2;
  EXPECT_NEAR(3600.0 * throughput(part, conveyor, 0.0), 800.0, 1e-9);
}

// A burr on the sides only: no limit there is judged until a turn makes ends of them, and that
// costs lanes.
TEST(FeedAngle, NamesTheTurnThatServesBestAndTheLanesItCosts) {
  sim::Setup setup =
      line_with(models::WallBurr{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 330});
  setup.scenario.part.features[0].side = cases::Side::side;
  setup.scenario.part.length = 300;
  setup.scenario.part.width = 200;
  setup.scenario.conveyor.lanes = 3;
  cases::Limit limit;
  limit.high = 0.5;
  setup.scenario.accept.limits = {{"burr_height", limit}};
  const std::string text = feed_angle_text(setup);
  EXPECT_THAT(text, HasSubstr("best fed at 90 deg in place of 0 deg"));
  EXPECT_THAT(text, HasSubstr("300 mm across the conveyor in place of 200 mm, so 2 lanes in place "
                              "of 3 go side by side"));
}

TEST(FeedAngle, IsNotSpokenOfWithoutLimitsOrEdges) {
  sim::Setup setup = panel_with_hole();
  EXPECT_EQ(feed_angle_text(setup), "");
  cases::Limit limit;
  limit.high = 0.5;
  setup.scenario.accept.limits = {{"burr_height", limit}};
  setup.scenario.part.features.clear();
  EXPECT_EQ(feed_angle_text(setup), "");
}

}  // namespace
}  // namespace drumlin::sim
