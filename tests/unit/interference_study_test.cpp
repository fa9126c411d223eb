#include "sim/interference_study.hpp"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "models/elastomer/growth.hpp"
#include "sim/fast/fast_model.hpp"
#include "tests/support/drums.hpp"

namespace drumlin::sim {
namespace {

using testing::HasSubstr;

/// A drum of 20 Shore A set 0.5 mm into a coated sheet of 1.5 mm with a burr on a hole's rim.
Setup panel() {
  Setup setup;
  setup.stations = {tests::drum_at_work(20)};
  setup.belt(0).thermal_expansion = 2e-4;
  setup.scenario.stations = {cases::BeltStation{}};
  cases::Part& part = setup.scenario.part;
  part.thickness = 1.5;
  part.length = 400;
  part.coating.emplace();
  part.coating->thickness = part.coating->reverse_thickness = 0.050;
  part.features = {
      {.name = "hole-6",
       .kind = cases::FeatureKind::hole,
       .size = 6.0,
       .side = cases::Side::trailing,
       .burr = models::WallBurr{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 350}}};
  return setup;
}

cases::Limit at_least(double low) {
  cases::Limit limit;
  limit.low = low;
  return limit;
}

cases::Limit at_most(double high) {
  cases::Limit limit;
  limit.high = high;
  return limit;
}

cases::Accept limits(cases::Limits some) {
  cases::Accept accept;
  accept.limits = std::move(some);
  return accept;
}

const Disturbance& cause(const InterferenceStudy& study, const std::string& key) {
  for (const auto& d : study.disturbances) {
    if (d.key == key) return d;
  }
  throw std::out_of_range(key);
}

double removal_at(Setup setup, double offset) {
  setup.belt(0).interference_offset += offset;
  fast::Drums drums;
  return fast::state(setup, fast::simulate(setup, drums), false).part.face.removal->value;
}

TEST(InterferenceStudy, GivesWhatTheFastModelGivesAtBothEnds) {
  sim::Setup setup = panel();
  setup.scenario.part.thickness_tolerance = 0.07;
  const auto study = study_interference(setup, {});
  ASSERT_TRUE(study);
  EXPECT_EQ(study->model, "fast");
  const Disturbance& sheet = cause(*study, "part.thickness_tolerance");
  EXPECT_TRUE(sheet.given);
  EXPECT_EQ(sheet.low, -0.07);
  EXPECT_EQ(sheet.high, 0.07);
  // The same model asked twice; drums kept from one question to the next change nothing.
  EXPECT_DOUBLE_EQ(study->removal, removal_at(setup, 0));
  EXPECT_DOUBLE_EQ(sheet.removal_low, removal_at(setup, -0.07));
  EXPECT_DOUBLE_EQ(sheet.removal_high, removal_at(setup, 0.07));
  EXPECT_NEAR(*sheet.coating_high, std::max(0.050 - sheet.removal_high, 0.0), 1e-12);
}

// The slope is a difference over 0.02 mm; a curve that bends by a tenth over 0.1 mm changes it by
// far less than the hundredth that is asked.
TEST(InterferenceStudy, GivesTheSlopeOfTheRemoval) {
  const sim::Setup setup = panel();
  const auto study = study_interference(setup, {});
  const double wide = (removal_at(setup, 0.04) - removal_at(setup, -0.04)) / 0.08;
  EXPECT_NEAR(study->removal_per_mm / wide, 1.0, 0.01);
  EXPECT_GT(study->removal_per_mm, 0);
}

TEST(InterferenceStudy, MarksAmountsThatTheCaseDoesNotGive) {
  const auto study = study_interference(panel(), {});
  ASSERT_EQ(study->disturbances.size(), 5U);
  for (const auto& d : study->disturbances) {
    EXPECT_FALSE(d.given) << d.key;
    EXPECT_LE(d.low, 0) << d.key;
    EXPECT_GE(d.high, 0) << d.key;
    EXPECT_LT(d.low, d.high) << d.key;
    EXPECT_LT(d.removal_low, d.removal_high) << d.key;
    EXPECT_FALSE(d.accepted) << "no limit, nothing to judge";
  }
  EXPECT_FALSE(study->most_less);
  EXPECT_FALSE(study->most_more);
}

// A worn cover falls short: with the wear the case is as set, without it the drum goes deeper.
TEST(InterferenceStudy, SetsAGivenWearAgainstTheNewCover) {
  sim::Setup setup = panel();
  std::get<cases::BeltStation>(setup.scenario.stations[0]).drum.wear = 0.15;
  setup.belt(0).interference_offset = -0.15;
  const auto study = study_interference(setup, {});
  const Disturbance& wear = cause(*study, "station[0].drum.wear");
  EXPECT_TRUE(wear.given);
  EXPECT_EQ(wear.low, -0.15);
  EXPECT_EQ(wear.high, 0);
  EXPECT_DOUBLE_EQ(wear.removal_low, study->removal);
  EXPECT_DOUBLE_EQ(wear.removal_high, removal_at(setup, 0.15));
}

TEST(InterferenceStudy, LetsAWarmCoverGrowByItsExpansion) {
  sim::Setup setup = panel();
  const Disturbance usual = cause(*study_interference(setup, {}), "station[0].drum.temperature");
  EXPECT_EQ(usual.low, 0);
  // t alpha dT (1 + nu) / (1 - nu): 15 mm, 2e-4 /K, the usual 20 K, nu 0.47.
  EXPECT_NEAR(usual.high, 15 * 2e-4 * 20 * 1.47 / 0.53, 1e-12);
  setup.belt(0).temperature_given = true;
  set_temperature_rise(setup.belt(0), 10);
  const auto study = study_interference(setup, {});
  const Disturbance& given = cause(*study, "station[0].drum.temperature");
  EXPECT_TRUE(given.given);
  EXPECT_NEAR(given.high, usual.high / 2, 1e-12);
  EXPECT_DOUBLE_EQ(given.removal_high, study->removal) << "the case is the warm end";
}

// At the ends of what is allowed the limits hold, a little past them one does not: the search stops
// within 0.01 mm.
TEST(InterferenceStudy, FindsHowFarTheLimitsLetItGo) {
  const sim::Setup setup = panel();
  const double set = removal_at(setup, 0);
  const auto accept =
      limits({{"face_removal", at_most(1.3 * set)}, {"coating_left", at_least(0.001)}});
  const auto study = study_interference(setup, accept);
  ASSERT_TRUE(study->most_more);
  EXPECT_EQ(study->limited_more, "face face_removal");
  EXPECT_LE(removal_at(setup, *study->most_more), 1.3 * set);
  EXPECT_GT(removal_at(setup, *study->most_more + 0.0101), 1.3 * set);
  ASSERT_TRUE(study->most_less);
  EXPECT_LT(*study->most_less, 0);
  EXPECT_THAT(study->limited_less, HasSubstr("no limit"));
}

TEST(InterferenceStudy, NamesTheBurrThatEndsTheOtherWay) {
  const sim::Setup setup = panel();
  const auto accept = limits({{"burr_height", at_most(0.05)}});
  const auto study = study_interference(setup, accept);
  ASSERT_TRUE(study->most_less);
  EXPECT_EQ(study->limited_less, "hole-6 burr_height");
}

TEST(InterferenceStudy, LooksForNothingWhereALimitFailsAsSet) {
  const auto study = study_interference(panel(), limits({{"face_removal", at_most(1e-5)}}));
  EXPECT_FALSE(study->most_less);
  EXPECT_FALSE(study->most_more);
  for (const auto& d : study->disturbances)
    EXPECT_EQ(d.accepted, false) << d.key;
}

// The model gives no roughness: such a limit is passed over, and the others still count.
TEST(InterferenceStudy, PassesOverWhatTheFastModelCannotKnow) {
  const auto study = study_interference(
      panel(), limits({{"roughness", at_most(1e-3)}, {"face_removal", at_most(1.0)}}));
  ASSERT_TRUE(study->most_more);
  EXPECT_THAT(study->limited_more, HasSubstr("no limit"));
  EXPECT_EQ(cause(*study, "part.thickness_tolerance").accepted, true);
}

// A line load finds its own interference, whatever the sheet; what comes after the setting moves it
// all the same.
TEST(InterferenceStudy, MovesALineLoadSettingOnceItIsSet) {
  sim::Setup setup = panel();
  setup.belt(0).setting = cases::LineLoadSetting{0.5};
  const auto study = study_interference(setup, {});
  const Disturbance& warmth = cause(*study, "station[0].drum.temperature");
  EXPECT_DOUBLE_EQ(warmth.removal_low, study->removal);
  EXPECT_DOUBLE_EQ(warmth.removal_high, removal_at(setup, warmth.high));
  EXPECT_GT(warmth.removal_high, study->removal);
}

TEST(InterferenceStudy, GivesTheSameNumbersTwice) {
  const auto accept = limits({{"coating_left", at_least(0.005)}});
  const auto a = study_interference(panel(), accept);
  const auto b = study_interference(panel(), accept);
  EXPECT_EQ(a->removal_per_mm, b->removal_per_mm);
  EXPECT_EQ(a->most_less, b->most_less);
  EXPECT_EQ(a->most_more, b->most_more);
  for (std::size_t i = 0; i < a->disturbances.size(); ++i)
    EXPECT_EQ(a->disturbances[i].removal_high, b->disturbances[i].removal_high);
}

TEST(InterferenceStudy, HasNothingToSayOfALineWithoutABelt) {
  sim::Setup setup = panel();
  setup.stations = {KnockOffSetup{}};
  setup.scenario.stations = {cases::KnockOffStation{}};
  EXPECT_FALSE(study_interference(setup, {}));
}

}  // namespace
}  // namespace drumlin::sim
