#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/studies.hpp"
#include "tests/support/temporary_folder.hpp"

namespace drumlin::cases {
namespace {

using support::factor;
using testing::AllOf;
using testing::HasSubstr;

const std::string grid = "[design]\nkind = \"grid\"\n";
const std::string sobol = "[design]\nkind = \"sobol\"\nsize = 16\n";

/// What is wrong with a study of the soft panel.
std::string wrong_with(const std::string& rest) {
  try {
    static_cast<void>(support::study_of("panel-soft.toml", rest));
  } catch (const CaseError& error) {
    return error.what();
  }
  return "";
}

TEST(AStudy, NamesTheNearestKeyForOneThatTheCaseDoesNotKnow) {
  EXPECT_THAT(wrong_with(grid + factor("station[0].drum.hardnes", "values = [\"20 Shore A\"]")),
              AllOf(HasSubstr("study.toml:6:7: error: factor[0].key:"),
                    HasSubstr("nearest is \"hardness\"")));
  EXPECT_THAT(wrong_with(grid + factor("station[3].drum.hardness", "values = [\"20 Shore A\"]")),
              HasSubstr("the case has no station[3]; expected station[0], the only one"));
  EXPECT_THAT(wrong_with(grid + factor("part.feature['hole-7'].size", "values = [\"5 mm\"]")),
              HasSubstr("nearest is \"hole-6\""));
  EXPECT_THAT(wrong_with(grid + factor("numerix.steps", "values = [100]")),
              HasSubstr("nearest is \"numerics\""));
  EXPECT_THAT(wrong_with(grid + factor("drum hardness", "values = [1]")),
              HasSubstr("drum hardness"));
}

TEST(AStudy, StatesTheLegalRangeAtEitherEnd) {
  const std::string text =
      wrong_with(grid + factor("station[0].drum.hardness",
                               "from = \"2 Shore A\"\nto = \"120 Shore A\"\nsteps = 3"));
  EXPECT_THAT(text,
              AllOf(HasSubstr("study.toml:7:8: error: station[0].drum.hardness: \"2 Shore A\" "
                              "is out of range for a drum hardness; expected 5 Shore A to 95 "
                              "Shore A"),
                    HasSubstr("study.toml:8:6: error: station[0].drum.hardness: \"120 Shore A\"")));
}

TEST(AStudy, AsksForUnitsAsTheCaseDoes) {
  EXPECT_THAT(wrong_with(grid + factor("station[0].drum.hardness", "values = [20, \"40 mm\"]")),
              AllOf(HasSubstr("20 has no unit; expected a hardness with its unit"),
                    HasSubstr("\"40 mm\" is a length; expected a hardness")));
}

TEST(AStudy, SaysWhatAFactorNeeds) {
  EXPECT_THAT(wrong_with(grid + factor("part.thickness", "from = \"1 mm\"\nto = \"2 mm\"")),
              HasSubstr("a factor of a grid has steps"));
  EXPECT_THAT(
      wrong_with(grid + factor("part.thickness", "from = \"2 mm\"\nto = \"1 mm\"\nsteps = 3")),
      HasSubstr("is not above from"));
  EXPECT_THAT(wrong_with(grid + factor("part.thickness", "from = \"2 mm\"\nsteps = 3")),
              HasSubstr("to is missing"));
  EXPECT_THAT(wrong_with(grid + factor("part.thickness", "")),
              HasSubstr("expected one of values = [...], from and to, or distribution"));
  EXPECT_THAT(wrong_with(grid + factor("environment.cooling", "values = [\"damp\"]")),
              HasSubstr("unknown choice \"damp\""));
  EXPECT_THAT(wrong_with(grid + factor("environment.cooling", "from = \"dry\"\nto = \"wet\"")),
              HasSubstr("holds no number; give values = [...]"));
  EXPECT_THAT(wrong_with(grid + factor("conveyor.passes", "values = [1, 2.5]")),
              HasSubstr("expected a whole number from 1 to 100"));
  EXPECT_THAT(wrong_with(grid + factor("part.thickness", "values = [\"1 mm\"]") +
                         factor("part.thickness", "values = [\"2 mm\"]")),
              HasSubstr("\"part.thickness\" is varied already"));
  EXPECT_THAT(wrong_with(grid + factor("part.thickness", "valus = [\"1 mm\"]")),
              HasSubstr("nearest is \"values\""));
}

TEST(AStudy, RefusesDistributionsThatReachTooFar) {
  const auto thickness = [](const std::string& distribution) {
    return wrong_with(sobol + factor("station[0].setting.interference",
                                     "distribution = { " + distribution + " }"));
  };
  EXPECT_THAT(thickness("kind = \"normal\", mean = \"0.3 mm\", deviation = \"0.2 mm\""),
              AllOf(HasSubstr("three standard deviations reach -0.3 mm"),
                    HasSubstr("expected 0 mm to 50 mm"), HasSubstr("truncated-normal")));
  EXPECT_EQ(
      thickness("kind = \"truncated-normal\", mean = \"0.3 mm\", deviation = \"0.2 mm\", low = "
                "\"0.1 mm\", high = \"0.5 mm\""),
      "");
  EXPECT_THAT(thickness("kind = \"gauss\""), HasSubstr("unknown choice \"gauss\""));
  EXPECT_THAT(
      thickness("kind = \"triangular\", low = \"0.1 mm\", mode = \"0.6 mm\", high = \"0.5 mm\""),
      HasSubstr("is not between low and high"));
  EXPECT_THAT(thickness("kind = \"uniform\", low = \"0.1 mm\""), HasSubstr("high: missing"));
  EXPECT_THAT(wrong_with(sobol + factor("environment.temperature",
                                        "distribution = { kind = \"normal\", mean = \"20 degC\", "
                                        "deviation = \"2 degC\" }")),
              HasSubstr("a difference of temperatures is in K"));
}

TEST(AStudy, FiltersByItsOwnFactors) {
  const std::string one = grid + factor("part.thickness", "values = [\"1 mm\", \"2 mm\"]");
  EXPECT_EQ(wrong_with(one + "[[filter]]\nkeep = \"part.thickness <= 1.5 mm\"\n"), "");
  EXPECT_THAT(wrong_with(one + "[[filter]]\nkeep = \"part.thicknes <= 1.5 mm\"\n"),
              HasSubstr("is no factor of this study; nearest is \"part.thickness\""));
  EXPECT_THAT(wrong_with(one + "[[filter]]\nkeep = \"part.thickness <= 1.5\"\n"),
              HasSubstr("expected a length"));
  EXPECT_THAT(wrong_with(one + "[[filter]]\nkeep = \"thin\"\n"),
              HasSubstr("expected a comparison"));
}

TEST(AStudy, SaysWhatIsWrongWithItsDesignCaseAndModel) {
  const std::string one = factor("part.thickness", "values = [\"1 mm\"]");
  EXPECT_THAT(wrong_with("[design]\nkind = \"lattice\"\n" + one), HasSubstr("unknown choice"));
  EXPECT_THAT(wrong_with("[design]\nkind = \"sobol\"\n" + one), HasSubstr("missing size"));
  EXPECT_THAT(
      wrong_with("[design]\nkind = \"grid\"\nsize = 4\n" + one),
      HasSubstr("belongs to a design of kind \"latin-hypercube\", \"sobol\" or \"pick-freeze\""));
  EXPECT_THAT(wrong_with(grid), HasSubstr("no factor"));
  const auto parse = [](const std::string& text) {
    try {
      static_cast<void>(parse_study(text, support::examples() + "study.toml"));
    } catch (const CaseError& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  EXPECT_THAT(parse("case = \"none.toml\"\n" + grid + one), HasSubstr("no such file"));
  EXPECT_THAT(parse("case = \"panel-soft.toml\"\nmodel = \"patch\"\n" + grid + one),
              HasSubstr("study.toml:2:9: error: model: \"patch\" is not available"));
}

/// What is wrong with a list of rows over the soft panel.
std::string wrong_with_list(const std::string& csv) {
  const support::TemporaryFolder folder;
  const std::string file = (folder.path() / "rows.csv").string();
  std::ofstream(file) << csv;
  return wrong_with("[design]\nkind = \"list\"\nfile = \"" + file + "\"\n");
}

TEST(AList, NamesLineAndColumnOfWhatIsWrong) {
  EXPECT_EQ(wrong_with_list("part.thickness,environment.cooling\n1 mm,dry\n1.2 mm,wet\n"), "");
  EXPECT_THAT(wrong_with_list("part.thickness,environment.cooling\n1 mm,dry\n1.2,wet\n"),
              HasSubstr("rows.csv:3:1: error: part.thickness: 1.2 has no unit"));
  EXPECT_THAT(wrong_with_list("part.thickness,environment.cooling\n1 mm, damp\n"),
              HasSubstr("rows.csv:2:7: error: environment.cooling: unknown choice \"damp\""));
  EXPECT_THAT(wrong_with_list("part.thicknes\n1 mm\n"),
              AllOf(HasSubstr("rows.csv:1:1"), HasSubstr("nearest is \"thickness\"")));
  EXPECT_THAT(wrong_with_list("part.thickness\n1 mm, 2 mm\n"),
              HasSubstr("2 values in a line; expected 1"));
  EXPECT_THAT(wrong_with_list(""), HasSubstr("is empty"));
}

TEST(AList, TakesQuotedCells) {
  const support::TemporaryFolder folder;
  const std::string file = (folder.path() / "rows.csv").string();
  std::ofstream(file)
      << "\"part.thickness\", \"accept.burr_height\"\r\n\"1 mm\",\"<= 0.03 mm\"\r\n";
  const Study study =
      support::study_of("panel-soft.toml", "[design]\nkind = \"list\"\nfile = \"" + file + "\"\n");
  ASSERT_EQ(study.rows(), 1U);
  EXPECT_EQ(study.factors[1].words.at(0), "<= 0.03 mm");
  EXPECT_EQ(study.with(study.list[0]).part.thickness, 1.0);
}

const std::string two_aims =
    "[[aim]]\ncolumn = \"front.edge_drop_um\"\ndirection = \"up\"\n"
    "[[aim]]\ncolumn = \"face.removal_um\"\ndirection = \"down\"\nat_most = \"0.02 mm\"\n";
const std::string one_factor = factor("conveyor.speed", "from = \"2 m/min\"\nto = \"8 m/min\"");

/// What is wrong with the aims of a study over two columns.
std::string wrong_aims(const std::string& aims) {
  try {
    const StudyWishes wishes = read_wishes("title = \"x\"\n" + aims, "study.toml");
    const std::vector<NamedColumn> columns{{"front.edge_drop_um", "um"}, {"face.removal_um", "um"}};
    static_cast<void>(aims_over(wishes, columns));
  } catch (const CaseError& error) {
    return error.what();
  }
  return "";
}

TEST(AnAim, SaysWhatItNeeds) {
  EXPECT_EQ(wrong_with(sobol + one_factor + two_aims), "");
  EXPECT_THAT(wrong_with(sobol + one_factor + "[[aim]]\ncolumn = \"a\"\ndirection = \"uo\"\n"),
              AllOf(HasSubstr("aim[0].direction"), HasSubstr("nearest is \"up\""),
                    HasSubstr("1 of them; expected 2 to 5")));
  EXPECT_THAT(wrong_with(sobol + one_factor + two_aims + "[[aim]]\ndirection = \"up\"\n"),
              HasSubstr("aim[2].column: missing"));
  EXPECT_THAT(wrong_with(sobol + one_factor + two_aims +
                         "[[aim]]\ncolumn = \"face.removal_um\"\ndirection = \"up\"\n"),
              HasSubstr("\"face.removal_um\" is an aim already"));
  EXPECT_THAT(wrong_with(sobol + one_factor + two_aims + "at_leats = 3\n"),
              HasSubstr("nearest is \"at_least\""));
}

TEST(AnAim, NamesTheNearestColumnAtItsPlace) {
  EXPECT_EQ(wrong_aims(two_aims), "");
  EXPECT_THAT(
      wrong_aims("[[aim]]\ncolumn = \"front.edge_drp_um\"\ndirection = \"up\"\n" + two_aims),
      AllOf(HasSubstr("study.toml:3:10: error: aim[0].column"),
            HasSubstr("nearest is \"front.edge_drop_um\""),
            HasSubstr("drumlin sweep study.toml --row 0 lists them")));
}

TEST(AnAim, TakesBoundsInTheColumnsUnitOrWithTheirOwn) {
  const std::vector<NamedColumn> columns{{"front.edge_drop_um", "um"}, {"face.removal_um", "um"}};
  const auto aims = aims_over(read_wishes(two_aims, "study.toml"), columns);
  EXPECT_DOUBLE_EQ(aims.at(1).at_most->value, 20);
  EXPECT_THAT(wrong_aims(two_aims + "at_least = \"3 N\"\n"),
              AllOf(HasSubstr("study.toml:9:12: error: aim[1].at_least"),
                    HasSubstr("\"N\" does not fit \"face.removal_um\", which is in um")));
  EXPECT_THAT(wrong_aims(two_aims + "at_least = true\n"),
              HasSubstr("expected a number in the column's unit"));
}

TEST(APickFreezeDesign, HasItsRowsCounted) {
  const Study study = support::study_of(
      "panel-soft.toml", "[design]\nkind = \"pick-freeze\"\nsize = 16\n" + one_factor);
  EXPECT_EQ(study.rows(), 16U * 3);
  EXPECT_THAT(wrong_with("[design]\nkind = \"pick-freeze\"\n" + one_factor),
              HasSubstr("missing size"));
}

TEST(AStudysText, SaysHowItsFactorsAreVaried) {
  const StudyWishes wishes = read_wishes(
      "title = \"x\"\n" + sobol + one_factor +
          factor("numerics.steps", "values = [1, 2, 3, 4, 5, 6, 7, 8]") +
          factor("station[0].belt.removal_coefficient",
                 "distribution = { kind = \"lognormal\", median = \"4e-5 1/MPa\", factor = 1.3 }"),
      "study.toml");
  EXPECT_EQ(wishes.varied.at(0), "2 m/min to 8 m/min, evenly");
  EXPECT_EQ(wishes.varied.at(1), "one of 1, 2, 3, 4, 5, 6 and 2 more");
  EXPECT_EQ(wishes.varied.at(2), "lognormal, factor 1.3, median 4e-5 1/MPa");
  EXPECT_FALSE(wishes.all_drawn);
}

}  // namespace
}  // namespace drumlin::cases
