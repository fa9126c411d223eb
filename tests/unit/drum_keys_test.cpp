#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "tests/support/marked_case.hpp"

/// Keys of the drum at work: its relaxation, warmth, lands, frame, and the options of its
/// mechanics.
namespace drumlin::cases {
namespace {

using support::whole_case;
using support::with;
using support::with_added;
using support::without_relaxation;
using testing::Contains;
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

const char* at_rest = "[numerics]\ncover_motion = \"static\"";

TEST(KeysWithoutEffect, OfADrumAtRestAreThoseOfItsMotion) {
  const Case measured = parsed(with("[numerics]", at_rest));
  EXPECT_TRUE(is_unused(measured, "station[0].drum.relaxation"));
  EXPECT_TRUE(is_unused(measured, "station[0].belt.mass"));
  const std::string lossy = without_relaxation(with("[numerics]", at_rest));
  const auto added = [&](const std::string& line) {
    std::string text = lossy;
    return parsed(text.insert(text.find("#@ station.drum"), line + "\n"));
  };
  EXPECT_TRUE(is_unused(added("loss_factor = 0.2"), "station[0].drum.loss_factor"));
  EXPECT_FALSE(is_unused(added("loss_factor = 0"), "station[0].drum.loss_factor"));
  EXPECT_TRUE(is_unused(added("cover_material = \"EPDM-70\""), "station[0].drum.cover_material"));
}

TEST(KeysWithoutEffect, OfADrumInMotionAreNone) {
  const Case c = parsed(with_added("station",
                                   "run_out = \"0.05 mm\"\n"
                                   "frame_compliance = \"0.01 mm2/N\""));
  for (const UnusedKey& unused : c.unused)
    EXPECT_EQ(unused.key, "conveyor.grip");
}

TEST(Drum, TakesARelaxationFromTheUsersOwnMeasurement) {
  const Drum drum = belt_station(parsed(whole_case())).drum;
  ASSERT_TRUE(drum.relaxation);
  EXPECT_EQ(drum.relaxation->relaxed, 0.5);
  ASSERT_EQ(drum.relaxation->terms.size(), 1U);
  EXPECT_DOUBLE_EQ(drum.relaxation->terms[0].time, 0.3e-3);
  EXPECT_EQ(drum.relaxation->terms[0].modulus, 0.2);
  EXPECT_EQ(drum.loss_factor, 0) << "a measured relaxation stands alone";
}

TEST(Drum, TakesAMeasuredCoverWithWhatGoesWithIt) {
  std::string text = without_relaxation(with("poisson = 0.47", "cover_material = \"EPDM-70\""));
  text.erase(text.find("density = \"1100 kg/m3\""), 22);
  const Case c = parsed(text);
  const Drum& drum = belt_station(c).drum;
  ASSERT_TRUE(drum.cover_material);
  EXPECT_EQ(drum.cover_material->name, "EPDM-70");
  EXPECT_EQ(drum.poisson_ratio, 0.474);
  EXPECT_DOUBLE_EQ(drum.density, 1e-9);
  EXPECT_EQ(drum.loss_factor, 0) << "a measured relaxation stands alone";
  EXPECT_THAT(c.defaults, testing::Not(Contains(StartsWith("station[0].drum.loss_factor"))));
}

TEST(Drum, TakesTemperatureExpansionAndLands) {
  const Case c = parsed(with_added("station.drum",
                                   "temperature = \"45 degC\"\nthermal_expansion = \"1.8e-4 1/K\"\n"
                                   "land_ratio = 0.5\nland_pitch = \"12 mm\""));
  const Drum& drum = belt_station(c).drum;
  EXPECT_DOUBLE_EQ(drum.temperature.value_or(0), 318.15);
  EXPECT_EQ(drum.thermal_expansion, 1.8e-4);
  EXPECT_EQ(drum.thermal_expansion_band.low, 1.8e-4) << "given, so without a band";
  EXPECT_EQ(drum.land_ratio, 0.5);
  EXPECT_EQ(drum.land_pitch, 12);
}

TEST(Station, TakesTheGiveOfItsFrame) {
  const BeltStation rigid = belt_station(parsed(whole_case()));
  EXPECT_EQ(rigid.frame_compliance, 0);
  EXPECT_EQ(rigid.frame_compliance_band.high, 0.01);  // mm2/N; common practice, no source
  const BeltStation given =
      belt_station(parsed(with_added("station", "frame_compliance = \"0.004 mm2/N\"")));
  EXPECT_DOUBLE_EQ(given.frame_compliance, 0.004);
  EXPECT_DOUBLE_EQ(given.frame_compliance_band.high, 0.004);
}

TEST(Station, RemembersWhereItsSpeedStands) {
  const std::string text = whole_case();
  const std::size_t at = text.find("\"8 m/s\"");
  const Place place = belt_station(parsed(text)).speed_place;
  EXPECT_EQ(place.line,
            1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
  EXPECT_EQ(place.column, static_cast<int>(at - text.rfind('\n', at)));
}

TEST(Numerics, TakesEveryChoiceOfTheContract) {
  for (const char* line :
       {"model = \"fast\"", "model = \"line\"", "cover_geometry = \"flat\"",
        "cover_geometry = \"drum\"", "cover_motion = \"static\"", "cover_motion = \"moving\"",
        "belt_grip = \"slip\"", "belt_grip = \"stick\"", "cover_strain = \"linear\"",
        "cover_strain = \"finite\"", "grid = \"single\"", "grid = \"nested\""})
    EXPECT_NO_THROW(parsed(with_added("numerics", line))) << line;
}

TEST(Defaults, OfTheDrumAtWorkAreStated) {
  const Case c = parsed(without_relaxation(whole_case()));
  const Drum& drum = belt_station(c).drum;
  EXPECT_EQ(drum.loss_factor, 0.1);
  EXPECT_EQ(drum.loss_factor_band.low, 0.05);
  EXPECT_EQ(drum.loss_factor_band.high, 0.2);
  EXPECT_EQ(drum.thermal_expansion, 2e-4);
  EXPECT_FALSE(drum.temperature) << "not known is not the same as 23 degC";
  for (const char* key : {"drum.loss_factor = 0.1", "drum.thermal_expansion = 0.0002 1/K",
                          "drum.temperature = 23 degC", "frame_compliance = 0 mm2/N"})
    EXPECT_THAT(c.defaults, Contains(StartsWith(std::string("station[0].") + key + ": ")));
}

}  // namespace
}  // namespace drumlin::cases
