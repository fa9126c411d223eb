#include "cases/case_family.hpp"

#include <random>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "tests/support/places.hpp"

namespace drumlin::cases {
namespace {

using testing::HasSubstr;

OpenCase open_example(const std::string& name) {
  return OpenCase(std::filesystem::path(support::examples() + name));
}

/// A key with a unit and the range that its values are drawn from; wider than what goes together.
struct Ranged {
  const char* path;
  const char* unit;
  double low, high;  // [inner unit]
};

CaseFamily family_of(const std::string& example, const std::vector<Ranged>& keys) {
  OpenCase base = open_example(example);
  std::vector<VariedKey> varied;
  for (const Ranged& key : keys)
    varied.push_back({.path = numbered(base.document(), parse_path(key.path)),
                      .unit = key.unit,
                      .probes = {0.5 * (key.low + key.high), key.low, key.high}});
  return {std::move(base), std::move(varied)};
}

/// The case, or what is wrong with it.
std::pair<std::optional<Case>, std::string> outcome(const auto& make) {
  try {
    return {make(), ""};
  } catch (const CaseError& error) {
    return {std::nullopt, error.what()};
  }
}

const std::vector<Ranged> panel_keys = {
    {"station[0].drum.hardness", "Shore A", 5, 95},
    {"station[0].drum.radius", "mm", 10, 200},
    {"station[0].drum.cover", "mm", 0.5, 60},
    {"station[0].drum.poisson", "", 0, 0.4999},
    {"station[0].drum.wear", "mm", 0, 10},
    {"station[0].drum.thermal_expansion", "1/K", 0, 1e-3},
    {"station[0].setting.interference", "mm", 0, 20},
    {"station[0].speed", "m/s", 100, 3e4},
    {"station[0].frame_compliance", "mm2/N", 0, 1},
    {"station[0].belt.tension", "N/mm", 0, 50},
    {"station[0].belt.removal_coefficient", "1/MPa", 0, 1e-3},
    {"station[0].belt.bending_stiffness", "N mm", 0, 100},
    {"station[0].belt.grain_compliance", "mm/MPa", 0, 0.1},
    {"station[0].belt.mass", "kg/m2", 0, 1e-8},
    {"station[0].belt.grain_spacing", "mm", 0, 5},
    {"station[0].belt.threshold_pressure", "MPa", 0, 1},
    {"part.thickness", "mm", 0.05, 5},
    {"part.width", "mm", 1, 400},
    {"part.length", "mm", 1, 400},
    {"part.feature['hole-6'].size", "mm", 0.05, 400},
    {"part.feature[2].burr.height", "mm", 1e-4, 12},
    {"part.feature[0].burr.root", "mm", 0.01, 1},
    {"conveyor.speed", "m/min", 0.5, 2000},
    {"environment.temperature", "degC", 263.15, 333.15},
};

// The reader is the judge: whatever it makes of a file with these values, and whatever it says of
// one that it refuses, is what setting them gives. Most of these draws do not go together.
TEST(ACaseFamily, IsWhatTheReaderMakesOfTheChangedFile) {
  const CaseFamily family = family_of("panel-soft.toml", panel_keys);
  std::mt19937 random(7);
  int made = 0;
  for (int draw = 0; draw < 400; ++draw) {
    std::vector<double> values;
    // Every other draw stays near the middle of the ranges' lower parts, where more goes together.
    const double reach = draw % 2 == 0 ? 1.0 : 0.15;
    for (const Ranged& key : panel_keys)
      values.push_back(std::uniform_real_distribution<>(
          key.low, key.low + reach * (key.high - key.low))(random));
    const auto direct = outcome([&] { return family.with(values); });
    const auto read = outcome([&] { return family.read_anew(values); });
    ASSERT_EQ(direct.first.has_value(), read.first.has_value()) << direct.second << read.second;
    EXPECT_EQ(direct.second, read.second);
    if (!direct.first) continue;
    ++made;
    EXPECT_TRUE(same_values(*direct.first, *read.first)) << draw;
  }
  EXPECT_GT(made, 10);
  EXPECT_LT(made, 390);
}

// To the last bit: a row of a study that is run again from its file gives the row's numbers.
TEST(ACaseFamily, WritesAFileThatIsReadAsTheVerySameCase) {
  const CaseFamily family = family_of("panel-soft.toml", panel_keys);
  std::mt19937 random(11);
  int made = 0;
  for (int draw = 0; draw < 300; ++draw) {
    std::vector<double> values;
    for (const Ranged& key : panel_keys)
      values.push_back(
          std::uniform_real_distribution<>(key.low, key.low + 0.15 * (key.high - key.low))(random));
    const auto direct = outcome([&] { return family.with(values); });
    if (!direct.first) continue;
    ++made;
    Case read = parse(family.text(values), direct.first->file);
    // Keys stand in other lines of the file; numbers do not.
    std::get<BeltStation>(read.stations[0]).speed_place =
        std::get<BeltStation>(direct.first->stations[0]).speed_place;
    EXPECT_TRUE(same_values(*direct.first, read)) << family.text(values);
  }
  EXPECT_GT(made, 20);
}

TEST(ACaseFamily, SetsPlainNumbersWithoutReading) {
  const CaseFamily family = family_of("panel-soft.toml", panel_keys);
  for (std::size_t i = 0; i < panel_keys.size(); ++i)
    EXPECT_TRUE(family.sets_directly(i)) << panel_keys[i].path;
}

// A class's mass spreads over both faces: the reader derives thicknesses from the split.
TEST(ACaseFamily, ReadsAnewWhereMoreFollowsFromANumber) {
  const CaseFamily family = family_of("panel-soft.toml", {{"part.coating.split", "", 0.05, 0.95}});
  EXPECT_FALSE(family.sets_directly(0));
  const double split = 0.7;
  const Case changed = family.with({&split, 1});
  EXPECT_NEAR(changed.part.coating->thickness / changed.part.coating->reverse_thickness, 7.0 / 3.0,
              1e-12);
}

TEST(ACaseFamily, TakesWordsThatChangeTheStructure) {
  OpenCase base = open_example("panel-soft.toml");
  VariedKey cooling{.path = parse_path("environment.cooling"), .levels = {}};
  for (const char* word : {"dry", "wet"}) {
    Node node;
    node.kind = Node::Kind::string;
    node.text = word;
    cooling.levels.push_back(node);
  }
  const CaseFamily family(
      std::move(base),
      {cooling,
       {.path = parse_path("station[0].drum.hardness"), .unit = "Shore A", .probes = {40}}});
  const std::vector<double> wet{1, 33};
  EXPECT_EQ(family.with(wet).cooling, Cooling::wet);
  EXPECT_EQ(std::get<BeltStation>(family.with(wet).stations[0]).drum.hardness, 33);
  const std::vector<double> dry{0, 33};
  EXPECT_EQ(family.with(dry).cooling, Cooling::dry);
}

TEST(ACaseFamily, KeepsTheFilesOwnTextAndSaysWhereValuesDoNotGoTogether) {
  const CaseFamily family =
      family_of("panel-soft.toml", {{"station[0].setting.interference", "mm", 0.1, 1}});
  const double deep = 16;
  const double right = 0.4;
  EXPECT_EQ(family.with({&right, 1}).sha256, family.base().as_read().sha256);
  const auto wrong = outcome([&] { return family.with({&deep, 1}); });
  EXPECT_THAT(wrong.second, HasSubstr("panel-soft.toml:38:"));
  EXPECT_THAT(wrong.second, HasSubstr("station[0].setting.interference: 16 mm is not less than the "
                                      "cover's thickness, 15 mm"));
}

TEST(APathToAKey, IsReadAndWrittenAlike) {
  EXPECT_EQ(to_text(parse_path("station[0].drum.hardness")), "station[0].drum.hardness");
  const OpenCase base = open_example("panel-soft.toml");
  EXPECT_EQ(to_text(numbered(base.document(), parse_path("part.feature['hole-6'].size"))),
            "part.feature[2].size");
  for (const char* wrong : {"", ".", "station[", "station[0", "station[x].speed", "a..b", "a[0]b"})
    EXPECT_THROW(static_cast<void>(parse_path(wrong)), PathError) << wrong;
}

}  // namespace
}  // namespace drumlin::cases
