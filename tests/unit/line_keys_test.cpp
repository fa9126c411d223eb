#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/currencies.hpp"
#include "cases/reader.hpp"
#include "cases/units.hpp"
#include "tests/support/marked_case.hpp"
#include "tests/support/problems.hpp"

namespace drumlin::cases {
namespace {

using support::problems_of;
using support::whole_case;
using support::with_added;
using testing::Contains;
using testing::StartsWith;

Case parsed(const std::string& text) {
  return parse(text, "panel.toml");
}

/// The marked case with prices, and a brush behind its belt.
Case priced(const std::string& lines, bool brush = false) {
  std::string text = with_added("cost", lines);
  if (brush)
    text.insert(text.find("[conveyor]"),
                "[[station]]\nkind = \"brush\"\nradius = \"150 mm\"\npenetration = \"1 mm\"\n"
                "speed = \"12 m/s\"\nfilament = { material = \"steel\", diameter = \"0.3 mm\", "
                "free_length = \"30 mm\" }\n");
  return parsed(text);
}

TEST(Money, IsReadInAnyCurrencyOfThreeLetters) {
  for (const auto code : units::currencies) {
    const auto rate = units::parse("90 " + std::string(code) + "/h");
    EXPECT_EQ(rate.unit.currency, code);
    EXPECT_EQ(rate.unit.dimension.money, 1) << code;
    EXPECT_NEAR(rate.value, 90.0 / 3600.0, 1e-15) << code;
  }
}

TEST(Money, IsReadWithItsSignToo) {
  for (const auto& [text, code] : {std::pair{"90 \u20ac/h", "EUR"}, std::pair{"90 $/h", "USD"},
                                   std::pair{"90 \u00a3/h", "GBP"}})
    EXPECT_EQ(units::parse(text).unit.currency, code);
  const auto hundredths = units::parse("5 ct");
  EXPECT_DOUBLE_EQ(hundredths.value, 0.05);
  EXPECT_EQ(hundredths.unit.currency, "") << "cents of whatever the case counts in";
}

TEST(Money, IsNotMadeOfAWordThatIsNoCurrency) {
  EXPECT_THROW(static_cast<void>(units::parse("90 XYZ/h")), units::UnitError);
  EXPECT_THROW(static_cast<void>(units::parse("90 eur/h")), units::UnitError);
  EXPECT_THROW(static_cast<void>(units::parse("90 EUR/USD")), units::UnitError);
}

TEST(Cost, TakesEveryPrice) {
  const Case c = priced(
      "line_rate = \"90 \u20ac/h\"\nlabour = \"36 EUR/h\"\n"
      "belt = { price = \"120 EUR\", life = \"8000 parts\" }\n"
      "brush = { price = \"900 EUR\", life = \"60000 parts\" }\n"
      "power = \"0.36 EUR/kWh\"\nfluid = \"72 ct/h\"\nrework = { cost = \"1.20 EUR\", share = 0.04 "
      "}",
      true);
  ASSERT_TRUE(c.cost);
  EXPECT_EQ(c.cost->currency, "EUR");
  EXPECT_NEAR(*c.cost->line_rate, 0.025, 1e-15);
  EXPECT_NEAR(*c.cost->labour, 0.01, 1e-15);
  EXPECT_NEAR(*c.cost->power, 1e-10, 1e-24);  // 3.6e9 mJ in a kWh
  EXPECT_NEAR(*c.cost->fluid, 2e-4, 1e-17);
  ASSERT_EQ(c.cost->belts.size(), 1U);
  EXPECT_EQ(c.cost->belts[0].price, 120);
  EXPECT_EQ(c.cost->belts[0].life, 8000);
  ASSERT_EQ(c.cost->brushes.size(), 1U);
  EXPECT_EQ(c.cost->brushes[0].life, 60000);
  EXPECT_EQ(c.cost->rework->price, 1.2);
  EXPECT_EQ(c.cost->rework->share, 0.04);
}

TEST(Cost, IsAbsentWithoutAPrice) {
  EXPECT_FALSE(parsed(whole_case()).cost);
}

TEST(Cost, TakesBareAndListedPrices) {
  const Case bare = priced("belt = \"120 EUR\"\nrework = \"1.20 EUR\"");
  EXPECT_EQ(bare.cost->belts.at(0).price, 120);
  EXPECT_FALSE(bare.cost->belts.at(0).life) << "left to whoever predicts it";
  EXPECT_FALSE(bare.cost->rework->share);
  const Case listed =
      priced("belt = [\"120 EUR\"]\nrework = { price = \"1 EUR\", share = \"4 %\" }");
  EXPECT_EQ(listed.cost->belts.at(0).price, 120);
  EXPECT_EQ(listed.cost->rework->share, 0.04);
}

TEST(Cost, TakesABeltByItsArea) {
  std::string text = with_added("cost", "belt = { price = \"40 EUR/m2\", life = \"8000 parts\" }");
  EXPECT_EQ(problems_of(text).size(), 1U) << "of a belt without length and width";
  text.insert(text.find("#@ station.belt\n"), "length = \"2 m\"\nwidth = \"1 m\"\n");
  const Case c = parsed(text);
  EXPECT_TRUE(c.cost->belts.at(0).per_area);
  EXPECT_NEAR(c.cost->belts.at(0).price, 40e-6, 1e-18);
}

TEST(Grip, IsThatOfARubberConveyorWhereTheCaseIsSilent) {
  const Case c = parsed(whole_case());
  EXPECT_EQ(c.conveyor.grip.friction_dry.value, 0.6);
  EXPECT_LT(c.conveyor.grip.friction_dry.low, 0.6);
  EXPECT_LT(c.conveyor.grip.friction_wet.value, c.conveyor.grip.friction_dry.value);
  EXPECT_EQ(c.conveyor.grip.suction, 0);
  EXPECT_THAT(c.defaults, Contains(StartsWith("conveyor.grip.friction_dry = 0.6: steel on a rub")));
  EXPECT_THAT(c.defaults, Contains(StartsWith("conveyor.grip.friction_wet = 0.3: ")));
}

TEST(Grip, TakesOneFrictionOrTwoAndASuction) {
  const Case two = parsed(
      with_added("conveyor.grip", "friction_dry = 0.7\nfriction_wet = 0.2\nsuction = \"2 kPa\""));
  EXPECT_EQ(two.conveyor.grip.friction_dry.value, 0.7);
  EXPECT_EQ(two.conveyor.grip.friction_wet.high, 0.2) << "what is given has no band";
  EXPECT_NEAR(two.conveyor.grip.suction, 2e-3, 1e-15);
  const Case one = parsed(with_added("conveyor.grip", "friction = 0.5"));
  EXPECT_EQ(one.conveyor.grip.friction_dry.value, 0.5);
  EXPECT_EQ(one.conveyor.grip.friction_wet.value, 0.5);
  std::string text = whole_case();
  text.replace(text.find("[conveyor.grip]\n"), 16, "");
  text.insert(text.find("#@ conveyor\n"), "grip = 0.4\n");
  EXPECT_EQ(parsed(text).conveyor.grip.friction_dry.value, 0.4);
}

TEST(Ratings, LetThroughWhatKeepsThem) {
  EXPECT_TRUE(problems_of(with_added("station.belt", "speed_limit = \"8 m/s\"")).empty());
  std::string forced = with_added("station.belt", "speed_limit = \"6 m/s\"");
  forced.insert(forced.find("#@ station\n"), "allow_overspeed = true\n");
  const Case c = parsed(forced);
  EXPECT_TRUE(std::get<BeltStation>(c.stations[0]).allow_overspeed);
}

TEST(WetBelts, AreThoseOfClothOrThatSaySo) {
  const std::string wet = with_added("environment", "cooling = \"wet\"");
  EXPECT_TRUE(problems_of(wet).empty());
  std::string paper = wet;
  paper.replace(paper.find("backing = \"X\""), 13, "backing = \"paper\"");
  EXPECT_EQ(problems_of(paper).size(), 1U);
  paper.insert(paper.find("#@ station.belt\n"), "wet = true\n");
  EXPECT_TRUE(problems_of(paper).empty());
}

}  // namespace
}  // namespace drumlin::cases
