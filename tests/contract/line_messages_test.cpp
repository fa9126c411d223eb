#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "tests/support/broken_case.hpp"
#include "tests/support/marked_case.hpp"
#include "tests/support/problems.hpp"

/// What the reader says of prices, grip, ratings and wet belts, and where.
namespace drumlin::cases {
namespace {

using support::problems_of;
using support::take_mark;
using support::whole_case;
using support::with;
using testing::HasSubstr;

/// As in messages_test.cpp.
struct Broken {
  const char* line;
  const char* instead;
  const char* key;
  const char* message;
};

void PrintTo(const Broken& broken, std::ostream* out) {
  *out << broken.key << " " << broken.instead;
}

class LineMessage : public testing::TestWithParam<Broken> {};

TEST_P(LineMessage, PointsAtTheWordThatIsWrong) {
  const auto& [line, instead, key, message] = GetParam();
  const Problem problem = support::only_problem(line, instead, key);
  EXPECT_THAT(problem.text, HasSubstr(message));
}

constexpr const char* cost = "#@ cost";
INSTANTIATE_TEST_SUITE_P(
    OfMoney, LineMessage,
    testing::Values(
        Broken{cost, "line_rate = ^\"90\"", "cost.line_rate",
               "\"90\" has no unit; expected a cost per time with its unit, such as \"90 EUR/h\""},
        Broken{cost, "line_rate = ^90", "cost.line_rate",
               "90 has no unit; expected a cost per time with its unit, such as \"90 EUR/h\""},
        Broken{cost, "line_rate = ^\"90 1/h\"", "cost.line_rate",
               "is a frequency; expected a cost per time, such as \"90 EUR/h\""},
        Broken{cost, "line_rate = ^\"90 EUR\"", "cost.line_rate",
               "\"90 EUR\" is a sum of money; expected a cost per time, such as \"90 EUR/h\""},
        Broken{cost, "line_rate = ^\"90 ERU/h\"", "cost.line_rate",
               "unknown unit \"ERU\"; nearest is \"EUR\""},
        Broken{cost, "line_rate = ^\"-90 EUR/h\"", "cost.line_rate", "\"-90 EUR/h\" is negative"},
        Broken{cost, "line_rate = ^\"EUR 90/h\"", "cost.line_rate", "does not start with a number"},
        Broken{cost, "line_rate = ^\"90 EUR/USD/h\"", "cost.line_rate", "two currencies"},
        Broken{cost, "power = ^\"0.25 EUR/kW\"", "cost.power",
               "expected a cost per energy, such as \"0.25 EUR/kWh\""},
        Broken{cost, "line_rate = \"90 EUR/h\"\nbelt = ^\"120 USD\"", "cost.belt",
               "\"120 USD\" is in USD, but cost.line_rate is in EUR; expected one currency per "
               "case"},
        Broken{cost, "line_rate = \"90 EUR/h\"\nrework = { price = ^\"1.20 GBP\", share = 0.04 }",
               "cost.rework.price", "is in GBP, but cost.line_rate is in EUR"},
        Broken{cost, "fluid = ^\"80 ct/h\"", "cost.fluid",
               "\"80 ct/h\" names no currency; expected one, such as \"0.05 EUR\""}));

INSTANTIATE_TEST_SUITE_P(
    OfPrices, LineMessage,
    testing::Values(
        Broken{cost, "belt = ^\"120 EUR/h\"", "cost.belt",
               "is a cost per time; expected a sum of money, such as \"120 EUR\""},
        Broken{cost, "belt = { price = ^120 }", "cost.belt.price",
               "120 has no unit; expected a sum of money with its unit"},
        Broken{cost, "belt = ^{ life = \"8000 parts\" }", "cost.belt.price",
               "missing; expected money, such as \"120 EUR\""},
        Broken{cost, "belt = { price = \"120 EUR\", life = ^8000 }", "cost.belt.life",
               "8000 has no unit; expected a number of parts with its unit, such as "
               "\"8000 parts\""},
        Broken{cost, "belt = { price = \"120 EUR\", life = ^\"0 parts\" }", "cost.belt.life",
               "nothing at all"},
        Broken{cost, "belt = { price = \"120 EUR\", ^lif = \"8000 parts\" }", "cost.belt.lif",
               "nearest is \"life\""},
        Broken{cost, "belt = ^[\"120 EUR\", \"80 EUR\"]", "cost.belt",
               "has 2 prices for 1 belt stations; expected one for each"},
        Broken{cost, "belt = ^\"40 EUR/m2\"", "cost.belt",
               "a price by area needs the area of the belt; give the width of each belt"},
        Broken{cost, "belt = ^true", "cost.belt", "expected a sum of money, such as \"120 EUR\""},
        Broken{cost, "rework = { price = \"1 EUR\", ^cost = \"1 EUR\" }", "cost.rework.cost",
               "give price or cost, not both"},
        Broken{cost, "rework = ^{ share = 0.04 }", "cost.rework", "expected price, such as"},
        Broken{cost, "rework = { price = \"1 EUR\", share = ^4 }", "cost.rework.share",
               "4 is out of range for a rework share; expected 0 to 1"},
        Broken{cost, "^labor = \"40 EUR/h\"", "cost.labor", "nearest is \"labour\""}));

INSTANTIATE_TEST_SUITE_P(
    OfGrip, LineMessage,
    testing::Values(Broken{"#@ conveyor.grip", "friction_dry = ^\"0.6\"",
                           "conveyor.grip.friction_dry", "a pure number stands bare"},
                    Broken{"#@ conveyor.grip", "friction_wet = ^-0.1", "conveyor.grip.friction_wet",
                           "is negative"},
                    Broken{"#@ conveyor.grip", "^friction = 0.5\nfriction_wet = 0.3",
                           "conveyor.grip.friction", "give friction or friction_wet, not both"},
                    Broken{"#@ conveyor.grip", "suction = ^\"2 N\"", "conveyor.grip.suction",
                           "\"2 N\" is a force; expected a pressure, such as \"2 kPa\""},
                    Broken{"#@ conveyor.grip", "suction = ^\"200 kPa\"", "conveyor.grip.suction",
                           "out of range"}));

constexpr const char* speed = "speed = \"8 m/s\"";
INSTANTIATE_TEST_SUITE_P(OfRatings, LineMessage,
                         testing::Values(Broken{"speed = \"1.6 m/min\"",
                                                "speed = \"1.6 m/min\"\nlanes = 4\n^lane = 3",
                                                "conveyor.lane", "nearest is \"lanes\""},
                                         Broken{"#@ station.belt", "speed_limit = ^\"30\"",
                                                "station[0].belt.speed_limit", "has no unit"},
                                         Broken{"#@ station.belt", "wet = ^\"no\"",
                                                "station[0].belt.wet", "true or false"}));

TEST(Overspeed, IsRefusedAtTheSpeedWithTheRatingAndTheNearestSpeed) {
  for (const char* tool : {"belt", "drum"}) {
    auto marked = take_mark(with(speed, "speed = ^\"8 m/s\""));
    const std::string section = std::string("#@ station.") + tool + "\n";
    marked.text.insert(marked.text.find(section), "speed_limit = \"6.5 m/s\"\n");
    const auto problems = problems_of(marked.text);
    ASSERT_EQ(problems.size(), 1U) << CaseError(problems).what();
    EXPECT_EQ(problems[0].line, marked.line);
    EXPECT_EQ(problems[0].column, marked.column);
    EXPECT_EQ(problems[0].key, "station[0].speed");
    EXPECT_THAT(problems[0].text,
                HasSubstr(std::string("8 m/s is above what the ") + tool +
                          " is marked with, 6.5 m/s (station[0]." + tool +
                          ".speed_limit); nearest speed that would do: \"6.5 m/s\""));
    EXPECT_THAT(problems[0].text, HasSubstr("allow_overspeed = true"));
  }
}

TEST(Overspeed, OfABrushIsRefusedToo) {
  std::string text = whole_case();
  text.insert(text.find("[conveyor]"),
              "[[station]]\nkind = \"brush\"\nradius = \"150 mm\"\npenetration = \"1 mm\"\n"
              "speed = \"20 m/s\"\nspeed_limit = \"18 m/s\"\nfilament = { material = \"steel\", "
              "diameter = \"0.3 mm\", free_length = \"30 mm\" }\n");
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 1U) << CaseError(problems).what();
  EXPECT_EQ(problems[0].key, "station[1].speed");
  EXPECT_THAT(problems[0].text, HasSubstr("above what the brush is marked with, 18 m/s"));
}

TEST(WetLine, RefusesAPaperBeltWithTheReasonAndTheNearestChoice) {
  auto marked = take_mark(with("backing = \"X\"", "backing = ^\"paper\""));
  marked.text.insert(marked.text.find("#@ environment\n"), "cooling = \"wet\"\n");
  const auto problems = problems_of(marked.text);
  ASSERT_EQ(problems.size(), 1U) << CaseError(problems).what();
  EXPECT_EQ(problems[0].line, marked.line);
  EXPECT_EQ(problems[0].column, marked.column);
  EXPECT_EQ(problems[0].key, "station[0].belt.backing");
  EXPECT_THAT(problems[0].text, HasSubstr("soften in water (common practice, no source)"));
  // Y cloth bends as paper of weights E and F does.
  EXPECT_THAT(problems[0].text, HasSubstr("nearest valid choice: backing = \"Y\""));
}

TEST(WetLine, RefusesABeltThatSaysItMustStayDry) {
  auto marked = take_mark(with("#@ station.belt", "wet = ^false"));
  marked.text.insert(marked.text.find("#@ environment\n"), "cooling = \"wet\"\n");
  const auto problems = problems_of(marked.text);
  ASSERT_EQ(problems.size(), 1U) << CaseError(problems).what();
  EXPECT_EQ(problems[0].line, marked.line);
  EXPECT_EQ(problems[0].key, "station[0].belt.wet");
  EXPECT_THAT(problems[0].text, HasSubstr("nearest valid choice: cooling = \"dry\""));
}

// Three parts of 300 mm with 50 mm between them take 1000 mm.
TEST(Lanes, MustFitTheBelt) {
  auto marked = take_mark(
      with("speed = \"1.6 m/min\"", "speed = \"1.6 m/min\"\nlanes = ^3\ngap = \"50 mm\""));
  marked.text.insert(marked.text.find("#@ station.belt\n"), "width = \"700 mm\"\n");
  const auto problems = problems_of(marked.text);
  ASSERT_EQ(problems.size(), 1U) << CaseError(problems).what();
  EXPECT_EQ(problems[0].line, marked.line + 1);  // the belt's width came in above it
  EXPECT_EQ(problems[0].column, marked.column);
  EXPECT_THAT(problems[0].text,
              HasSubstr("3 lanes take 1000 mm, more than the belt of station[0] is wide, 700 mm; "
                        "nearest that fits: 2"));
}

}  // namespace
}  // namespace drumlin::cases
