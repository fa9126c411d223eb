#include <cstdio>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/app/commands.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/text.hpp"

namespace drumlin::app {
namespace {

using ::testing::HasSubstr;

Command parsed(const std::vector<std::string>& words) {
  std::vector<const char*> argv{"drumlin"};
  for (const std::string& word : words)
    argv.push_back(word.c_str());
  return parse_command_line(static_cast<int>(argv.size()), argv.data());
}

TEST(CommandLine, GivesARunWithItsFlags) {
  const Command command = parsed(
      {"run", "a.toml", "--out", "b", "--overwrite", "--strict", "--no-pictures", "--quiet"});
  const auto* run = std::get_if<RunCommand>(&command);
  ASSERT_NE(run, nullptr);
  EXPECT_EQ(run->case_file, "a.toml");
  EXPECT_EQ(run->out, "b");
  EXPECT_TRUE(run->overwrite && run->strict && run->quiet);
  EXPECT_FALSE(run->pictures);
}

TEST(CommandLine, LeavesFlagsOffThatAreNotGiven) {
  const Command command = parsed({"run", "--out", "b", "a.toml"});
  const auto* run = std::get_if<RunCommand>(&command);
  ASSERT_NE(run, nullptr);
  EXPECT_FALSE(run->overwrite || run->strict || run->quiet);
  EXPECT_TRUE(run->pictures);
}

TEST(CommandLine, TellsMaterialsWithAndWithoutAName) {
  const Command all = parsed({"materials"});
  const Command one = parsed({"materials", "DX51D"});
  ASSERT_TRUE(std::holds_alternative<MaterialsCommand>(all));
  ASSERT_TRUE(std::holds_alternative<MaterialsCommand>(one));
  EXPECT_FALSE(std::get<MaterialsCommand>(all).name.has_value());
  EXPECT_EQ(std::get<MaterialsCommand>(one).name, "DX51D");
}

TEST(CommandLine, SuggestsRunForABareCaseFile) {
  const Command command = parsed({"a.toml"});
  const auto* answer = std::get_if<AnswerOnly>(&command);
  ASSERT_NE(answer, nullptr);
  EXPECT_EQ(answer->exit_code, 2);
  EXPECT_THAT(answer->text, HasSubstr("drumlin run a.toml --out DIR"));
}

TEST(CommandLine, NamesTheMistypedFlagAndNotOnlyTheMissingOne) {
  const Command command = parsed({"run", "a.toml", "--uot=b"});
  const auto* answer = std::get_if<AnswerOnly>(&command);
  ASSERT_NE(answer, nullptr);
  EXPECT_EQ(answer->exit_code, 2);
  EXPECT_THAT(answer->text, HasSubstr("unknown flag \"--uot\"; nearest is \"--out\""));
}

TEST(Text, WrapsAtBlanksAndIndentsLikeTheFirstLine) {
  EXPECT_EQ(wrapped("one two three", "- ", {.colour = false, .width = 9}), "- one two\n  three\n");
}

TEST(Text, LeavesAWordThatIsTooLongWhole) {
  EXPECT_EQ(wrapped("a bbbbbbbb", "", {.colour = false, .width = 4}), "a\nbbbbbbbb\n");
}

TEST(Text, CountsColumnsNotBytes) {
  EXPECT_EQ(columns("12 µm"), 5U);
  EXPECT_EQ(columns("\x1b[31mred\x1b[0m"), 3U);
}

TEST(Text, RoundsWithoutAMinusZero) {
  EXPECT_EQ(fixed(-0.04, 1), "0.0");
  EXPECT_EQ(fixed(-0.06, 1), "-0.1");
  EXPECT_EQ(fixed(3.25, 2), "3.25");
}

TEST(Text, KeepsSignificantDigits) {
  EXPECT_EQ(significant(0.0123456, 3), "0.0123");
  EXPECT_EQ(significant(123.456, 3), "123");
  EXPECT_EQ(significant(1.5, 3), "1.50");
  EXPECT_EQ(significant(4e-5, 2), "4.0e-05");
  EXPECT_EQ(significant(0, 2), "0.0");
}

TEST(Text, LeavesOffZerosWhereBriefIsAskedFor) {
  EXPECT_EQ(brief(1.5, 4), "1.5");
  EXPECT_EQ(brief(400, 4), "400");
  EXPECT_EQ(brief(0, 3), "0");
  EXPECT_EQ(brief(0.07, 3), "0.07");
}

TEST(Text, SplitsATableThatIsTooWideAndRepeatsItsFirstColumn) {
  const Table table{{{"edge", "aaaa", "bbbb"}}, {{"rim", "1", "2"}}};
  // 2 + 4 for the first column, 2 + 4 for each other: 12 hold one, 18 would hold both.
  EXPECT_EQ(to_text(table, {.colour = false, .width = 12}),
            "  edge  aaaa\n  rim      1\n  edge  bbbb\n  rim      2\n");
  EXPECT_EQ(to_text(table, {.colour = false, .width = 18}),
            "  edge  aaaa  bbbb\n  rim      1     2\n");
}

TEST(Progress, LineHoldsShareAndTaskAndFitsItsWidth) {
  EXPECT_THAT(progress_line(0.5, "hole-6", 79), HasSubstr(" 50 %  hole-6"));
  EXPECT_THAT(progress_line(2.0, "", 79), HasSubstr("100 %"));
  EXPECT_LE(columns(progress_line(0.5, std::string(200, 'x'), 79)), 79U);
}

TEST(Progress, WritesNothingWhereNobodyWatches) {
  std::FILE* file = std::tmpfile();
  ASSERT_NE(file, nullptr);
  {
    ProgressLine line(file, false);
    line.show(0.5, "hole-6");
  }
  EXPECT_EQ(std::ftell(file), 0);
  std::fclose(file);
}

}  // namespace
}  // namespace drumlin::app
