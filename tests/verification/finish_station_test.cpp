#include <vector>

#include <gtest/gtest.h>

#include "models/finish/roughness.hpp"
#include "sim/finish.hpp"
#include "sim/verdict.hpp"
#include "tests/support/fast_cases.hpp"

namespace drumlin::sim {
namespace {

/// A belt of that grain size at a line load, taking about `removal` [mm] off the plain face.
BeltSetup belt(double grain_diameter, double removal) {
  auto station = tests::belted_drum(40);
  station.setting = cases::LineLoadSetting{0.5};
  station.wear.grain_diameter = grain_diameter;
  const double coefficient = removal * station.feed / (0.5 * station.sliding_speed);
  for (LayerLaw* layer : {&station.substrate, &station.coating, &station.top})
    layer->law = models::Preston{coefficient, 0.0};
  return station;
}

/// Belts over a plain plate that came with an Ra of 1 um.
sim::Setup plate(const std::vector<BeltSetup>& belts) {
  sim::Setup setup = tests::belt_line(belts.at(0), {});
  setup.stations.assign(belts.begin(), belts.end());
  setup.scenario.part.roughness = 1e-3;
  setup.scenario.part.roughness_band = {1e-3, 0.8e-3, 1.2e-3, "test"};
  return setup;
}

double lay_left_by(const BeltSetup& station, const StationResult& result) {
  return *lay_of(StationSetup(station), result);
}

TEST(Finish, IsTheBeltsLayOnceNothingOfTheOldFaceIsLeft) {
  const auto coarse = belt(0.2, 20e-3);
  const auto answer = tests::fast_answer(plate({coarse}));
  const FaceResult& face = answer.part.face;
  const double lay = lay_left_by(coarse, answer.stations[0]);
  const double pressure =
      answer.stations[0].working_line_load->value / (2.0 * answer.stations[0].half_width->value);
  EXPECT_NEAR(lay,
              models::belt_roughness(
                  {.grain_diameter = 0.2, .pressure = pressure, .speed = coarse.sliding_speed}),
              1e-12);
  EXPECT_NEAR(face.roughness->value, lay, 1e-6 * lay);
  EXPECT_NEAR(face.lay_covered->value, 1.0, 1e-9);
  EXPECT_NEAR(*face.roughness->high / face.roughness->value, models::belt_roughness_band, 1e-6);
  EXPECT_NEAR(face.roughness_along->value, models::along_share * face.roughness->value, 1e-12);
}

TEST(Finish, StaysAsDeliveredWhereNothingIsTaken) {
  const auto answer = tests::fast_answer(plate({belt(0.2, 0.0)}));
  EXPECT_DOUBLE_EQ(answer.part.face.roughness->value, 1e-3);
  EXPECT_FALSE(answer.part.face.lay_covered);
  EXPECT_FALSE(answer.part.face.roughness_along);
}

// Coarse then fine leaves the fine lay, fine then coarse the coarse one.
TEST(Finish, IsDecidedByTheLastBeltThatTakesEnough) {
  const auto coarse = belt(0.2, 20e-3);
  const auto fine = belt(0.035, 20e-3);
  const auto polished = tests::fast_answer(plate({coarse, fine}));
  const auto roughened = tests::fast_answer(plate({fine, coarse}));
  EXPECT_NEAR(polished.part.face.roughness->value, lay_left_by(fine, polished.stations[1]), 1e-6);
  EXPECT_NEAR(roughened.part.face.roughness->value, lay_left_by(coarse, roughened.stations[1]),
              1e-6);
  // A fine belt that takes 1 um leaves much of the coarse lay.
  const auto skimmed = tests::fast_answer(plate({coarse, belt(0.035, 1e-3)}));
  EXPECT_GT(skimmed.part.face.roughness->value, 2.0 * polished.part.face.roughness->value);
  EXPECT_LT(skimmed.part.face.roughness->value, skimmed.stations[0].after.face.roughness->value);
}

// The delivered face shows through where the line takes less than its own roughness.
TEST(Finish, SaysHowMuchOfTheDeliveredFaceShowsThrough) {
  double covered = 0.0;
  for (const double removal : {0.3e-3, 1e-3, 3e-3, 10e-3}) {
    const auto answer = tests::fast_answer(plate({belt(0.035, removal)}));
    EXPECT_GT(answer.part.face.lay_covered->value, covered);
    covered = answer.part.face.lay_covered->value;
  }
  EXPECT_GT(covered, 0.999);
}

TEST(Finish, IsJudgedAgainstALimit) {
  const auto answer = tests::fast_answer(plate({belt(0.2, 20e-3)}));
  cases::Accept accept;
  accept.limits["roughness"] = {
      .low = {}, .high = 0.5e-3, .text = "<= 0.5 um", .unit = "um", .scale = 1e-3};
  const Verdict verdict = judge(accept, answer.part);
  EXPECT_EQ(verdict.state, "not accepted");
  EXPECT_EQ(verdict.decided_by, "face roughness");
}

// Without a word on the delivered face nothing is said until the line has ground it all away.
TEST(Finish, OfAnUnknownFaceIsNotKnownUntilItIsGone) {
  for (const double removal : {0.3e-3, 20e-3}) {
    auto setup = plate({belt(0.035, removal)});
    setup.scenario.part.roughness.reset();
    EXPECT_EQ(tests::fast_answer(setup).part.face.roughness.has_value(), removal > 1e-3);
  }
}

}  // namespace
}  // namespace drumlin::sim
