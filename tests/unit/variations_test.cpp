#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "sim/bands.hpp"
#include "sim/drum_state.hpp"
#include "tests/support/marked_case.hpp"

namespace drumlin::sim {
namespace {

using testing::Contains;
using testing::IsSupersetOf;
using testing::Not;

/// The marked case, which gives every number of belt and drum, with other [numerics] and setting.
Setup setup_of(const std::string& numerics = "", const std::string& drum = "",
               const std::string& setting = "interference = \"0.5 mm\"") {
  std::string text = support::without_relaxation(support::whole_case());
  const auto replace = [&](const std::string& from, const std::string& to) {
    text.replace(text.find(from), from.size(), to);
  };
  replace("#@ numerics\n", numerics + "\n");
  replace("#@ station.drum\n", drum + "\n");
  replace("interference = \"0.5 mm\"", setting);
  // Taken from the library, so that it has a band.
  replace("mass = \"0.9 kg/m2\"\n", "");
  return set_up(cases::parse(text, "panel.toml"));
}

std::vector<std::string> inputs_of(const Setup& setup) {
  std::vector<std::string> inputs;
  for (const Variation& variation : variations(setup))
    inputs.push_back(variation.input);
  return inputs;
}

const std::string all_idealised =
    "cover_geometry = \"flat\"\ncover_motion = \"static\"\nbelt_grip = \"slip\"\ncover_strain = "
    "\"linear\"";

TEST(Variations, OfADrumAtWorkAreThoseOfItsWork) {
  const auto inputs = inputs_of(setup_of());
  EXPECT_THAT(inputs,
              IsSupersetOf({"station[0].drum.loss_factor", "station[0].drum strain softening",
                            "station[0].drum.temperature", "station[0].frame_compliance",
                            "station[0].belt.mass", "station[0].drum.hardness"}));
  for (const char* idealised : {"cover flat", "belt slips", "cover linear"})
    EXPECT_THAT(inputs, Not(Contains(std::string("station[0].") + idealised)));
}

TEST(Variations, CarryWhatAnOptionLeavesOut) {
  const sim::Setup setup = setup_of(all_idealised);
  const auto list = variations(setup);
  std::map<std::string, std::pair<double, double>> bands;
  for (const Variation& variation : list)
    bands[variation.input] = {variation.low, variation.high};
  // Finite elements of the drum: 5 to 16 % less; grip: up to 61 % more; strain of 1/30: some 2 %.
  EXPECT_EQ(bands.at("station[0].cover flat"), (std::pair{0.84, 1.0}));
  EXPECT_EQ(bands.at("station[0].belt slips"), (std::pair{1.0, 1.61}));
  EXPECT_EQ(bands.at("station[0].cover linear").first, 1.0);
  EXPECT_NEAR(bands.at("station[0].cover linear").second, 1.025, 0.02);
  for (const char* moving : {"drum.loss_factor", "drum strain softening", "belt.mass"})
    EXPECT_FALSE(bands.contains(std::string("station[0].") + moving));
}

TEST(Variations, LeaveOutWhatALineLoadSettingTakesCareOf) {
  const auto inputs = inputs_of(setup_of("", "", "line_load = \"0.5 N/mm\""));
  EXPECT_THAT(inputs, Not(Contains("station[0].frame_compliance")));
  EXPECT_THAT(inputs, Contains("station[0].drum.temperature"))
      << "warm rubber is softer all the same";
}

TEST(Variations, DoNotDoubtWhatTheCaseKnows) {
  const auto inputs = inputs_of(setup_of("", "temperature = \"45 degC\""));
  EXPECT_THAT(inputs, Not(Contains("station[0].drum.temperature")));
  EXPECT_THAT(inputs, Contains("station[0].drum.thermal_expansion"));
  const auto measured = inputs_of(setup_of("", "cover_material = \"EPDM-70\""));
  EXPECT_THAT(measured, Not(Contains("station[0].drum.loss_factor")));
  EXPECT_THAT(measured, Contains("station[0].drum strain softening"));
}

/// All that a model takes from a station.
std::vector<double> numbers_of(const Setup& setup) {
  const BeltSetup& s = setup.belt(0);
  const models::BeltOnCover nip = nip_of(s, 0.5);
  const auto law = std::get<models::Preston>(s.substrate.law);
  return {nip.cover.layer.modulus,
          nip.cover.layer.poisson_ratio,
          nip.belt.tension,
          nip.belt.bending_stiffness,
          s.belt.grain_compliance,
          models::modulus_ratio(nip.cover.relaxation, 1000).real(),
          cover_growth(s),
          s.frame_compliance,
          s.interference_offset,
          law.coefficient,
          law.threshold};
}

// An end that is not the set-up's own has to move something that a model reads.
TEST(Variations, EachMoveSomethingAtBothEnds) {
  for (const std::string& numerics : {std::string(), all_idealised}) {
    const sim::Setup setup = setup_of(numerics);
    const auto before = numbers_of(setup);
    for (const Variation& variation : variations(setup)) {
      for (const bool to_high : {false, true}) {
        sim::Setup moved = setup;
        variation.apply(moved, to_high);
        EXPECT_EQ(numbers_of(moved) == before, variation.nominal_end == to_high)
            << variation.input << (to_high ? " high" : " low");
      }
    }
  }
}

TEST(Variations, KeepLandsWhenTheThresholdMoves) {
  const sim::Setup setup = setup_of("", "land_ratio = 0.5");
  for (const Variation& variation : variations(setup)) {
    if (variation.input != "station[0].belt.threshold_pressure") continue;
    sim::Setup moved = setup;
    variation.apply(moved, true);
    EXPECT_DOUBLE_EQ(std::get<models::Preston>(moved.belt(0).substrate.law).threshold,
                     0.5 * variation.high);
    return;
  }
  FAIL() << "no variation of the threshold";
}

}  // namespace
}  // namespace drumlin::sim
