#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "tests/support/broken_case.hpp"
#include "tests/support/marked_case.hpp"
#include "tests/support/problems.hpp"

namespace drumlin::cases {
namespace {

using support::problems_of;
using support::take_mark;
using support::whole_case;
using support::with;
using support::with_added;
using testing::HasSubstr;

/// A line of the whole case, what stands there instead ("^" marks the place of the message), the
/// key and a part of the message.
struct Broken {
  const char* line;
  const char* instead;
  const char* key;
  const char* message;
};

void PrintTo(const Broken& broken, std::ostream* out) {
  *out << broken.key;
}

class Message : public testing::TestWithParam<Broken> {};

TEST_P(Message, PointsAtTheWordThatIsWrong) {
  const auto& [line, instead, key, message] = GetParam();
  const Problem problem = support::only_problem(line, instead, key);
  EXPECT_EQ(problem.file, "panel.toml");
  EXPECT_THAT(problem.text, HasSubstr(message));
}

constexpr const char* hardness = "hardness = \"20 Shore A\"";

INSTANTIATE_TEST_SUITE_P(
    OfNumbers, Message,
    testing::Values(
        Broken{hardness, "hardness = ^40", "station[0].drum.hardness",
               "40 has no unit; expected a hardness with its unit, such as \"40 Shore A\""},
        Broken{hardness, "hardness = ^\"40\"", "station[0].drum.hardness",
               "expected a hardness with its unit, such as \"40 Shore A\""},
        Broken{hardness, "hardness = ^\"40 mm\"", "station[0].drum.hardness",
               "\"40 mm\" is a length; expected a hardness, such as \"40 Shore A\""},
        Broken{hardness, "hardness = ^\"40 Shore D\"", "station[0].drum.hardness", "another scale"},
        Broken{hardness, "hardness = ^[40]", "station[0].drum.hardness", "got a list"},
        Broken{hardness, "hardness = ^true", "station[0].drum.hardness", "got true or false"},
        Broken{hardness, "hardness = ^1979-05-27", "station[0].drum.hardness", "got a date"},
        Broken{"radius = \"100 mm\"", "radius = ^\"40 m\"", "station[0].drum.radius",
               "\"40 m\" is absurd for a drum radius; expected 10 mm to 1000 mm"},
        Broken{"radius = \"100 mm\"", "radius = ^\"1200 mm\"", "station[0].drum.radius",
               "\"1200 mm\" is out of range for a drum radius; expected 10 mm to 1000 mm"},
        Broken{"radius = \"100 mm\"", "radius = ^\"-100 mm\"", "station[0].drum.radius",
               "\"-100 mm\" is negative; expected 10 mm to 1000 mm"},
        Broken{"radius = \"100 mm\"", "radius = ^\"0 mm\"", "station[0].drum.radius",
               "nothing at all for a drum radius"},
        Broken{"radius = \"100 mm\"", "radius = ^\"100 mmm\"", "station[0].drum.radius",
               "unknown unit \"mmm\"; nearest is \"mm\"; expected a length, such as \"100 mm\""},
        Broken{"radius = \"100 mm\"", "radius = ^\"100,5 mm\"", "station[0].drum.radius",
               "write \"100.5 mm\""},
        Broken{"radius = \"100 mm\"", "radius = ^\"nan mm\"", "station[0].drum.radius",
               "is not a finite number; expected a length"},
        Broken{"radius = \"100 mm\"", "radius = ^inf", "station[0].drum.radius",
               "inf is not a finite number"},
        Broken{"radius = \"100 mm\"", "radius = ^\"\"", "station[0].drum.radius", "is empty"},
        Broken{"density = \"1100 kg/m3\"", "density = ^\"0.4 kg/m^3\"", "station[0].drum.density",
               "is absurd for a drum density; expected 10 kg/m3 to 10000 kg/m3"},
        Broken{"poisson = 0.47", "poisson = ^0.5", "station[0].drum.poisson",
               "0.5 is out of range for a drum poisson; expected 0 to 0.4999"},
        Broken{"poisson = 0.47", "poisson = ^\"0.47\"", "station[0].drum.poisson",
               "a pure number stands bare, without quotes: 0.47"},
        Broken{"poisson = 0.47", "poisson = ^nan", "station[0].drum.poisson",
               "nan is not a finite number"},
        Broken{"tension = \"2 N/mm\"", "tension = ^\"-2 N/mm\"", "station[0].belt.tension",
               "is negative; expected 0 N/mm to 50 N/mm"},
        Broken{"removal_coefficient = \"4e-5 1/MPa\"", "removal_law = ^\"powr\"",
               "station[0].belt.removal_law", "nearest is \"power\""},
        Broken{"removal_coefficient = \"4e-5 1/MPa\"", "removal_coefficient = ^\"4e-5 MPa\"",
               "station[0].belt.removal_coefficient", "expected a removal coefficient"},
        Broken{"removal_coefficient = \"4e-5 1/MPa\"",
               "removal_coefficient = { zinc = ^\"-4e-5 1/MPa\" }",
               "station[0].belt.removal_coefficient.zinc", "is negative"},
        Broken{"passes = 1", "passes = ^0", "conveyor.passes", "a whole number from 1 to 100"},
        Broken{"passes = 1", "passes = ^-1", "conveyor.passes", "-1 is negative"},
        Broken{"passes = 1", "passes = ^1.5", "conveyor.passes", "got a number"},
        Broken{"bands = true", "bands = ^\"yes\"", "numerics.bands", "expected true or false"},
        Broken{"title = \"Marked panel\"", "title = ^5", "title", "expected a text in quotes"}));

INSTANTIATE_TEST_SUITE_P(
    OfKeysAndNames, Message,
    testing::Values(
        Broken{hardness, "^hardnes = \"40 Shore A\"", "station[0].drum.hardnes",
               "unknown key; nearest is \"hardness\" (known: radius, cover, hardness, "},
        Broken{"width = \"300 mm\"", "^colour = \"red\"", "part.colour", "unknown key; known: mat"},
        Broken{"thickness = \"1.5 mm\"", "^thicknes = \"1.5 mm\"", "part.thicknes",
               "nearest is \"thickness\""},
        Broken{"material = \"DX51D\"", "material = ^\"DX51\"", "part.material",
               "unknown material \"DX51\"; nearest is \"DX51D\" (known: "},
        Broken{"material = \"DX51D\"", "material = ^\"../zinc\"", "part.material",
               "unknown material"},
        Broken{"material = \"zinc\"", "material = ^\"zink\"", "part.coating.material",
               "nearest is \"zinc\""},
        Broken{"abrasive = \"ceramic\"", "abrasive = ^\"cermaic\"", "station[0].belt.abrasive",
               "nearest is \"ceramic\""},
        Broken{"backing = \"X\"", "backing = ^\"Z\"", "station[0].belt.backing",
               "unknown backing \"Z\""},
        Broken{"grit = \"P120\"", "grit = ^\"P121\"", "station[0].belt.grit",
               "unknown grit \"P121\"; nearest is \"P12\""},
        Broken{"grit = \"P120\"", "grit = ^\"240\"", "station[0].belt.grit",
               "P240 (P-scale, FEPA) or US 240 (US scale)?"},
        Broken{"grit = \"P120\"", "grit = ^240", "station[0].belt.grit",
               "P240 (P-scale, FEPA) or US 240 (US scale)?"},
        Broken{"thickness = \"20 um\"", "mass_class = ^\"Z257\"", "part.coating.mass_class",
               "nearest is \"Z275\""},
        Broken{"thickness = \"20 um\"", "mass_class = ^\"ZM120\"", "part.coating.mass_class",
               "\"ZM120\" is a class of \"zinc-magnesium\""},
        Broken{"kind = \"belt\"", "kind = ^\"blet\"", "station[0].kind", "nearest is \"belt\""},
        Broken{"direction = \"with-feed\"", "direction = ^\"with feed\"", "station[0].direction",
               "nearest is \"with-feed\""},
        Broken{"kind = \"wall\"", "kind = ^\"wal\"", "part.feature[0].burr.kind",
               "nearest is \"wall\""}));

INSTANTIATE_TEST_SUITE_P(
    OfWhatIsNotAvailableYet, Message,
    testing::Values(
        Broken{"resolution = \"5 um\"", "model = ^\"patch\"", "numerics.model",
               "\"patch\" is not available in this version; choose \"fast\" or \"line\""},
        Broken{"resolution = \"5 um\"", "grid = ^\"nestde\"", "numerics.grid",
               "unknown choice \"nestde\"; nearest is \"nested\""},
        Broken{"resolution = \"5 um\"", "cover_motion = ^\"movin\"", "numerics.cover_motion",
               "unknown choice \"movin\"; nearest is \"moving\""},
        Broken{"kind = \"belt\"", "kind = ^\"brsh\"", "station[0].kind", "nearest is \"brush\""}));

INSTANTIATE_TEST_SUITE_P(
    OfNumbersThatDoNotFitTogether, Message,
    testing::Values(
        Broken{"cover = \"15 mm\"", "cover = ^\"100 mm\"", "station[0].drum.cover",
               "100 mm is not thinner than the drum's radius, 100 mm"},
        Broken{"interference = \"0.5 mm\"", "interference = ^\"15 mm\"",
               "station[0].setting.interference", "15 mm is not less than the cover's thickness"},
        Broken{"interference = \"0.5 mm\"", "interference = \"0.5 mm\"\n^line_load = \"1 N/mm\"",
               "station[0].setting.line_load", "give interference or line_load, not both"},
        Broken{hardness, "hardness = \"20 Shore A\"\n^modulus = \"1 MPa\"",
               "station[0].drum.modulus", "give hardness or modulus, not both"},
        Broken{"[station.drum]\nradius = \"100 mm\"\ncover = \"15 mm\"\nhardness = \"20 Shore A\"",
               "^[station.drum]\nradius = \"100 mm\"\ncover = \"15 mm\"", "station[0].drum",
               "expected hardness, such as \"40 Shore A\", or modulus"},
        Broken{"[station.setting]\ninterference = \"0.5 mm\"", "^[station.setting]",
               "station[0].setting", "expected interference, such as \"0.5 mm\", or line_load"},
        Broken{"thickness = \"20 um\"", "thickness = \"20 um\"\n^mass_class = \"Z275\"",
               "part.coating.mass_class", "give thickness or mass_class, not both"},
        Broken{"size = \"6 mm\"", "size = ^\"300 mm\"", "part.feature[0].size",
               "300 mm is not smaller than the part's width, 300 mm"},
        Broken{"kind = \"hole\"\nsize = \"6 mm\"", "kind = \"slot\"\nsize = ^\"400 mm\"",
               "part.feature[0].size", "is not smaller than the part's length, 400 mm"},
        Broken{"root = \"0.14 mm\"", "root = ^\"7 mm\"", "part.feature[0].burr.root",
               "7 mm is not thinner than the hole itself, 6 mm"},
        // 0.15 mm x tan 60 deg = 0.2598 mm.
        Broken{"taper = \"5 deg\"", "taper = ^\"60 deg\"", "part.feature[0].burr.taper",
               "leans the inner flank by 0.2598 mm over the height; the root has only 0.14 mm"},
        Broken{"thickness = \"20 um\"", "thickness = ^\"0.8 mm\"", "part.coating.thickness",
               "is not thinner than half the part"},
        Broken{"name = \"hole-6\"", "name = ^\"hole:6\"", "part.feature[0].name",
               "must not contain \":\""}));

constexpr const char* relaxed = "relaxed = \"0.5 MPa\"";
constexpr const char* term_time = "time = \"0.3 ms\"";
constexpr const char* series =
    "[station.drum.relaxation]\nrelaxed = \"0.5 MPa\"\n#@ station.drum.relaxation\n"
    "[[station.drum.relaxation.terms]]\ntime = \"0.3 ms\"\nmodulus = \"0.2 MPa\"";
constexpr const char* density = "density = \"1100 kg/m3\"";

INSTANTIATE_TEST_SUITE_P(
    OfCovers, Message,
    testing::Values(
        Broken{"#@ station.drum\n[station.drum.relaxation]",
               "loss_factor = 0.1\n[station.drum.^relaxation]", "station[0].drum.relaxation",
               "give at most one of loss_factor, cover_material, relaxation"},
        Broken{term_time, "time = ^\"-0.3 ms\"", "station[0].drum.relaxation.terms[0].time",
               "\"-0.3 ms\" is negative"},
        Broken{term_time, "time = ^\"0 ms\"", "station[0].drum.relaxation.terms[0].time",
               "nothing at all"},
        Broken{term_time, "time = ^\"0.3 mm\"", "station[0].drum.relaxation.terms[0].time",
               "\"0.3 mm\" is a length; expected a time, such as \"0.3 ms\""},
        Broken{relaxed, "relaxed = ^\"0 MPa\"", "station[0].drum.relaxation.relaxed",
               "nothing at all"},
        Broken{series, "relaxation = { relaxed = \"2 MPa\", terms = ^[] }",
               "station[0].drum.relaxation.terms", "no terms; expected terms = [ { time = "},
        Broken{series, "relaxation = ^{ relaxed = \"2 MPa\" }", "station[0].drum.relaxation.terms",
               "missing; expected terms = [ { time = "},
        Broken{series, "relaxation = { relaxed = \"2 MPa\", terms = [ ^3 ] }",
               "station[0].drum.relaxation.terms[0]", "expected a table; got a whole number"},
        Broken{series, "relaxation = ^\"EPDM-70\"", "station[0].drum.relaxation",
               "expected a table"},
        Broken{series, "cover_material = ^\"EPDM-7\"", "station[0].drum.cover_material",
               "unknown cover \"EPDM-7\"; nearest is \"EPDM-70\" (known: EPDM-70, high-damping-A)"},
        Broken{series, "cover_material = ^70", "station[0].drum.cover_material",
               "expected a cover of the library, such as \"EPDM-70\"; got a whole number"},
        Broken{series, "loss_factor = 0.1\n^cover_material = \"EPDM-70\"",
               "station[0].drum.cover_material",
               "give at most one of loss_factor, cover_material, relaxation"},
        Broken{series, "cover_material = \"EPDM-70\"\ntemperature = ^\"60 degC\"",
               "station[0].drum.temperature",
               "60 degC is outside what was measured on EPDM-70; expected -10 degC to 53 degC"},
        Broken{density, "temperature = ^\"200 degC\"", "station[0].drum.temperature",
               "is out of range for a drum temperature; expected -10 degC to 120 degC"},
        Broken{density, "temperature = ^45", "station[0].drum.temperature",
               "45 has no unit; expected a temperature with its unit, such as \"45 degC\""},
        Broken{density, "thermal_expansion = ^\"2e-4\"", "station[0].drum.thermal_expansion",
               "expected a thermal expansion with its unit, such as \"2e-4 1/K\""},
        Broken{density, "land_ratio = ^1.5", "station[0].drum.land_ratio",
               "1.5 is out of range for a drum land ratio; expected 0.05 to 1"},
        Broken{"mass = \"0.9 kg/m2\"", "mass = ^\"0.9 kg\"", "station[0].belt.mass",
               "\"0.9 kg\" is a mass; expected a mass per area, such as \"1 kg/m2\""},
        Broken{"direction = \"with-feed\"", "frame_compliance = ^\"0.01 mm\"",
               "station[0].frame_compliance",
               "\"0.01 mm\" is a length; expected a give per line load, such as \"0.01 mm2/N\""},
        Broken{"direction = \"with-feed\"", "frame_compliance = ^\"-0.01 mm2/N\"",
               "station[0].frame_compliance", "is negative; expected 0 mm2/N to 1 mm2/N"}));

INSTANTIATE_TEST_SUITE_P(
    OfLimits, Message,
    testing::Values(
        Broken{"burr_height = \"<= 0.03 mm\"", "burr_height = ^\"0.03 mm\"", "accept.burr_height",
               "has no sign; expected a limit such as \"<= 0.03 mm\""},
        Broken{"burr_height = \"<= 0.03 mm\"", "burr_height = ^0.03", "accept.burr_height",
               "expected a limit, such as \"<= 0.03 mm\"; got a number"},
        Broken{"burr_height = \"<= 0.03 mm\"", "burr_height = ^\"< 0.03 mm\"", "accept.burr_height",
               "write \"<= ...\""},
        Broken{"burr_height = \"<= 0.03 mm\"", "burr_height = ^\"<= 0.03\"", "accept.burr_height",
               "has no unit"},
        Broken{"burr_height = \"<= 0.03 mm\"", "burr_height = ^\"<= 0,03 mm\"",
               "accept.burr_height", "write \"0.03 mm\""},
        Broken{"burr_height = \"<= 0.03 mm\"", "burr_height = ^\"<= 0.03 N\"", "accept.burr_height",
               "is a force; expected a length"},
        Broken{"burr_height = \"<= 0.03 mm\"", "edge_radius = ^\"0.4..0.15 mm\"",
               "accept.edge_radius", "the lower end is above the upper end"},
        Broken{"burr_height = \"<= 0.03 mm\"", "edge_radius = ^\"0.4.. mm\"", "accept.edge_radius",
               "does not start with a number"},
        Broken{"burr_height = \"<= 0.03 mm\"", "edge_radius = ^\"..0.4 mm\"", "accept.edge_radius",
               "half a range"},
        Broken{"burr_height = \"<= 0.03 mm\"", "edge_radius = ^\">= -1 mm\"", "accept.edge_radius",
               "is negative"},
        Broken{"burr_height = \"<= 0.03 mm\"", "^burr_hight = \"<= 0.03 mm\"", "accept.burr_hight",
               "nearest is \"burr_height\""},
        Broken{"kind = \"hole\"\ncoating_left = \">= 9 um\"",
               "kind = ^\"slot\"\ncoating_left = \">= 9 um\"", "accept.feature[0].kind",
               "no feature of the part fits"},
        Broken{"kind = \"hole\"\ncoating_left = \">= 9 um\"",
               "name = ^\"hole-7\"\ncoating_left = \">= 9 um\"", "accept.feature[0].name",
               "nearest is \"hole-6\""},
        Broken{"kind = \"hole\"\ncoating_left = \">= 9 um\"",
               "side = ^\"leading\"\ncoating_left = \">= 9 um\"", "accept.feature[0].side",
               "no feature of the part fits"},
        Broken{"coating_left = \">= 9 um\"\nbeyond = \"2 mm\"",
               "edge_drop = \"<= 0.1 mm\"\n^beyond = \"2 mm\"", "accept.feature[0].beyond",
               "is a distance for coating_left"},
        Broken{"[[accept.feature]]\nkind = \"hole\"\ncoating_left = \">= 9 um\"\nbeyond = \"2 mm\"",
               "^[[accept.feature]]\nkind = \"hole\"", "accept.feature[0]", "sets no limit"}));

TEST(Messages, HaveTheFormOfACompilersError) {
  EXPECT_EQ(to_string({"bracket.toml", 8, 57, "station[0].drum.hardness", "text"}),
            "bracket.toml:8:57: error: station[0].drum.hardness: text");
  EXPECT_EQ(to_string({"bracket.toml", 2, 12, "", "text"}), "bracket.toml:2:12: error: text");
  EXPECT_EQ(to_string({"bracket.toml", 0, 0, "", "text"}), "bracket.toml: error: text");
}

// What a user sees who forgot a unit, misspelt a key and named a grit without its grading.
TEST(Messages, OfThreeMistakesComeInOneGoInTheOrderOfTheLines) {
  std::string text = with(hardness, "hardness = 40");
  const auto replace = [&](const std::string& from, const std::string& to) {
    text.replace(text.find(from), from.size(), to);
  };
  replace("poisson = 0.47", "hardnes = \"40 Shore A\"");
  replace("grit = \"P120\"", "grit = \"240\"");
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 3U) << CaseError(problems).what();
  EXPECT_EQ(problems[0].key, "station[0].drum.hardness");
  EXPECT_EQ(problems[1].key, "station[0].drum.hardnes");
  EXPECT_EQ(problems[2].key, "station[0].belt.grit");
  EXPECT_LT(problems[0].line, problems[1].line);
  EXPECT_LT(problems[1].line, problems[2].line);
  EXPECT_THAT(problems[0].text, HasSubstr("expected a hardness with its unit"));
  EXPECT_THAT(problems[1].text, HasSubstr("nearest is \"hardness\""));
  EXPECT_THAT(problems[2].text, HasSubstr("P240 (P-scale, FEPA) or US 240 (US scale)?"));
}

TEST(Messages, NameEachRequiredKeyThatIsMissing) {
  const auto problems = problems_of("title = \"nothing else\"\n");
  ASSERT_EQ(problems.size(), 3U) << CaseError(problems).what();
  for (const char* key : {"part", "station", "conveyor"})
    EXPECT_THAT(problems, testing::Contains(testing::Field(&Problem::key, key)));
}

TEST(Messages, NameTheRequiredKeysOfASection) {
  const auto problems = problems_of("[part]\n[[station]]\n[conveyor]\n");
  for (const char* key :
       {"part.material", "part.thickness", "station[0].kind", "station[0].speed", "station[0].drum",
        "station[0].belt", "station[0].setting", "conveyor.speed"})
    EXPECT_THAT(problems, testing::Contains(testing::Field(&Problem::key, key)));
  EXPECT_EQ(problems.size(), 8U) << CaseError(problems).what();
}

TEST(Messages, DoNotAskAgainForAKeyThatWasMisspelt) {
  EXPECT_EQ(problems_of(with("radius = \"100 mm\"", "raduis = \"100 mm\"")).size(), 1U);
  EXPECT_EQ(problems_of(with("interference = \"0.5 mm\"", "interferance = \"0.5 mm\"")).size(), 1U);
}

TEST(Messages, TellWhenAFeatureNameIsTaken) {
  const auto marked = take_mark(
      with_added("part.feature", "[[part.feature]]\nname = ^\"hole-6\"\nkind = \"outer-edge\""));
  // The burr's own header follows and now belongs to the second feature.
  const auto problems = problems_of(marked.text);
  ASSERT_FALSE(problems.empty());
  EXPECT_EQ(problems[0].line, marked.line);
  EXPECT_EQ(problems[0].column, marked.column);
  EXPECT_EQ(problems[0].text, "\"hole-6\" is already the name of part.feature[0]");
}

TEST(Messages, WantASizeOfHolesAndSlotsAndRefuseItAtAnOuterEdge) {
  EXPECT_THAT(problems_of(with("size = \"6 mm\"", "")).at(0).text,
              HasSubstr("missing; expected the hole's diameter"));
  EXPECT_THAT(problems_of(with("kind = \"hole\"\nsize = \"6 mm\"",
                               "kind = \"outer-edge\"\nsize = \"6 mm\""))
                  .at(0)
                  .text,
              HasSubstr("an outer edge has no size"));
}

TEST(Messages, RefuseALineWithoutStations) {
  const std::string text =
      "station = []\n[part]\nmaterial = \"DX51D\"\nthickness = \"1.5 mm\"\n"
      "[conveyor]\nspeed = \"3 m/min\"\n";
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].line, 1);
  EXPECT_THAT(problems[0].text, HasSubstr("at least one [[station]]"));
}

TEST(Messages, AskForDoubleBracketsAroundAStation) {
  std::string text = whole_case();
  text.replace(text.find("[[station]]"), 11, "[station]");
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 1U) << CaseError(problems).what();
  EXPECT_THAT(problems[0].text, HasSubstr("write [[station]] with double brackets"));
}

TEST(Messages, WantABeltThatRunsFasterThanThePart) {
  std::string text = with("speed = \"8 m/s\"", "speed = \"0.1 m/s\"");
  text.replace(text.find("speed = \"1.6 m/min\""), 19, "speed = \"10 m/min\" ");
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 1U) << CaseError(problems).what();
  EXPECT_THAT(problems[0].text, HasSubstr("is not faster than the part, 10 m/min"));
}

TEST(Messages, OfBrokenTomlNameThePlaceAndTheUsualSlip) {
  const auto marked = take_mark("title = \"x\"\n[part]\nthickness = 1.5 ^mm\n");
  const auto problems = problems_of(marked.text);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].line, marked.line);
  EXPECT_EQ(problems[0].column, marked.column);
  EXPECT_EQ(problems[0].key, "");
  EXPECT_THAT(problems[0].text, HasSubstr("a number with its unit stands in quotes"));
  EXPECT_THAT(problems_of("thickness = 0,5\n").at(0).text, HasSubstr("decimals take a point"));
  EXPECT_EQ(problems_of("[part\n").size(), 1U);
  EXPECT_EQ(problems_of("a = 1\na = 2\n").size(), 1U);
}

TEST(Messages, SayWhyAFileCannotBeRead) {
  const auto text_of = [](const char* file) -> std::string {
    try {
      static_cast<void>(read(file));
    } catch (const CaseError& error) {
      return error.what();
    }
    return "";
  };
  EXPECT_EQ(text_of("/no/such/panel.toml"), "/no/such/panel.toml: error: no such file");
  EXPECT_THAT(text_of("/tmp"), HasSubstr("/tmp: error: is a folder"));
  EXPECT_THAT(text_of("/dev/null"), HasSubstr("is not a plain file"));
}

TEST(Messages, StayOnOneLineWhateverTheFileHolds) {
  const auto problems = problems_of(with(hardness, "hardness = \"40\\u001b[31m\\nmm\""));
  ASSERT_EQ(problems.size(), 1U);
  for (const char c : problems[0].text)
    EXPECT_GE(static_cast<unsigned char>(c), 0x20U);
}

TEST(Messages, SurviveDeepNesting) {
  std::string dots = "a";
  for (int i = 0; i < 100000; ++i)
    dots += ".a";
  EXPECT_EQ(problems_of(dots + " = 1\n").size(), 1U);
  EXPECT_EQ(problems_of("a = " + std::string(100000, '[')).size(), 1U);
  EXPECT_EQ(problems_of("a = " + std::string(100, '[') + std::string(100, ']')).size(), 1U);
}

}  // namespace
}  // namespace drumlin::cases
