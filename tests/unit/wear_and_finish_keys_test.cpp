#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/finishes.hpp"
#include "cases/reader.hpp"
#include "sim/cautions.hpp"
#include "tests/support/marked_case.hpp"
#include "tests/support/problems.hpp"

/// Keys of belt wear, of finish and of metals that share a line.
namespace drumlin::cases {
namespace {

using support::problems_of;
using support::whole_case;
using support::with_added;
using testing::Contains;
using testing::HasSubstr;
using testing::StartsWith;

const BeltStation& belt_of(const Case& scenario) {
  return std::get<BeltStation>(scenario.stations.at(0));
}

TEST(BeltWearKeys, ReadAnAgeInEveryMeasure) {
  const auto age = [](const std::string& text) {
    const Case c = parse(with_added("station", "belt_age = \"" + text + "\""), "panel.toml");
    return belt_of(c).belt_age.value();
  };
  EXPECT_EQ(age("8000 parts").of, Amount::Of::parts);
  EXPECT_EQ(age("8000 parts").value, 8000);
  EXPECT_EQ(age("3 h").of, Amount::Of::time);
  EXPECT_EQ(age("3 h").value, 3 * 3600);
  EXPECT_EQ(age("500 m").of, Amount::Of::length);
  EXPECT_EQ(age("200 m2").of, Amount::Of::area);
  EXPECT_EQ(age("50 %").of, Amount::Of::life);
  EXPECT_EQ(age("50 %").value, 0.5);
}

TEST(BeltWearKeys, RefuseAgesThatAreNone) {
  for (const char* wrong : {"\"8000\"", "\"40 N\"", "\"-3 h\"", "\"120 %\"", "8000"}) {
    const auto problems = problems_of(with_added("station", std::string("belt_age = ") + wrong));
    ASSERT_EQ(problems.size(), 1U) << wrong;
    EXPECT_EQ(problems[0].key, "station[0].belt_age") << wrong;
  }
  EXPECT_THAT(problems_of(with_added("station", "belt_age = \"40 N\""))[0].text,
              HasSubstr("such as \"8000 parts\""));
}

TEST(BeltWearKeys, TakeALifeAndAShareOfTheCase) {
  const Case c =
      parse(with_added("station.belt", "life = \"8000 parts\"\nworn_share = 0.55"), "panel.toml");
  const Belt& belt = belt_of(c).belt;
  EXPECT_EQ(belt.life->value, 8000);
  EXPECT_EQ(belt.wear.worn_share.value, 0.55);
  EXPECT_EQ(belt.wear.worn_share.low, 0.55);
  EXPECT_EQ(belt.wear.worn_share.source, "case");
  const auto problems = problems_of(with_added("station.belt", "life = \"50 %\""));
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].key, "station[0].belt.life");
}

// 0.3 to 0.6 in one sheet, 0.2 to 0.3 in the other: the band spans both.
TEST(BeltWearKeys, FallBackOnTheLibraryWithItsWideBand) {
  const Case c = parse(whole_case(), "panel.toml");
  const BeltWearDefaults& wear = belt_of(c).belt.wear;
  EXPECT_LE(wear.worn_share.low, 0.2);
  EXPECT_GE(wear.worn_share.high, 0.6);
  EXPECT_FALSE(belt_of(c).belt.life);
  EXPECT_GE(belt_of(c).belt.abrasive.grinding_ratio.low, 10);
  EXPECT_LE(belt_of(c).belt.abrasive.grinding_ratio.high, 200);
}

TEST(FinishKeys, TakeTheRoughnessOfTheTopLayerAsDelivered) {
  const Case c = parse(whole_case(), "panel.toml");
  ASSERT_TRUE(c.part.roughness);
  EXPECT_THAT(c.defaults, Contains(StartsWith("part.roughness = ")));
  EXPECT_LT(c.part.roughness_band.low, c.part.roughness_band.high);
  const Case given = parse(with_added("part", "roughness = \"0.8 um\""), "panel.toml");
  EXPECT_NEAR(*given.part.roughness, 0.8e-3, 1e-15);
  EXPECT_EQ(given.part.roughness_band.low, given.part.roughness_band.high);
}

std::string with_brush(const std::string& material, const std::string& grit) {
  std::string text = whole_case();
  return text.insert(text.find("[conveyor]"),
                     "[[station]]\nkind = \"brush\"\nradius = \"150 mm\"\nspeed = \"10 m/s\"\n"
                     "penetration = \"1 mm\"\n" +
                         grit + "\n[station.filament]\nmaterial = \"" + material +
                         "\"\ndiameter = \"1.0 mm\"\nfree_length = \"40 mm\"\n");
}

TEST(FinishKeys, GiveNylonAGritAndWiresNone) {
  const auto brush = [](const std::string& text) {
    return std::get<BrushStation>(parse(text, "panel.toml").stations.at(1));
  };
  EXPECT_EQ(brush(with_brush("abrasive-nylon", "")).grit->designation, "P120");
  EXPECT_EQ(brush(with_brush("abrasive-nylon", "grit = \"P80\"")).grit->designation, "P80");
  EXPECT_FALSE(brush(with_brush("steel", "")).grit);
  const auto problems = problems_of(with_brush("steel", "grit = \"P80\""));
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].key, "station[1].grit");
  EXPECT_THAT(problems[0].text, HasSubstr("carry no grain"));
}

/// The marked case without its own limit on roughness, if it has one.
std::string with_finish(const std::string& name) {
  return with_added("accept", "finish = \"" + name + "\"");
}

// EN 10088-2 by its note: K below 0.5 um across; stockists: J 0.2 to 1.0, P below 0.1 um.
TEST(FinishKeys, TurnANamedFinishIntoALimit) {
  const auto limit = [](const std::string& name) {
    return parse(with_finish(name), "panel.toml").accept.limits.at("roughness");
  };
  EXPECT_FALSE(limit("2K").low);
  EXPECT_NEAR(*limit("2K").high, 0.5e-3, 1e-15);
  EXPECT_NEAR(*limit("2J").low, 0.2e-3, 1e-15);
  EXPECT_NEAR(*limit("2J").high, 1.0e-3, 1e-15);
  EXPECT_NEAR(*limit("1G").low, 1.0e-3, 1e-15);
  EXPECT_FALSE(limit("1G").high);
  EXPECT_THAT(limit("No. 4").text, HasSubstr("No. 4"));
}

TEST(FinishKeys, NameTheNearestFinishAndRefuseTwoTargets) {
  const auto problems = problems_of(with_finish("2L"));
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].key, "accept.finish");
  EXPECT_THAT(problems[0].text, HasSubstr("2K"));
  const auto both = problems_of(with_added("accept", "finish = \"2K\"\nroughness = \"<= 1 um\""));
  ASSERT_EQ(both.size(), 1U);
  EXPECT_THAT(both[0].text, HasSubstr("not both"));
}

TEST(FinishKeys, SayThatNoEdgeHasTheFacesRoughness) {
  const Case c = parse(with_added("accept.feature", "roughness = \"<= 1 um\""), "panel.toml");
  const auto unused = [&](const std::string& key) {
    return std::any_of(c.unused.begin(), c.unused.end(),
                       [&](const UnusedKey& u) { return u.key == key; });
  };
  EXPECT_TRUE(unused("accept.feature[0].roughness"));
  EXPECT_FALSE(unused("accept.feature[0].coating_left"));
}

/// What a line of steel says where aluminium runs on it too.
TEST(OtherMetals, PutAluminiumBesideSteelFirstAmongTheCautions) {
  const Case c = parse(with_added("environment", "other_metals = [\"5754\"]"), "panel.toml");
  ASSERT_EQ(c.other_metals.size(), 1U);
  const auto list = sim::cautions(c);
  EXPECT_THAT(list.at(0), HasSubstr("Local law, fire and dust codes, the machine's manual"));
  EXPECT_THAT(list.at(1), HasSubstr("must never meet"));
  EXPECT_THAT(list.at(1), HasSubstr("Clean out"));
  EXPECT_THAT(list, Contains(HasSubstr("hydrogen")));
  EXPECT_EQ(sim::pressing_cautions(c), std::vector<std::string>{list.at(1)});
  EXPECT_TRUE(sim::pressing_cautions(parse(whole_case(), "panel.toml")).empty());
}

TEST(OtherMetals, AreLookedUpByName) {
  const auto problems = problems_of(with_added("environment", "other_metals = [\"5745\"]"));
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_THAT(problems[0].text, HasSubstr("5754"));
  EXPECT_EQ(problems_of(with_added("environment", "other_metals = \"5754\"")).size(), 1U);
  EXPECT_EQ(problems_of(with_added("environment", "other_metals = [5754]")).size(), 1U);
}

// Cautions that any line calls for: dust, noise, sharp edges, speed and way of running.
TEST(Cautions, NameWhatEveryLineCallsFor) {
  const auto list = sim::cautions(parse(whole_case(), "panel.toml"));
  for (const char* word :
       {"dust burns", "Noise", "Edges are sharp", "speed marked", "way of running", "lockout"})
    EXPECT_THAT(list, Contains(HasSubstr(word))) << word;
}

}  // namespace
}  // namespace drumlin::cases
