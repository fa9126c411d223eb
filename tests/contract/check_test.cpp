#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/run_program.hpp"

/// What the program says of a part as it is before anything runs.
namespace drumlin {
namespace {

namespace fs = std::filesystem;
using support::Outcome;
using support::run_program;
using support::ScratchFolder;
using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

const std::string belt = R"([[station]]
kind = "belt"
drum = { radius = "100 mm", cover = "20 mm", hardness = "40 Shore A" }
belt = { grit = "P60", abrasive = "zirconia" }
setting = { interference = "0.5 mm" }
speed = "10 m/s"
)";
const std::string conveyor = "[conveyor]\nspeed = \"2 m/min\"\n";

/// A plate cut by plasma, with a bead of 1.0 mm along its leading edge.
std::string plate(const std::string& stations, const std::string& more = "") {
  return "title = \"Plate PL-8\"\n[part]\nmaterial = \"S355\"\nthickness = \"8 mm\"\n" + more +
         "[[part.feature]]\nname = \"edge\"\nkind = \"outer-edge\"\nside = \"leading\"\n"
         "burr = { kind = \"bead\", width = \"2.5 mm\", height = \"1.0 mm\" }\n" +
         stations + conveyor;
}

/// The words of a text, whatever lines they stand on.
std::string unwrapped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c != '\n' && c != ' ')
      out += c;
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
  }
  return out;
}

std::string check(const std::string& text, int code = 0) {
  const ScratchFolder scratch;
  const Outcome outcome = run_program({"check", scratch.file("plate.toml", text)});
  EXPECT_EQ(outcome.exit_code, code) << outcome.err;
  return unwrapped(code == 0 ? outcome.out : outcome.err);
}

// 8 mm plate, plasma bead of 1.0 mm: with a P60 belt alone a warning with limit, source and remedy;
// behind a knock-off station none.
TEST(CheckOfABead, WarnsBeforeRunningAndProposesAKnockOff) {
  const std::string alone = check(plate(belt));
  EXPECT_THAT(alone, AllOf(HasSubstr("the bead of 1 mm stands above what the belt of station[0] "
                                     "takes, 0.5 mm (backing X;"),
                           HasSubstr("common practice, no source"),
                           HasSubstr("put [[station]] kind = \"knock-off\" before station[0]")));
  const std::string struck = check(plate("[[station]]\nkind = \"knock-off\"\n" + belt));
  EXPECT_THAT(struck, Not(HasSubstr("stands above what the belt")));
  EXPECT_THAT(struck, AllOf(HasSubstr("Station 1: knock-off clearance 0.3 mm"),
                            HasSubstr("Station 2: belt")));
}

TEST(CheckOfABead, ShowsItsNumbersAndWhatSuchACutLooksLike) {
  EXPECT_THAT(
      check(plate(belt)),
      AllOf(HasSubstr("bead burr: width 2.5 mm, height 1 mm, specific energy 25 J/mm3, bond "
                      "strength 100 MPa"),
            // ISO 9013 range 2 at 8 mm: 0.15 + 0.007 x 8, 40 + 0.8 x 8.
            HasSubstr("range 2: flank out of square by up to 0.206 mm, profile height Rz5 "
                      "up to 46 µm")));
}

// Aluminium, then steel on one dry line: the caution comes before everything else, the rest of the
// cautions with their standing text at the end, and nothing is called safe.
TEST(CheckOfMixedMetals, CautionsBeforeAnythingElse) {
  const std::string out = check(plate(belt) + "[environment]\nother_metals = [\"5754\"]\n");
  EXPECT_EQ(out.find("Before anything else - Aluminium and steel on one line"), 0U) << out;
  EXPECT_THAT(out, AllOf(HasSubstr("must never meet in one dry collector"),
                         HasSubstr("Local law, fire and dust codes, the machine's manual and "
                                   "qualified people decide."),
                         Not(HasSubstr(" safe "))));
}

TEST(CheckOfOxide, SaysWhatABeltDoesNotReach) {
  EXPECT_THAT(check(plate(belt, "[part.coating]\noxide = \"15 um\"\n")),
              AllOf(HasSubstr("oxide on flanks 15.0 µm"), HasSubstr("coating none"),
                    HasSubstr("most of the flank keeps it, and paint comes off with it"),
                    HasSubstr("bond strength 20 MPa")));
}

TEST(CheckOfATurnedPart, SaysWhatBecomesOfItsEdges) {
  EXPECT_THAT(check(plate(belt, "angle = \"180 deg\"\nburr_side = \"down\"\n")),
              AllOf(HasSubstr("turned by 180 deg, the edges drawn as leading are fed as trailing"),
                    HasSubstr("burrs point down"),
                    HasSubstr("no station turns the part over: no tool meets them")));
}

TEST(CheckOfAWornDrum, SaysHowMuchInterferenceIsLost) {
  std::string worn = belt;
  worn.replace(worn.find("\"40 Shore A\""), 12, "\"40 Shore A\", wear = \"0.2 mm\"");
  worn.replace(worn.find("\"zirconia\""), 10, "\"zirconia\", thickness_change = \"0.05 mm\"");
  EXPECT_THAT(check(plate(worn)),
              HasSubstr("cover worn by 0.2 mm, belt thicker by 0.05 mm: 0.15 mm of interference "
                        "lost"));
}

// Refused before any physics: exit code 2, file, line, key, what was expected, nothing written.
TEST(RunOfWhatCannotBe, IsRefusedAndNothingIsWritten) {
  const ScratchFolder scratch;
  const std::string file =
      scratch.file("plate.toml", plate(belt) + "[accept]\nedge_radius = \">= 9 mm\"\n");
  const Outcome outcome = run_program({"run", file, "--out", scratch.at("out"), "--no-pictures"});
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_THAT(outcome.out, IsEmpty());
  EXPECT_THAT(outcome.err,
              HasSubstr("plate.toml:19:15: error: accept.edge_radius: \">= 9 mm\" asks for more "
                        "than there is metal for at any edge of the part; a radius up to 8 mm is "
                        "possible (the thickness)"));
  EXPECT_FALSE(fs::exists(scratch.path() / "out"));
}

TEST(RunOfWhatCannotBe, SaysWhatABrushLacks) {
  const std::string text = check(plate(belt + "[[station]]\nkind = \"brush\"\n"), 2);
  EXPECT_THAT(text, HasSubstr("station[1].penetration"));
  EXPECT_THAT(text, HasSubstr("station[1].speed"));
  EXPECT_THAT(text, HasSubstr("station[1].radius"));
  EXPECT_THAT(text, HasSubstr("expected filament = { material = \"steel\""));
}

}  // namespace
}  // namespace drumlin
