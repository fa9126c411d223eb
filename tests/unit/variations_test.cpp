#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "models/burr/burr_keys.hpp"
#include "models/removal/removal_keys.hpp"
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
          s.grain_spacing,
          models::number_of(setup.scenario.part.features.at(0).burr, "flow_stress").value_or(0),
          law.coefficient,
          law.threshold,
          setup.heat.share.value_or(0)};
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

// A law's own numbers move in every layer, pressures among them as lands make them.
TEST(Variations, MoveTheNumbersOfAPowerLaw) {
  const std::string belt = "removal_law = \"power\"";
  std::string text = support::with_added("station.belt", belt);
  text.replace(text.find("#@ station.drum\n"), 16, "land_ratio = 0.5\n#@ station.drum\n");
  const sim::Setup setup = set_up(cases::parse(text, "panel.toml"));
  EXPECT_DOUBLE_EQ(*models::number_of(setup.belt(0).coating.law, "reference_pressure"), 0.05);
  int seen = 0;
  for (const Variation& variation : variations(setup)) {
    for (const char* key :
         {"pressure_exponent", "reference_pressure", "saturation_pressure", "saturated_exponent"}) {
      if (variation.input != std::string("station[0].belt.") + key) continue;
      ++seen;
      sim::Setup moved = setup;
      variation.apply(moved, true);
      const bool pressure = std::string_view(key).ends_with("pressure");
      for (const LayerLaw* layer :
           {&moved.belt(0).substrate, &moved.belt(0).coating, &moved.belt(0).top})
        EXPECT_DOUBLE_EQ(*models::number_of(layer->law, key),
                         (pressure ? 0.5 : 1.0) * variation.high);
    }
  }
  EXPECT_EQ(seen, 4);
}

std::map<std::string, std::pair<double, double>> bands_of(std::string text) {
  std::map<std::string, std::pair<double, double>> bands;
  for (const Variation& variation : variations(set_up(cases::parse(text, "panel.toml"))))
    bands[variation.input] = {variation.low, variation.high};
  return bands;
}

TEST(Variations, KnowBowAsInterferenceEitherWay) {
  const auto bands = bands_of(support::with_added("part", "bow = \"0.2 mm\""));
  EXPECT_EQ(bands.at("part.bow"), (std::pair{-0.2, 0.2}));
  EXPECT_FALSE(bands_of(support::whole_case()).contains("part.bow"));
}

// P120 grains of 0.125 mm, 2 to 10 diameters apart: only a burr that may bend feels them.
TEST(Variations, MoveGrainsWhereABurrMayBend) {
  const auto wall = bands_of(support::whole_case());
  EXPECT_EQ(wall.at("station[0].belt.grain_spacing"), (std::pair{0.25, 1.25}));
  std::string text = support::whole_case();
  const std::size_t at = text.find("[part.feature.burr]");
  text.erase(at, text.find("[[station]]") - at);
  EXPECT_FALSE(bands_of(text).contains("station[0].belt.grain_spacing"));
}

TEST(Variations, MoveOnlyNumbersOfBurrsThatTheLibrarySupplied) {
  EXPECT_FALSE(bands_of(support::whole_case()).contains("burr.flow_stress"));
  const sim::Setup setup =
      set_up(cases::parse(support::with("flow_stress = \"350 MPa\"", ""), "panel.toml"));
  const auto yield = *setup.scenario.part.material.yield_stress;
  for (const Variation& variation : variations(setup)) {
    if (variation.input != "burr.flow_stress") continue;
    EXPECT_DOUBLE_EQ(variation.low, 1.3 * yield.low);
    sim::Setup moved = setup;
    variation.apply(moved, true);
    EXPECT_DOUBLE_EQ(*models::number_of(moved.scenario.part.features[0].burr, "flow_stress"),
                     2 * yield.high);
    return;
  }
  FAIL() << "no variation of the flow stress";
}

}  // namespace
}  // namespace drumlin::sim
