#include "sim/warnings.hpp"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/advice.hpp"
#include "sim/early_warnings.hpp"
#include "tests/support/drums.hpp"

namespace drumlin::sim {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

Quantity known(double value) {
  return Banded{.value = value, .low = {}, .high = {}};
}

/// One drum on a bare part without features, and what a model would have found.
struct Found {
  Setup setup;
  Result result;
};

Found found(const BeltSetup& station) {
  Found f;
  f.setup.stations = {station};
  f.setup.scenario.part.thickness = 1.5;
  f.setup.scenario.part.length = 400;
  StationResult stated;
  stated.interference = known(0.5);
  stated.effective_interference = known(0.5);
  stated.line_load = known(1.0);
  stated.half_width = known(9.0);
  stated.speed_ratio = known(0.4);
  stated.dynamic_stiffening = known(1.5);
  stated.belt_tension_at_speed = known(1.9);
  f.result.stations = {stated};
  f.result.part.face.removal = known(0.01);
  return f;
}

std::vector<std::string> warnings_of(Found f) {
  warn(f.setup, f.result);
  return f.result.warnings;
}

std::vector<std::string> notes_of(Found f) {
  advise(f.setup, f.result);
  return f.result.notes;
}

TEST(Warnings, AreNoneForADrumThatWorksAsItShould) {
  EXPECT_THAT(warnings_of(found(tests::drum_at_work(20))), testing::IsEmpty());
}

TEST(SpeedWarning, ComesFromSevenTenthsOfTheCriticalSpeedOn) {
  Found f = found(tests::drum_at_work(20));
  f.result.stations[0].speed_ratio = known(0.69);
  EXPECT_THAT(warnings_of(f), testing::IsEmpty());
  f.result.stations[0].speed_ratio = known(0.71);
  EXPECT_THAT(warnings_of(f), Contains(HasSubstr("0.71 of the critical speed")));
  EXPECT_THAT(warnings_of(f), Contains(HasSubstr("theory, no measured onset")));
  EXPECT_THAT(warnings_of(f), Not(Contains(HasSubstr("capped"))));
}

TEST(SpeedWarning, SaysWhereTheAnswerIsCapped) {
  Found f = found(tests::drum_at_work(20));
  f.result.stations[0].speed_ratio = known(1.05);
  EXPECT_THAT(warnings_of(f), Contains(HasSubstr("capped: inertia is taken as at 0.9 of it")));
}

TEST(SpeedWarning, OfADrumAtRestSaysThatMotionIsNotModelled) {
  BeltSetup station = tests::drum_at_work(20);
  station.options.moving = false;
  Found f = found(station);
  f.result.stations[0].speed_ratio = known(0.8);
  EXPECT_THAT(warnings_of(f), Contains(HasSubstr("cover_motion = \"static\" does not model that")));
}

TEST(DepthWarning, GoesByTheStrainThatTheOptionsHoldFor) {
  BeltSetup station = tests::drum_at_work(20);
  Found finite = found(station);
  // 5.3 and 21 % of a 15 mm cover.
  finite.result.stations[0].effective_interference = known(0.8);
  EXPECT_THAT(warnings_of(finite), testing::IsEmpty());
  finite.result.stations[0].effective_interference = known(3.2);
  EXPECT_THAT(warnings_of(finite), Contains(HasSubstr("fitted up to 20 %")));
  station.options.finite_strain = false;
  Found linear = found(station);
  EXPECT_THAT(warnings_of(linear), testing::IsEmpty());
  linear.result.stations[0].effective_interference = known(0.8);
  EXPECT_THAT(warnings_of(linear), Contains(HasSubstr("past the linear range of 5 %")));
}

TEST(ContactWarning, SaysWhenTheDrumStandsClear) {
  Found f = found(tests::drum_at_work(20));
  f.result.stations[0].effective_interference = known(-0.04);
  f.result.stations[0].line_load = known(0);
  EXPECT_THAT(warnings_of(f),
              Contains(HasSubstr("no contact with the face: the drum stands 0.04 mm clear")));
}

TEST(ContactWarning, SaysWhenRunOutLiftsTheDrumOff) {
  BeltSetup station = tests::drum_at_work(20);
  station.run_out = 1.2;
  EXPECT_THAT(warnings_of(found(station)), Contains(HasSubstr("lifts the drum off at every turn")));
  station.run_out = 0.8;
  EXPECT_THAT(warnings_of(found(station)), testing::IsEmpty());
}

TEST(TensionWarning, ComesWhenInertiaTakesHalfAndWhenItTakesAll) {
  Found f = found(tests::drum_at_work(20));
  f.result.stations[0].belt_tension_at_speed = known(0.9);
  EXPECT_THAT(warnings_of(f), Contains(HasSubstr("of 2 N/mm of belt tension 0.9 N/mm are left")));
  f.result.stations[0].belt_tension_at_speed = known(0);
  EXPECT_THAT(warnings_of(f), Contains(HasSubstr("takes all of its 2 N/mm of tension")));
}

TEST(LandWarning, GivesThePressureUnderTheLands) {
  BeltSetup station = tests::drum_at_work(80);
  station.land_ratio = 0.25;
  EXPECT_THAT(warnings_of(found(station)),
              Contains(HasSubstr("pressure under the lands is 4 times that of a plain cover")));
}

TEST(Notes, TellTheDrumOfTheDurometerFromTheOneThatThePartFeels) {
  EXPECT_THAT(
      notes_of(found(tests::drum_at_work(20))),
      Contains(testing::AllOf(
          HasSubstr("the drum that the durometer measures is not the drum that the part feels"),
          HasSubstr("1.50 times as stiff"))));
}

TEST(Notes, SayWhatMovesALineLoadOnceItIsSet) {
  BeltSetup station = tests::drum_at_work(20);
  station.setting = cases::LineLoadSetting{0.5};
  EXPECT_THAT(notes_of(found(station)),
              Contains(HasSubstr("once set, the drum stays where it is, so sheet thickness, bow, "
                                 "cover wear, another belt and warmth change its load")));
}

// K P' v / v_f is a straight line's: under a power of pressure a narrower nip takes more or less.
TEST(Notes, SayThatHardnessCancelsAtALineLoadOnlyUnderPreston) {
  auto station = tests::drum_at_work(20);
  station.setting = cases::LineLoadSetting{0.5};
  EXPECT_THAT(notes_of(found(station)), Contains(HasSubstr("hardness cancels on the face")));
  station.substrate.law = models::ThresholdPower{};
  const auto notes = notes_of(found(station));
  EXPECT_THAT(notes, Contains(HasSubstr("hardness does not cancel on the face")));
  EXPECT_THAT(notes, Not(Contains(HasSubstr("hardness cancels on the face"))));
}

TEST(Notes, SayOfEachOptionWhatItLeavesOut) {
  const auto followed = notes_of(found(tests::drum_at_work(20)));
  EXPECT_THAT(followed, Contains(HasSubstr("a friction of 0.1 between them is enough")));
  EXPECT_THAT(followed, Not(Contains(HasSubstr("nothing moves"))));
  BeltSetup idealised = tests::drum_at_work(20);
  idealised.options = {};
  const auto left_out = notes_of(found(idealised));
  for (const char* part :
       {"5 to 16 % less line load", "14 to 61 % more line load", "small strain", "nothing moves"})
    EXPECT_THAT(left_out, Contains(HasSubstr(part)));
}

Found with_edge(FeatureResult edge) {
  Found f = found(tests::drum_at_work(20));
  f.result.part.features = {std::move(edge)};
  return f;
}

FeatureResult rim(const std::string& outcome) {
  FeatureResult edge;
  edge.name = edge.feature = "hole-6";
  edge.kind = "hole";
  edge.burr = "wall";
  edge.outcome = outcome;
  return edge;
}

// A belt alone, a thin burr pushed into the hole, the edge as sharp as it was: said in these words.
TEST(OutcomeWarning, SaysThatABeltPushedTheBurrIntoTheHole) {
  FeatureResult edge = rim("folded beyond the edge");
  edge.secondary_burr = known(0.085);
  edge.lip_thickness = known(0.02);
  EXPECT_THAT(
      warnings_of(with_edge(edge)),
      testing::ElementsAre(
          "hole-6: the burr was pushed into the hole instead of being cut: a lip of 85 um, 20 um "
          "thick, hangs over the opening, and the edge under it is still sharp; a brush, or a pass "
          "with the part turned round, takes such a lip off"));
  edge.kind = "outer-edge";
  edge.edge_radius = known(0.12);
  EXPECT_THAT(
      warnings_of(with_edge(edge)),
      Contains(testing::AllOf(HasSubstr("pushed over the edge"), HasSubstr("hangs beyond the edge"),
                              HasSubstr("rounded to 0.12 mm"))));
}

TEST(OutcomeWarning, SaysThatALipLiesOnTheFace) {
  EXPECT_THAT(warnings_of(with_edge(rim("folded onto the face"))),
              Contains(HasSubstr("pushed back over the face instead of being cut")));
}

TEST(OutcomeWarning, SaysThatNoToolTouchedTheBurr) {
  EXPECT_THAT(warnings_of(with_edge(rim("untouched"))),
              Contains("hole-6: no tool touched the burr: it stands as it was"));
}

TEST(OutcomeWarning, IsNoneForABurrThatWasGroundOff) {
  for (const char* outcome : {"ground off", "stands", "broken off", ""})
    EXPECT_THAT(warnings_of(with_edge(rim(outcome))), testing::IsEmpty()) << outcome;
}

TEST(OxideWarning, ComesWhetherALimitAsksForItOrNot) {
  FeatureResult edge = rim("");
  edge.oxide_left = known(0.97);
  edge.flank_reach = known(0.08);
  EXPECT_THAT(warnings_of(with_edge(edge)),
              Contains("of the oxide on the flanks 97..97 % is left at hole-6; tools reached 80 um "
                       "below the face: paint comes off with what is left"));
  edge.oxide_left = known(0);
  EXPECT_THAT(warnings_of(with_edge(edge)), testing::IsEmpty());
}

TEST(EarlyWarnings, ComeBackWithTheResult) {
  Found f = found(tests::drum_at_work(40));
  f.setup.scenario.part.flank_oxide = 0.015;
  EXPECT_EQ(early_warnings(f.setup).size(), 1U);
  EXPECT_THAT(warnings_of(f), Contains(early_warnings(f.setup).front()));
}

}  // namespace
}  // namespace drumlin::sim
