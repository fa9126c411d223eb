#include "sim/app/exit_codes.hpp"

#include <chrono>
#include <csignal>
#include <filesystem>
#include <regex>
#include <sstream>
#include <thread>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/app/commands.hpp"
#include "sim/numerics/error.hpp"
#include "tests/support/places.hpp"
#include "tests/support/run_program.hpp"
#include "tests/support/small_cases.hpp"

namespace drumlin {
namespace {

namespace fs = std::filesystem;
using support::Outcome;
using support::run_program;
using support::ScratchFolder;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::StartsWith;

std::vector<std::string> run_of(const std::string& file, const std::string& out,
                                const std::vector<std::string>& more = {}) {
  std::vector<std::string> words{"run", file, "--out", out, "--no-pictures"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

// The whole content of a scratch folder by name, to see that nothing came and nothing went.
std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    names.push_back(entry.path().lexically_relative(folder).generic_string());
  return names;
}

// The one value of a run that may differ: "wall_s" in summary.json.
std::map<std::string, std::string> files_without_wall_time(const fs::path& folder) {
  auto files = support::files_of(folder);
  std::string& summary = files.at("summary.json");
  summary = std::regex_replace(summary, std::regex("\"wall_s\": *[^,}\\s]+"), "\"wall_s\": 0");
  return files;
}

TEST(ExitCode, IsZeroForARunAndItsFolderIsThere) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("plate.toml", support::plate_case());
  const Outcome outcome = run_program(run_of(file, scratch.at("out")));
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_THAT(outcome.err, IsEmpty());
  EXPECT_TRUE(fs::exists(scratch.path() / "out" / "summary.json"));
  EXPECT_TRUE(fs::exists(scratch.path() / "out" / "results.h5"));
}

TEST(ExitCode, IsOneOnlyForAnUnacceptedRunWithStrict) {
  const ScratchFolder scratch;
  // No pass adds zinc: 14 um cannot become 100 um. Nor can it take away more than there is.
  const std::string never =
      scratch.file("never.toml", support::plate_case("coating_left = \">= 100 um\""));
  const std::string always =
      scratch.file("always.toml", support::plate_case("coating_left = \">= 0 um\""));
  EXPECT_EQ(run_program(run_of(never, scratch.at("lax"))).exit_code, 0);
  const Outcome strict = run_program(run_of(never, scratch.at("strict"), {"--strict"}));
  EXPECT_EQ(strict.exit_code, 1) << strict.err;
  EXPECT_THAT(strict.out, HasSubstr("not accepted"));
  EXPECT_TRUE(fs::exists(scratch.path() / "strict" / "summary.json"));
  const Outcome kept = run_program(run_of(always, scratch.at("kept"), {"--strict"}));
  EXPECT_EQ(kept.exit_code, 0) << kept.out;
}

TEST(ExitCode, IsTwoForABadCaseAndNothingIsWritten) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("bad.toml", support::case_with_three_mistakes());
  const Outcome outcome = run_program(run_of(file, scratch.at("out")));
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_THAT(outcome.out, IsEmpty());
  EXPECT_THAT(outcome.err, HasSubstr("bad.toml:"));
  EXPECT_THAT(outcome.err, HasSubstr("\"hardness\""));
  EXPECT_EQ(names_in(scratch.path()), std::vector<std::string>{"bad.toml"});
}

TEST(ExitCode, IsTwoForABeltSpeedThatNoCoverFollowsAndNothingIsWritten) {
  const ScratchFolder scratch;
  std::string text = support::plate_case();
  text.replace(text.find("\"8 m/s\""), 7, "\"60 m/s\"");
  const std::string file = scratch.file("fast.toml", text);
  for (const auto& words : {run_of(file, scratch.at("out")), {"check", file}}) {
    const Outcome outcome = run_program(words);
    EXPECT_EQ(outcome.exit_code, 2);
    EXPECT_THAT(outcome.out, IsEmpty());
    EXPECT_THAT(outcome.err, HasSubstr("error: station[0].speed: 60 m/s is faster than waves run"));
    EXPECT_THAT(outcome.err, HasSubstr("nearest speed that would do"));
  }
  EXPECT_EQ(names_in(scratch.path()), std::vector<std::string>{"fast.toml"});
}

TEST(ExitCode, IsTwoForACaseFileThatIsNotThere) {
  const ScratchFolder scratch;
  const Outcome outcome = run_program(run_of(scratch.at("nowhere.toml"), scratch.at("out")));
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_THAT(outcome.err, HasSubstr("nowhere.toml"));
  EXPECT_THAT(names_in(scratch.path()), IsEmpty());
}

TEST(ExitCode, IsTwoForAFolderThatIsThereAndTheFolderIsUntouched) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("plate.toml", support::plate_case());
  fs::create_directory(scratch.path() / "out");
  static_cast<void>(scratch.file("out/mine.txt", "mine"));
  const Outcome outcome = run_program(run_of(file, scratch.at("out")));
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_THAT(outcome.err, HasSubstr("--overwrite"));
  EXPECT_EQ(support::files_of(scratch.path() / "out"),
            (std::map<std::string, std::string>{{"mine.txt", "mine"}}));
}

TEST(ExitCode, IsTwoForAFolderThatCannotBeMade) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("plate.toml", support::plate_case());
  // Below a file there is no place for a folder, not even for root.
  const Outcome outcome = run_program(run_of(file, file + "/out"));
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_THAT(outcome.err, StartsWith("error: "));
  EXPECT_EQ(names_in(scratch.path()), std::vector<std::string>{"plate.toml"});
}

TEST(ExitCode, IsTwoForMistypedFlagsAndCommandsAndTheNearestIsNamed) {
  const Outcome command = run_program({"chekc", "a.toml"});
  EXPECT_EQ(command.exit_code, 2);
  EXPECT_THAT(command.err, HasSubstr("nearest is \"check\""));
  const Outcome flag = run_program({"run", "a.toml", "--out", "b", "--overwirte"});
  EXPECT_EQ(flag.exit_code, 2);
  EXPECT_THAT(flag.err, HasSubstr("nearest is \"--overwrite\""));
  const Outcome no_out = run_program({"run", "a.toml"});
  EXPECT_EQ(no_out.exit_code, 2);
  EXPECT_THAT(no_out.err, HasSubstr("--out"));
  EXPECT_EQ(run_program({}).exit_code, 2);
}

// No case is known whose contact problem fails; the mapping is what can be shown.
TEST(ExitCode, IsThreeForAFailureOfTheNumbers) {
  std::ostringstream errors;
  const auto fails = []() -> int { throw sim::NumericsError("station 1, step 7: residual 1 um"); };
  EXPECT_EQ(app::guarded(fails, errors), 3);
  EXPECT_THAT(errors.str(), HasSubstr("station 1, step 7"));
}

TEST(ExitCode, IsTwoForInputErrorsAndThreeForOurOwn) {
  std::ostringstream errors;
  EXPECT_EQ(app::guarded([]() -> int { throw app::InputError("the folder"); }, errors), 2);
  EXPECT_EQ(app::guarded([]() -> int { throw std::logic_error("ours"); }, errors), 3);
  EXPECT_EQ(app::guarded([]() -> int { throw sim::Stopped(); }, errors), 130);
  EXPECT_EQ(app::guarded([] { return 1; }, errors), 1);
}

TEST(ExitCode, IsHundredAndThirtyAfterCtrlCAndNothingIsWritten) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("long.toml", support::long_case());
  support::RunningProgram program(run_of(file, scratch.at("out")));
  // Late enough to be past the start, early against the minutes that the run would take.
  std::this_thread::sleep_for(std::chrono::milliseconds(1500));
  program.send(SIGINT);
  const Outcome outcome = program.wait();
  EXPECT_EQ(outcome.exit_code, 130) << outcome.err;
  EXPECT_THAT(outcome.err, HasSubstr("stopped"));
  EXPECT_EQ(names_in(scratch.path()), std::vector<std::string>{"long.toml"});
}

TEST(Overwrite, ReplacesTheOlderFolderAsAWhole) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("plate.toml", support::plate_case());
  ASSERT_EQ(run_program(run_of(file, scratch.at("out"))).exit_code, 0);
  static_cast<void>(scratch.file("out/pass/old.txt", "from an older run"));
  const Outcome outcome = run_program(run_of(file, scratch.at("out"), {"--overwrite"}));
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_FALSE(fs::exists(scratch.path() / "out" / "pass" / "old.txt"));
  EXPECT_TRUE(fs::exists(scratch.path() / "out" / "summary.json"));
}

// Notes that somebody keeps beside the results are not ours to delete.
TEST(Overwrite, RefusesAFolderThatHoldsSomethingElse) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("plate.toml", support::plate_case());
  ASSERT_EQ(run_program(run_of(file, scratch.at("out"))).exit_code, 0);
  static_cast<void>(scratch.file("out/notes.txt", "measured by hand"));
  const Outcome outcome = run_program(run_of(file, scratch.at("out"), {"--overwrite"}));
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_NE(outcome.err.find("notes.txt"), std::string::npos) << outcome.err;
  EXPECT_TRUE(fs::exists(scratch.path() / "out" / "notes.txt"));
}

TEST(SameCase, GivesTheSameBytesAloneAndBesideAnotherRun) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("hole.toml", support::hole_case());
  ASSERT_EQ(run_program(run_of(file, scratch.at("alone"))).exit_code, 0);
  support::RunningProgram first(run_of(file, scratch.at("first")));
  support::RunningProgram second(run_of(file, scratch.at("second")));
  ASSERT_EQ(first.wait().exit_code, 0);
  ASSERT_EQ(second.wait().exit_code, 0);
  const auto alone = files_without_wall_time(scratch.path() / "alone");
  EXPECT_EQ(alone, files_without_wall_time(scratch.path() / "first"));
  EXPECT_EQ(alone, files_without_wall_time(scratch.path() / "second"));
}

TEST(Output, HasNoColourAndNoProgressWhereNoTerminalReads) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("plate.toml", support::plate_case());
  const Outcome outcome = run_program(run_of(file, scratch.at("out")));
  EXPECT_THAT(outcome.out, Not(HasSubstr("\x1b")));
  EXPECT_THAT(outcome.out, Not(IsEmpty()));
  EXPECT_THAT(outcome.err, IsEmpty());
}

TEST(Output, IsEmptyWithQuiet) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("plate.toml", support::plate_case());
  const Outcome outcome = run_program(run_of(file, scratch.at("out"), {"--quiet"}));
  EXPECT_EQ(outcome.exit_code, 0);
  EXPECT_THAT(outcome.out + outcome.err, IsEmpty());
}

TEST(Output, OfVersionAndHelpGoesToStdout) {
  const Outcome version = run_program({"--version"});
  EXPECT_EQ(version.exit_code, 0);
  EXPECT_THAT(version.out, ::testing::MatchesRegex("drumlin [0-9]+\\.[0-9]+\\.[0-9]+\n"));
  for (const auto& words : std::vector<std::vector<std::string>>{{"--help"}, {"run", "--help"}}) {
    const Outcome help = run_program(words);
    EXPECT_EQ(help.exit_code, 0);
    EXPECT_THAT(help.out, HasSubstr("drumlin"));
    EXPECT_THAT(help.err, IsEmpty());
  }
}

TEST(Check, ShowsTheCaseAndWritesNothing) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("hole.toml", support::hole_case());
  const Outcome outcome = run_program({"check", file});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  // 20 Shore A after Gent: 0.0981 (56 + 7.62336 * 20) / (0.137505 (254 - 2.54 * 20)) = 0.732 MPa.
  EXPECT_THAT(outcome.out, HasSubstr("0.732 MPa from 20 Shore A"));
  // Z200, half on each face: 100 g/m2 / 7.14 g/cm3 = 14.0 um.
  EXPECT_THAT(outcome.out, HasSubstr("14.0 µm"));
  EXPECT_THAT(outcome.out, HasSubstr("safety assessment"));
  EXPECT_EQ(names_in(scratch.path()), std::vector<std::string>{"hole.toml"});
}

TEST(Check, UnderstandsTheCaseOfTheReadme) {
  const std::string readme = support::read_file(fs::path(support::in_tree("README.md")));
  const std::string fence = "```toml\n";
  const std::size_t begin = readme.find(fence);
  ASSERT_NE(begin, std::string::npos);
  const std::size_t end = readme.find("```", begin + fence.size());
  const ScratchFolder scratch;
  const std::string file =
      scratch.file("readme.toml", readme.substr(begin + fence.size(), end - begin - fence.size()));
  const Outcome outcome = run_program({"check", file});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
}

TEST(Check, NamesEveryMistakeInOneGoWithItsPlace) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("bad.toml", support::case_with_three_mistakes());
  const Outcome outcome = run_program({"check", file});
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_THAT(outcome.out, IsEmpty());
  EXPECT_THAT(outcome.err, ::testing::ContainsRegex("bad.toml:[0-9]+:[0-9]+: error: .*hardnes"));
  EXPECT_THAT(outcome.err, ::testing::ContainsRegex("bad.toml:[0-9]+:[0-9]+: error: .*grit"));
  EXPECT_THAT(outcome.err, ::testing::ContainsRegex("bad.toml:[0-9]+:[0-9]+: error: .*hardness"));
}

TEST(Materials, ListsTheLibraryAndRefusesUnknownNamesWithTheNearest) {
  const Outcome all = run_program({"materials"});
  EXPECT_EQ(all.exit_code, 0) << all.err;
  for (const char* name : {"DX51D", "DC01", "S235", "S355", "1.4301", "5754", "zinc", "alumina",
                           "zirconia", "ceramic", "silicon-carbide", "EPDM-70", "high-damping-A"})
    EXPECT_THAT(all.out, HasSubstr(name));
  const Outcome one = run_program({"materials", "DX51D"});
  EXPECT_EQ(one.exit_code, 0) << one.err;
  EXPECT_THAT(one.out, HasSubstr("MPa"));
  EXPECT_THAT(one.out, HasSubstr("source"));
  const Outcome slag = run_program({"materials", "slag"});
  EXPECT_THAT(slag.out, HasSubstr("bond to the edge"));
  const Outcome grit = run_program({"materials", "P80"});
  EXPECT_THAT(grit.out, HasSubstr("spacing of grains"));
  EXPECT_THAT(grit.out, HasSubstr("highest bead"));
  const Outcome cover = run_program({"materials", "EPDM-70"});
  EXPECT_THAT(cover.out, HasSubstr("2.1 times at 1 kHz"));
  EXPECT_THAT(cover.out, HasSubstr("beware"));
  const Outcome none = run_program({"materials", "DX15D"});
  EXPECT_EQ(none.exit_code, 2);
  EXPECT_THAT(none.err, HasSubstr("DX51D"));
}

}  // namespace
}  // namespace drumlin
