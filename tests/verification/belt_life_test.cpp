#include "sim/belt_life.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "sim/belt_wear.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/lanes.hpp"
#include "sim/life_study.hpp"
#include "tests/support/fast_cases.hpp"

namespace drumlin::sim {
namespace {

constexpr double worn = 0.3;
constexpr double run_in = 0.25;
constexpr double life_volume = 0.4;  // [mm]
constexpr double loop = 1500.0;      // [mm]

/// One belt at a working line load over a plain plate, without threshold: the face loses K P' v/v_f
/// whatever else there is.
sim::Setup plain_line() {
  auto station = tests::belted_drum(40);
  station.setting = cases::LineLoadSetting{0.5};
  station.wear = {
      .dulling = {life_volume, worn, run_in}, .belt_length = loop, .grain_diameter = 0.125};
  sim::Setup setup = tests::belt_line(station, {});
  setup.scenario.part.length = 400.0;
  setup.scenario.part.width = 200.0;
  setup.scenario.conveyor = {.speed = station.feed, .passes = 1, .lanes = 2, .gap = 50.0};
  setup.scenario.stations = {cases::BeltStation{}};
  return setup;
}

double face_removal(const sim::Setup& setup) {
  return tests::fast_answer(setup).part.face.removal->value;
}

/// Depth that the fresh belt would take with the work of a pass at a line load.
double fresh_depth(const sim::BeltSetup& station, double line_load) {
  return station.friction * line_load * station.sliding_speed /
         (station.feed * station.specific_energy);
}

// At a line load every part is the same work: parts go with the share of life.
TEST(BeltLives, AgreeWithTheClosedFormAtALineLoad) {
  const sim::Setup setup = plain_line();
  const BeltLives lives(setup, {});
  ASSERT_TRUE(lives.wears(0));
  const double all = 2.0 * loop * life_volume / (400.0 * fresh_depth(setup.belt(0), 0.5));
  for (const double x : {0.1, 0.35, 0.8, 1.0}) {
    EXPECT_NEAR(lives.parts_at(0, x) / (all * x), 1.0, 1e-4) << x;
    EXPECT_NEAR(lives.share_after(0, all * x), x, 1e-4) << x;
  }
}

// The work of all parts of a life is what the belt stands: part by part in 400 steps with the model
// asked at every step, nothing interpolated. At an interference, where a dull belt wears the part
// less and so presses more; 0.1 % by the six ages and the steps.
TEST(BeltLives, DoTheWorkThatTheBeltStands) {
  sim::Setup setup = plain_line();
  setup.belt(0).setting = cases::InterferenceSetting{0.4};
  const BeltLives lives(setup, {});
  const double end = lives.parts_at(0, 1.0);
  constexpr int steps = 400;
  double metal = 0.0;
  for (int i = 0; i < steps; ++i) {
    const double parts = end * (i + 0.5) / steps;
    const auto answer = tests::fast_answer(worn_line(setup, lives, parts));
    const double load = answer.stations[0].working_line_load->value;
    // Per lane and per width of belt: parts / lanes, each L long.
    metal += fresh_depth(setup.belt(0), load) * 400.0 * end / steps / 2.0;
  }
  EXPECT_NEAR(metal / (life_volume * loop), 1.0, 1e-3);
}

TEST(BeltLives, CountTheSameWorkInPartsLengthAreaAndTime) {
  const sim::Setup setup = plain_line();
  const BeltLives lives(setup, {});
  using Of = cases::Amount::Of;
  EXPECT_DOUBLE_EQ(lives.parts_of(0, {Of::parts, 800}), 800);
  EXPECT_DOUBLE_EQ(lives.parts_of(0, {Of::length, 400.0 * 400}), 800);
  EXPECT_DOUBLE_EQ(lives.parts_of(0, {Of::area, 800 * 400.0 * 200}), 800);
  const double hour = 3600.0 * 2 * setup.scenario.conveyor.speed / 450.0;
  EXPECT_NEAR(lives.parts_of(0, {Of::time, 3600}), hour, 1e-9 * hour);
  EXPECT_NEAR(lives.parts_of(0, {Of::life, 1.0}), lives.parts_at(0, 1.0), 1e-9);
}

// A life that the case states is the life.
TEST(BeltLives, TakeTheLifeThatTheCaseStates) {
  sim::Setup setup = plain_line();
  auto& belt = std::get<cases::BeltStation>(setup.scenario.stations[0]).belt;
  belt.life = cases::Amount{cases::Amount::Of::parts, 8000};
  const BeltLives lives(setup, {});
  EXPECT_NEAR(lives.parts_at(0, 1.0), 8000, 1e-6);
  EXPECT_NEAR(lives.parts_at(0, 0.35), 8000 * 0.35, 1.0);
}

TEST(BeltAges, MakeTheBeltThatTheCaseStates) {
  sim::Setup setup = plain_line();
  auto& station = std::get<cases::BeltStation>(setup.scenario.stations[0]);
  station.belt_age = cases::Amount{cases::Amount::Of::life, 1.0};
  const double fresh = face_removal(setup);
  EXPECT_NEAR(face_removal(with_belt_ages(setup, {})) / fresh, worn, 1e-4);
  const BeltLives lives(setup, {});
  station.belt_age = cases::Amount{cases::Amount::Of::parts, lives.parts_at(0, 0.5)};
  const sim::Setup half = with_belt_ages(setup, {});
  EXPECT_NEAR(half.belt(0).wear.life_share, 0.5, 1e-6);
  station.belt_age = cases::Amount{cases::Amount::Of::parts, 0};
  EXPECT_DOUBLE_EQ(face_removal(with_belt_ages(setup, {})), fresh);
}

// Dull belts take less power than their loss of bite, since friction falls by its root.
TEST(BeltAges, LowerFrictionLessThanRemoval) {
  auto station = plain_line().belt(0);
  const double friction = station.friction;
  const auto bite = [&] {
    return std::visit([](const auto& law) { return law.per_path(0.5); }, station.substrate.law);
  };
  const double fresh = bite();
  dull_belt(station, 0.25);
  EXPECT_NEAR(station.friction, 0.5 * friction, 1e-15);
  EXPECT_NEAR(bite() / fresh, 0.25, 1e-12);
}

// Zinc clogs: the same belt on zinc keeps less of its bite than on bare steel.
TEST(BeltAges, LoadOnZincAndNotOnSteel) {
  sim::Setup clean = plain_line();
  sim::Setup zinc = plain_line();
  zinc.belt(0).top.clogging = 0.35;
  wear_belt(clean.belt(0), 1.0);
  wear_belt(zinc.belt(0), 1.0);
  EXPECT_NEAR(clean.belt(0).wear.sharpness, worn, 1e-12);
  const double loaded = 1.0 - 0.35 * (1.0 - std::exp(-life_volume / (4 * 0.125)));
  EXPECT_NEAR(zinc.belt(0).wear.sharpness, worn * loaded, 1e-12);
}

// At a line load K down to 0.55 asks for 0.55 of the feed: 4.0 m/min to 2.2 m/min. The belt's own
// speed less the feed is what rubs, 0.2 % here.
TEST(LifeStudy, SaysAtWhichFeedAWornBeltTakesWhatAFreshOneDid) {
  sim::Setup setup = plain_line();
  setup.belt(0).wear.dulling.worn_share = 0.55;
  setup.belt(0).wear.by_case = true;
  set_feed(setup, 4000.0 / 60.0);
  const auto rerun = [](const sim::Setup& varied) { return tests::fast_answer(varied); };
  const auto study = study_life(setup, rerun, {});
  ASSERT_TRUE(study);
  ASSERT_TRUE(study->feed_for_equal_removal);
  EXPECT_NEAR(*study->feed_for_equal_removal * 0.06, 2.2, 0.01);
  ASSERT_EQ(study->points.size(), 3U);
  EXPECT_NEAR(study->points[2].part.face.removal->value / study->points[0].part.face.removal->value,
              0.55, 1e-3);
}

// A limit on what the face must lose is lost where K P' v / v_f passes it; the search is good to a
// hundredth of the life.
TEST(LifeStudy, FindsWhereTheFirstLimitIsLost) {
  sim::Setup setup = plain_line();
  const double fresh = face_removal(setup);
  setup.scenario.accept.limits["face_removal"] = {
      .low = 0.5 * fresh, .high = {}, .text = ">= half", .unit = "mm"};
  const auto rerun = [](const sim::Setup& varied) { return tests::fast_answer(varied); };
  const auto study = study_life(setup, rerun, {});
  ASSERT_TRUE(study && study->lost_after);
  const BeltLives lives(setup, {});
  // g(x) = 1/2.
  const double b = (1.0 - worn) / (1.0 - std::exp(-1.0 / run_in));
  const double x = -run_in * std::log((0.5 - 1.0 + b) / b);
  EXPECT_NEAR(study->lost_after->value, lives.parts_at(0, x), 0.01 * lives.parts_at(0, 1.0));
  EXPECT_EQ(study->lost, "face face_removal");
}

}  // namespace
}  // namespace drumlin::sim
