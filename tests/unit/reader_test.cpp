#include "cases/reader.hpp"

#include <cmath>
#include <filesystem>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/file_text.hpp"
#include "tests/support/marked_case.hpp"
#include "tests/support/places.hpp"

namespace drumlin::cases {
namespace {

using support::whole_case;
using support::with;
using support::with_added;
using support::without_relaxation;
using testing::Contains;
using testing::HasSubstr;
using testing::StartsWith;

Case parsed(const std::string& text) {
  return parse(text, "panel.toml");
}

const BeltStation& belt_station(const Case& scenario) {
  return std::get<BeltStation>(scenario.stations.at(0));
}

bool is_unused(const Case& scenario, const std::string& key) {
  for (const UnusedKey& unused : scenario.unused)
    if (unused.key == key && unused.line > 0 && !unused.text.empty()) return true;
  return false;
}

TEST(Reader, GivesWhatTheCaseSaysInTheInnerUnits) {
  const Case c = parsed(whole_case());
  EXPECT_EQ(c.title, "Marked panel");
  EXPECT_EQ(c.seed, 7);
  EXPECT_EQ(c.part.material.name, "DX51D");
  EXPECT_EQ(c.part.thickness, 1.5);
  EXPECT_EQ(c.part.thickness_tolerance, 0.07);
  ASSERT_TRUE(c.part.coating);
  EXPECT_DOUBLE_EQ(c.part.coating->thickness, 0.020);
  const BeltStation& station = belt_station(c);
  EXPECT_EQ(station.speed, 8000);
  EXPECT_EQ(station.drum.hardness, 20);
  EXPECT_FALSE(station.drum.modulus);
  EXPECT_DOUBLE_EQ(station.drum.density, 1.1e-9);
  EXPECT_EQ(station.belt.removal_coefficient, 4e-5);
  EXPECT_DOUBLE_EQ(station.belt.grit.mean_diameter, 0.125);
  EXPECT_EQ(std::get<InterferenceSetting>(station.setting).interference, 0.5);
  EXPECT_NEAR(c.conveyor.speed, 1600.0 / 60, 1e-12);  // one rounding of 26.67
  EXPECT_DOUBLE_EQ(c.numerics.resolution, 0.005);
}

TEST(Reader, KeepsTheFeatureAsDrawn) {
  const Case c = parsed(whole_case());
  ASSERT_EQ(c.part.features.size(), 1U);
  const Feature& feature = c.part.features[0];
  EXPECT_EQ(feature.kind, FeatureKind::hole);
  EXPECT_EQ(feature.size, 6);
  EXPECT_EQ(feature.side, Side::trailing);
  const auto& burr = std::get<models::WallBurr>(feature.burr);
  EXPECT_EQ(burr.height, 0.15);
  EXPECT_EQ(burr.root, 0.14);
  EXPECT_DOUBLE_EQ(burr.taper, 5 * std::numbers::pi / 180);
  EXPECT_EQ(burr.flow_stress, 350);
}

// FIPS 180-4, example B.1: the digest of "abc".
TEST(Sha256, IsThatOfTheStandard) {
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(Reader, HashesTheTextThatItRead) {
  const Case c = parsed(whole_case());
  EXPECT_EQ(c.text, whole_case());
  EXPECT_EQ(c.sha256, sha256(whole_case()));
}

TEST(Reader, TakesZeroWhereZeroIsLegal) {
  for (const auto& [line, zero] :
       {std::pair{"tension = \"2 N/mm\"", "tension = \"0 N/mm\""},
        {"threshold_pressure = \"0.01 MPa\"", "threshold_pressure = \"0 MPa\""},
        {"bending_stiffness = \"0.5 N mm\"", "bending_stiffness = \"0 N mm\""},
        {"grain_compliance = \"1e-3 mm/MPa\"", "grain_compliance = \"0 mm/MPa\""},
        {"mass = \"0.9 kg/m2\"", "mass = \"0 kg/m2\""},
        {"interference = \"0.5 mm\"", "interference = \"0 mm\""}})
    EXPECT_NO_THROW(parsed(with(line, zero))) << zero;
  EXPECT_NO_THROW(parsed(without_relaxation(with_added("station.drum", "loss_factor = 0"))));
}

TEST(Reader, TakesInchesLikeMillimetres) {
  EXPECT_DOUBLE_EQ(parsed(with("thickness = \"1.5 mm\"", "thickness = \"0.06 in\"")).part.thickness,
                   0.06 * 25.4);
}

TEST(Reader, TakesRemovalCoefficientsByMaterial) {
  const Case c =
      parsed(with("removal_coefficient = \"4e-5 1/MPa\"",
                  "removal_coefficient = { zinc = \"8e-5 1/MPa\", DX51D = \"3e-5 1/MPa\" }"));
  const Belt& belt = belt_station(c).belt;
  EXPECT_FALSE(belt.removal_coefficient);
  EXPECT_EQ(belt.removal_coefficients.at("zinc"), 8e-5);
  EXPECT_EQ(belt.removal_coefficients.at("DX51D"), 3e-5);
}

TEST(Reader, SaysThatACoefficientOfAnotherMaterialIsNotUsed) {
  const Case c = parsed(with("removal_coefficient = \"4e-5 1/MPa\"",
                             "removal_coefficient = { znic = \"8e-5 1/MPa\" }"));
  EXPECT_TRUE(is_unused(c, "station[0].belt.removal_coefficient.znic"));
}

TEST(Reader, TakesAModulusInPlaceOfTheHardness) {
  const Case c = parsed(with("hardness = \"20 Shore A\"", "modulus = \"1.7 MPa\""));
  EXPECT_EQ(belt_station(c).drum.modulus, 1.7);
  EXPECT_FALSE(belt_station(c).drum.hardness);
}

TEST(Reader, TakesALineLoadInPlaceOfTheInterference) {
  const Case c = parsed(with("interference = \"0.5 mm\"", "line_load = \"0.5 N/mm\""));
  EXPECT_EQ(std::get<LineLoadSetting>(belt_station(c).setting).line_load, 0.5);
}

struct LimitText {
  const char* text;
  std::optional<double> low;
  std::optional<double> high;
};

void PrintTo(const LimitText& limit, std::ostream* out) {
  *out << limit.text;
}

class LimitForms : public testing::TestWithParam<LimitText> {};

TEST_P(LimitForms, AreAllUnderstood) {
  const auto& [text, low, high] = GetParam();
  const Case c = parsed(with_added("accept", "edge_radius = \"" + std::string(text) + "\""));
  const Limit& limit = c.accept.limits.at("edge_radius");
  ASSERT_EQ(limit.low.has_value(), low.has_value());
  ASSERT_EQ(limit.high.has_value(), high.has_value());
  if (low) {
    EXPECT_DOUBLE_EQ(*limit.low, *low);
  }
  if (high) {
    EXPECT_DOUBLE_EQ(*limit.high, *high);
  }
  EXPECT_EQ(limit.text, text);
}

INSTANTIATE_TEST_SUITE_P(
    Limits, LimitForms,
    testing::Values(LimitText{"<= 0.03 mm", {}, 0.03}, LimitText{">= 0.2 mm", 0.2, {}},
                    LimitText{"0.15..0.40 mm", 0.15, 0.40},
                    LimitText{"150 um..0.40 mm", 0.15, 0.40}, LimitText{"1..2 mm", 1, 2},
                    LimitText{"\u2264 30 \u00b5m", {}, 0.03}, LimitText{"\u2265 0.2 mm", 0.2, {}},
                    LimitText{">=0.2mm", 0.2, {}}));

TEST(Limits, CanBeGivenBackInTheirOwnUnit) {
  const Case c =
      parsed(with_added("accept", "temperature = \"<= 60 degC\"\ncoating_left = \">= 9 um\""));
  const Limit& temperature = c.accept.limits.at("temperature");
  EXPECT_DOUBLE_EQ(*temperature.high, 333.15);
  EXPECT_NEAR((*temperature.high - temperature.offset) / temperature.scale, 60, 1e-12);
  const Limit& coating = c.accept.limits.at("coating_left");
  EXPECT_EQ(coating.unit, "um");
  EXPECT_NEAR((*coating.low - coating.offset) / coating.scale, 9, 1e-12);
}

TEST(Limits, OnQuantitiesThatNoModelGivesYetAreKept) {
  const Case c = parsed(with_added("accept",
                                   "secondary_burr = \"<= 0.05 mm\"\nroughness = \"<= 1.6 um\"\n"
                                   "bare_length = \"<= 0.5 mm\"\nface_removal = \"<= 10 um\"\n"
                                   "peak_pressure = \"<= 3 MPa\"\nedge_drop = \"0.02..0.2 mm\""));
  EXPECT_EQ(c.accept.limits.size(), 7U);  // and burr_height of the whole case
}

TEST(FeatureLimits, KeepTheirSelectorsAndDistance) {
  const Case c = parsed(whole_case());
  ASSERT_EQ(c.accept.features.size(), 1U);
  EXPECT_EQ(c.accept.features[0].kind, FeatureKind::hole);
  EXPECT_FALSE(c.accept.features[0].name);
  EXPECT_EQ(c.accept.features[0].beyond, 2);
  EXPECT_DOUBLE_EQ(*c.accept.features[0].limits.at("coating_left").low, 0.009);
}

TEST(FeatureLimits, FitAFeatureWithoutASideByAnySide) {
  const std::string text = with("side = \"trailing\"", "");
  const std::string side = "kind = \"hole\"\nside = \"side\"\ncoating_left";
  std::string marked = text;
  marked.replace(marked.find("kind = \"hole\"\ncoating_left"), 26, side);
  EXPECT_NO_THROW(parsed(marked));
}

TEST(KeysWithoutEffect, AreEachReported) {
  const Case drum = parsed(with_added("station.drum", "land_pitch = \"12 mm\""));
  EXPECT_TRUE(is_unused(drum, "station[0].drum.land_pitch")) << "a plain cover has no lands";
  const Case forced = parsed(with_added("station", "allow_overspeed = true"));
  EXPECT_TRUE(is_unused(forced, "station[0].allow_overspeed")) << "nothing is exceeded";
}

TEST(KeysWithoutEffect, ReachFromConveyorToCost) {
  const Case c = parsed(with_added("conveyor", "lanes = 3\ngap = \"50 mm\""));
  EXPECT_EQ(c.conveyor.lanes, 3);
  EXPECT_EQ(c.conveyor.gap, 50);
  EXPECT_FALSE(is_unused(c, "conveyor.grip"));
  const Case cost = parsed(with_added("cost", "brush = \"900 EUR\""));
  EXPECT_TRUE(is_unused(cost, "cost.brush")) << "the line has no brush";
  const Case spread = parsed(whole_case() + "[uncertainty]\n\"part.thickness\" = \"0.05 mm\"\n");
  EXPECT_FALSE(is_unused(spread, "uncertainty.part.thickness"));
  ASSERT_TRUE(spread.uncertainty);
  EXPECT_EQ(spread.uncertainty->keys.at(0).key, "part.thickness");
}

TEST(KeysWithoutEffect, AreNotReportedWhereTheySayNothing) {
  const Case c =
      parsed(without_relaxation(with_added("station.drum", "loss_factor = 0\nland_ratio = 1")));
  for (const UnusedKey& unused : c.unused)
    EXPECT_EQ(unused.key, "conveyor.grip");
}

TEST(Defaults, AreStatedWithTheirReason) {
  const Case c = parsed(with("poisson = 0.47", ""));
  EXPECT_EQ(belt_station(c).drum.poisson_ratio, 0.47);
  for (const char* key : {"conveyor.station_spacing = 600 mm", "conveyor.pass_interval = 60 s",
                          "environment.temperature = 20 degC"})
    EXPECT_THAT(c.defaults, Contains(StartsWith(std::string(key) + ": ")));
  EXPECT_THAT(c.defaults, Contains(StartsWith("station[0].drum.poisson = 0.47: ")));
}

TEST(Defaults, ComeFromBeltGritAndAbrasive) {
  std::string text = whole_case();
  for (const char* key : {"threshold_pressure", "bending_stiffness", "grain_compliance", "tension",
                          "removal_coefficient", "backing", "mass"}) {
    const std::size_t at = text.find(std::string("\n") + key);
    text.erase(at, text.find('\n', at + 1) - at);
  }
  const Case c = parsed(text);
  const Belt& belt = belt_station(c).belt;
  EXPECT_EQ(belt.backing.name, "X");
  EXPECT_EQ(belt.bending_stiffness, belt.backing.bending_stiffness.value);
  EXPECT_EQ(belt.threshold_pressure, belt.abrasive.threshold_pressure.value);
  EXPECT_EQ(belt.grain_compliance, belt.grit.grain_compliance.value);
  EXPECT_EQ(belt.mass, belt.backing.mass.value);
  EXPECT_LT(belt.bending_stiffness_band.low, belt.bending_stiffness_band.high);
  for (const char* key : {"backing", "tension", "bending_stiffness", "threshold_pressure",
                          "grain_compliance", "mass"})
    EXPECT_THAT(c.defaults, Contains(StartsWith(std::string("station[0].belt.") + key + " = ")));
}

TEST(Defaults, HaveNoBandWhereTheCaseGaveTheNumber) {
  const Case c = parsed(whole_case());
  const Sourced& band = belt_station(c).belt.bending_stiffness_band;
  EXPECT_EQ(band.low, 0.5);
  EXPECT_EQ(band.high, 0.5);
}

// Root of a burr 1.5 to 2 times the yield stress (from memory); the lower end is taken.
TEST(Defaults, GiveTheBurrOneAndAHalfTimesTheYieldStress) {
  const Case c = parsed(with("flow_stress = \"350 MPa\"", ""));
  EXPECT_DOUBLE_EQ(std::get<models::WallBurr>(c.part.features[0].burr).flow_stress,
                   1.5 * c.part.material.yield_stress->value);
}

TEST(Defaults, FollowTheDesignOfThisVersion) {
  const Numerics numerics = parsed(whole_case()).numerics;
  EXPECT_EQ(numerics.model, "line");
  EXPECT_EQ(numerics.cover_geometry, "drum");
  EXPECT_EQ(numerics.cover_motion, "moving");
  EXPECT_EQ(numerics.belt_grip, "stick");
  EXPECT_EQ(numerics.cover_strain, "finite");
  EXPECT_EQ(numerics.grid, "nested");
}

TEST(ShippedExamples, AreAllReadable) {
  int count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(support::examples())) {
    if (entry.path().extension() != ".toml") continue;
    EXPECT_NO_THROW(read(entry.path())) << entry.path();
    ++count;
  }
  EXPECT_GE(count, 5);
}

TEST(MassClass, TakesAnUnevenSplit) {
  const auto thickness = [](const char* lines) {
    return parsed(with("thickness = \"20 um\"", lines)).part.coating->thickness;
  };
  const double even = thickness("mass_class = \"Z200\"");
  const double uneven = thickness("mass_class = \"Z200\"\nsplit = \"40 %\"");
  EXPECT_NEAR(uneven / even, 0.4 / 0.5, 1e-12);  // mass x split / density
}

TEST(RemovalLaw, IsAStraightLineUnlessTheCaseSaysOtherwise) {
  const Case c = parsed(whole_case());
  const Belt& belt = belt_station(c).belt;
  EXPECT_TRUE(std::holds_alternative<models::Preston>(belt.removal_law));
  EXPECT_TRUE(belt.removal_bands.empty());
  EXPECT_THAT(c.defaults, Contains(StartsWith("station[0].belt.removal_law = preston: ")));
}

TEST(RemovalLaw, IsReadWithItsNumbersAndTheirBands) {
  const Case c = parsed(
      with_added("station.belt", "removal_law = \"power\"\nsaturation_pressure = \"1 MPa\""));
  const Belt& belt = belt_station(c).belt;
  const auto& law = std::get<models::ThresholdPower>(belt.removal_law);
  EXPECT_EQ(law.exponent, 1.5);
  EXPECT_DOUBLE_EQ(law.saturation_pressure, 1.0);
  // What the library supplies has its published band, what the case gives a band of its own.
  EXPECT_EQ(belt.removal_bands.at("pressure_exponent").low, 1.0);
  EXPECT_EQ(belt.removal_bands.at("pressure_exponent").high, 2.5);
  EXPECT_DOUBLE_EQ(belt.removal_bands.at("saturation_pressure").low, 0.5);
  EXPECT_DOUBLE_EQ(belt.removal_bands.at("saturation_pressure").high, 2.0);
  EXPECT_THAT(c.defaults, Contains(StartsWith("station[0].belt.pressure_exponent = 1.5: ")));
}

TEST(RemovalLaw, LeavesNumbersOfOtherLawsUnused) {
  const Case c = parsed(with_added("station.belt", "pressure_exponent = 1.5"));
  EXPECT_TRUE(is_unused(c, "station[0].belt.pressure_exponent"));
  EXPECT_FALSE(is_unused(
      parsed(with_added("station.belt", "removal_law = \"power\"\npressure_exponent = 1.5")),
      "station[0].belt.pressure_exponent"));
}

}  // namespace
}  // namespace drumlin::cases
