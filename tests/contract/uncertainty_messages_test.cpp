// [uncertainty] of a case: what is taken, and one clear message for everything that is not.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "cases/scatter.hpp"
#include "tests/support/marked_case.hpp"
#include "tests/support/studies.hpp"

namespace drumlin::cases {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

Case with_scatter(const std::string& lines) {
  return parse(support::whole_case() + "[uncertainty]\n" + lines, "panel.toml");
}

std::string wrong_with(const std::string& lines) {
  try {
    static_cast<void>(with_scatter(lines));
  } catch (const CaseError& error) {
    return error.what();
  }
  return "";
}

/// Line of the first line below the header.
std::string first_line() {
  const std::string text = support::whole_case();
  return std::to_string(std::count(text.begin(), text.end(), '\n') + 2);
}

TEST(Uncertainty, TakesABareDeviationAndATable) {
  const Case c = with_scatter(
      "size = 64\nseed = 7\n\"part.thickness\" = \"0.05 mm\"\n"
      "\"station[0].drum.hardness\" = \"5\"\n"
      "\"conveyor.speed\" = { kind = \"normal\", mean = \"3 m/min\", deviation = \"0.1 m/min\" }\n"
      "\"station[0].drum.poisson\" = 0.003\n");
  ASSERT_TRUE(c.uncertainty);
  EXPECT_EQ(c.uncertainty->size, 64);
  EXPECT_EQ(c.uncertainty->seed, 7);
  EXPECT_EQ(c.uncertainty->model, "fast");
  ASSERT_EQ(c.uncertainty->keys.size(), 4U);
  EXPECT_EQ(c.uncertainty->keys[0].distribution,
            models::AnyDistribution(models::Normal{c.part.thickness, 0.05}));
  EXPECT_TRUE(c.uncertainty->keys[0].around_own);
  EXPECT_EQ(std::get<models::Normal>(c.uncertainty->keys[1].distribution).deviation, 5);
  EXPECT_THAT(c.uncertainty->keys[2].text, HasSubstr("normal: mean 3 m/min, deviation 0.1 m/min"));
  EXPECT_FALSE(c.uncertainty->keys[2].around_own);
}

TEST(Uncertainty, HasItsDefaults) {
  const Case c = with_scatter("\"part.thickness\" = \"0.05 mm\"\n");
  EXPECT_EQ(c.uncertainty->size, 256);
  EXPECT_EQ(c.uncertainty->seed, 1);
  EXPECT_FALSE(parse(support::whole_case(), "panel.toml").uncertainty);
}

TEST(Uncertainty, NamesPlaceAndNearestKey) {
  EXPECT_THAT(wrong_with("\"station[0].drum.hardnes\" = \"5\"\n"),
              AllOf(HasSubstr("panel.toml:" + first_line() +
                              ":1: error: uncertainty.station[0].drum.hardnes:"),
                    HasSubstr("nearest is \"hardness\"")));
  EXPECT_THAT(wrong_with("sise = 64\n"),
              AllOf(HasSubstr(":1: error: uncertainty.sise: unknown key"),
                    HasSubstr("nearest is \"size\"")));
  EXPECT_THAT(wrong_with("part.thickness = \"0.05 mm\"\n"), HasSubstr("stands in quotes"));
  EXPECT_THAT(wrong_with("\"part.material\" = \"0.05 mm\"\n"),
              HasSubstr("holds no number that could scatter"));
}

TEST(Uncertainty, RefusesWrongUnitsAndIllegalReach) {
  EXPECT_THAT(wrong_with("\"part.thickness\" = \"0.05 MPa\"\n"),
              AllOf(HasSubstr("uncertainty.part.thickness:"), HasSubstr("standard deviation")));
  EXPECT_THAT(wrong_with("\"part.thickness\" = 0.05\n"), HasSubstr("0.05 has no unit"));
  EXPECT_THAT(wrong_with("\"part.thickness\" = \"0 mm\"\n"), HasSubstr("greater than zero"));
  EXPECT_THAT(wrong_with("\"part.thickness\" = \"2 mm\"\n"),
              AllOf(HasSubstr("three standard deviations reach"), HasSubstr("is negative")));
  EXPECT_THAT(wrong_with("\"part.thickness\" = { kind = \"gauss\" }\n"),
              HasSubstr("unknown choice \"gauss\""));
  EXPECT_THAT(wrong_with("\"part.thickness\" = { kind = \"normal\", mean = \"1 mm\" }\n"),
              HasSubstr("deviation: missing"));
  EXPECT_THAT(wrong_with("model = \"patch\"\n\"part.thickness\" = \"0.05 mm\"\n"),
              HasSubstr("not available"));
}

TEST(Uncertainty, TakesDifferencesOfTemperatures) {
  const auto warm = [](const char* deviation) {
    return parse(support::with_added("environment", "temperature = \"20 degC\"") +
                     "[uncertainty]\n\"environment.temperature\" = \"" + deviation + "\"\n",
                 "panel.toml");
  };
  EXPECT_EQ(std::get<models::Normal>(warm("2 K").uncertainty->keys.at(0).distribution).deviation,
            2);
  EXPECT_THAT(
      [&] {
        try {
          static_cast<void>(warm("2 degC"));
        } catch (const CaseError& error) {
          return std::string(error.what());
        }
        return std::string();
      }(),
      HasSubstr("a difference of temperatures is in K"));
}

TEST(Uncertainty, AsksForAMiddleWhereTheCaseGivesNone) {
  EXPECT_THAT(wrong_with("\"part.roughness\" = \"0.1 um\"\n"),
              AllOf(HasSubstr("the case gives no value of it to scatter around"),
                    HasSubstr("panel.toml:" + first_line())));
  EXPECT_EQ(wrong_with("\"part.roughness\" = { kind = \"uniform\", low = \"1 um\", high = "
                       "\"2 um\" }\n"),
            "");
}

// A key that the case leaves out scatters around what the reader takes for it.
TEST(Uncertainty, GoesAroundTheDefaultWhereThereIsOne) {
  const Case c = with_scatter("\"part.lift\" = \"0.05 mm\"\n");
  ASSERT_TRUE(c.uncertainty);
  EXPECT_EQ(c.uncertainty->keys[0].distribution,
            models::AnyDistribution(models::Normal{0.0, 0.05}));
  EXPECT_EQ(c.uncertainty->keys[0].unit, "mm");
  EXPECT_EQ(c.uncertainty->keys[0].text, "normal around the default, 0 mm, deviation 0.05 mm");
}

// A pure number's default has no unit; the key is not dropped for it. All of a plain cover is land,
// so that no scatter goes around that.
TEST(Uncertainty, KnowsTheDefaultOfAPureNumber) {
  EXPECT_THAT(wrong_with("\"station[0].drum.land_ratio\" = 0.01\n"),
              HasSubstr("three standard deviations reach"));
}

// Bounds move bands, which draws and rows do not have: they would scatter without any effect.
TEST(Uncertainty, SendsBoundsToTheValueThatTheyBound) {
  EXPECT_THAT(
      wrong_with("\"part.bow\" = { kind = \"uniform\", low = \"0 mm\", high = \"0.2 mm\" }\n"),
      AllOf(HasSubstr("panel.toml:" + first_line() + ":1: error: uncertainty.part.bow:"),
            HasSubstr("is a bound"), HasSubstr("\"part.lift\"")));
  EXPECT_THAT(wrong_with("\"part.thickness_tolerance\" = \"0.01 mm\"\n"),
              HasSubstr("expected the value itself, \"part.thickness\""));
}

TEST(Uncertainty, SaysAllThatIsWrongInOneGo) {
  const std::string wrong = [] {
    try {
      static_cast<void>(parse(support::with_added("conveyor", "spead = 1") +
                                  "[uncertainty]\n\"part.thicknes\" = \"0.05 mm\"\n"
                                  "\"station[9].drum.hardness\" = \"5\"\n"
                                  "\"part.thickness\" = \"0.05 mm\"\n\"part . thickness\" = 1\n",
                              "panel.toml"));
    } catch (const CaseError& error) {
      return std::string(error.what());
    }
    return std::string();
  }();
  EXPECT_THAT(wrong, HasSubstr("conveyor.spead: unknown key"));
  EXPECT_THAT(wrong, HasSubstr("uncertainty.part.thicknes:"));
  EXPECT_THAT(wrong, HasSubstr("the case has no station[9]"));
  // A slip elsewhere is not laid at the door of a key that scatters.
  EXPECT_THAT(wrong, Not(HasSubstr("\"part.thickness\" names no key")));
}

TEST(Uncertainty, RefusesTheSameKeyTwice) {
  EXPECT_THAT(wrong_with("\"part.feature[0].size\" = \"0.1 mm\"\n\"part.feature['hole'].size\" = "
                         "\"0.1 mm\"\n") +
                  wrong_with("\"part.thickness\" = \"0.1 mm\"\n\"part.thickness \" = \"0.1 mm\"\n"),
              HasSubstr("uncertainty.part."));
}

TEST(TheStudyOfACasesScatter, HasItsKeysAsFactors) {
  const Case c = read(support::examples() + "panel-scatter.toml");
  const Study study = scatter_of(c);
  ASSERT_EQ(study.factors.size(), c.uncertainty->keys.size());
  EXPECT_EQ(study.points, 256U);
  std::vector<double> middle;
  for (const Factor& factor : study.factors)
    middle.push_back(models::quantile(*factor.distribution, 0.5));
  EXPECT_DOUBLE_EQ(study.with(middle).part.thickness, c.part.thickness);
  EXPECT_THROW(static_cast<void>(scatter_of(parse(support::whole_case(), "panel.toml"))),
               std::invalid_argument);
}

std::string wrong_with_rows(const std::string& case_file, const std::string& rest) {
  try {
    static_cast<void>(parse_study("case = \"" + case_file +
                                      "\"\nscatter = true\n[design]\nkind = "
                                      "\"grid\"\n" +
                                      rest,
                                  support::examples() + "study.toml"));
  } catch (const CaseError& error) {
    return error.what();
  }
  return "";
}

TEST(AStudyWithScatter, SaysWhatDoesNotGoTogether) {
  const std::string thickness =
      support::factor("part.thickness", "values = [\"1.4 mm\", \"1.6 mm\"]");
  EXPECT_EQ(wrong_with_rows("panel-scatter.toml", thickness), "");
  EXPECT_THAT(wrong_with_rows("panel-soft.toml", thickness),
              AllOf(HasSubstr("study.toml:2:11: error: scatter:"),
                    HasSubstr("no [uncertainty] to draw from")));
  EXPECT_THAT(
      wrong_with_rows("panel-scatter.toml", support::factor("part.feature[2].burr.height",
                                                            "values = [\"0.1 mm\", \"0.2 mm\"]")),
      HasSubstr("give the case a bare deviation"));
  EXPECT_THAT(wrong_with_rows("panel-scatter.toml",
                              support::factor("part.bow", "values = [\"0.1 mm\", \"0.2 mm\"]")),
              HasSubstr("\"part.lift\""));
}

}  // namespace
}  // namespace drumlin::cases
