#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/run_program.hpp"
#include "tests/support/windows.hpp"

namespace drumlin::cases {
namespace {

using support::axis;
using support::factor;
using testing::AllOf;
using testing::HasSubstr;

const std::string gap = axis("station[0].setting.interference", "0.1 mm", "0.6 mm");
const std::string speed = axis("conveyor.speed", "0.8 m/min", "4 m/min");

std::string wrong_with(const std::string& rest) {
  try {
    static_cast<void>(support::window_of("panel-soft.toml", rest));
  } catch (const CaseError& error) {
    return error.what();
  }
  return "";
}

TEST(AWindowsStudy, HasExactlyTwoAxes) {
  EXPECT_EQ(wrong_with(gap + speed), "");
  EXPECT_THAT(wrong_with(gap), HasSubstr("one factor with from and to; a window is drawn over "
                                         "exactly two"));
  EXPECT_THAT(wrong_with(""), HasSubstr("no factor with from and to"));
  EXPECT_THAT(wrong_with(gap + speed + axis("part.thickness", "1 mm", "2 mm")),
              HasSubstr("3 factors with from and to"));
  EXPECT_THAT(wrong_with(gap + gap), HasSubstr("is varied already"));
}

TEST(AWindowsStudy, TakesNoWordsAndNoStepsForAnAxis) {
  EXPECT_THAT(wrong_with(gap + factor("environment.cooling", "values = [\"dry\", \"wet\"]")),
              AllOf(HasSubstr("study.toml:9:1: error: factor[1].values"),
                    HasSubstr("expected from and to")));
  EXPECT_THAT(wrong_with(gap + factor("environment.cooling", "from = \"dry\"\nto = \"wet\"")),
              HasSubstr("holds no number"));
  EXPECT_THAT(wrong_with(gap + factor("conveyor.passes", "from = 1\nto = 3\nsteps = 3")),
              HasSubstr("holds whole numbers; the two settings of a window move without steps"));
  EXPECT_THAT(wrong_with(gap + factor("conveyor.speed",
                                      "from = \"1 m/min\"\nto = \"4 m/min\"\nscale = \"log\"")),
              HasSubstr("axes of a window are linear"));
}

TEST(AWindowsStudy, StatesTheLegalRangeAndTheNearestKey) {
  EXPECT_THAT(wrong_with(speed + axis("station[0].drum.hardness", "2 Shore A", "50 Shore A")),
              AllOf(HasSubstr("\"2 Shore A\" is out of range"),
                    HasSubstr("expected 5 Shore A to 95 Shore A")));
  EXPECT_THAT(wrong_with(gap + axis("conveyor.sped", "1 m/min", "2 m/min")),
              HasSubstr("nearest is \"speed\""));
  EXPECT_THAT(wrong_with(gap + speed + "[window]\ncell = 8\n"), HasSubstr("nearest is \"cells\""));
  EXPECT_THAT(wrong_with("widow = 3\n" + gap + speed), HasSubstr("nearest is \"window\""));
  EXPECT_THAT(wrong_with(gap + speed + "[window]\ncells = 64\nevaluations = 500\n"),
              HasSubstr("takes 4225 evaluations"));
  EXPECT_THAT(wrong_with(gap + speed + "[window]\ncells = 128\nlevels = 8\n"),
              HasSubstr("at most 4096"));
  EXPECT_THAT(wrong_with(gap + speed + "[window]\ndraws = 2\n"), HasSubstr("draws"));
  EXPECT_THAT(wrong_with(gap + speed + "[[filter]]\nkeep = \"conveyor.speed < 2 m/min\"\n"),
              HasSubstr("a window leaves nothing out"));
}

TEST(AWindowsStudy, SaysWhatOfASweepItDoesNotUse) {
  const WindowStudy study =
      support::window_of("panel-soft.toml", "replicates = 2\n" + gap + speed +
                                                "steps = 5\n[design]\nkind = \"grid\"\n");
  EXPECT_THAT(study.unused, testing::ElementsAre(HasSubstr("design:"), HasSubstr("replicates:"),
                                                 HasSubstr("factor[1].steps:")));
}

TEST(AWindow, OfACaseWithoutLimitsIsRefused) {
  const support::ScratchFolder scratch;
  std::string text = support::read_file(support::examples() + "panel-soft.toml");
  text.erase(text.find("[accept]"));
  static_cast<void>(scratch.file("bare.toml", text));
  const std::string study = scratch.file("w.toml", "case = \"bare.toml\"\n" + gap + speed);
  const auto run = support::run_program({"window", study, "--out", scratch.at("out")});
  EXPECT_EQ(run.exit_code, 2);
  EXPECT_THAT(run.err, AllOf(HasSubstr("w.toml:1:8: error: case:"), HasSubstr("sets no limits")));
  EXPECT_FALSE(std::filesystem::exists(scratch.at("out")));
}

TEST(AWindow, ThatCannotBeReadWritesNothing) {
  const support::ScratchFolder scratch;
  const std::string study =
      scratch.file("w.toml", "case = \"" + support::examples() + "panel-soft.toml\"\n" + gap);
  const auto run = support::run_program({"window", study, "--out", scratch.at("out")});
  EXPECT_EQ(run.exit_code, 2);
  EXPECT_EQ(run.out, "");
  EXPECT_FALSE(std::filesystem::exists(scratch.at("out")));
  EXPECT_EQ(support::run_program({"window", study}).exit_code, 2) << "no --out";
  EXPECT_EQ(support::run_program({"window", study, "--out", "x", "--threads", "0"}).exit_code, 2);
}

}  // namespace
}  // namespace drumlin::cases
