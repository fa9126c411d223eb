#include <regex>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/run_program.hpp"

/// The lesson page from outside.
namespace drumlin {
namespace {

using support::run_program;
using support::ScratchFolder;
using testing::HasSubstr;
using testing::Not;

std::string plain_case(const std::string& station) {
  return R"(title = "Plate <b>PL-7</b> & \"co\""
[part]
material = "DC01"
thickness = "1.5 mm"
)" + station +
         R"([conveyor]
speed = "2 m/min"
)";
}

const char* const belt = R"([[station]]
kind = "belt"
drum = { radius = "100 mm", cover = "15 mm", hardness = "40 Shore A", speed_limit = "15 m/s" }
belt = { grit = "P120", abrasive = "alumina" }
setting = { line_load = "0.5 N/mm" }
speed = "12 m/s"
)";

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t found = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
    ++found;
  return found;
}

TEST(Lesson, WithoutABeltIsRefusedInOneSentenceAndWritesNothing) {
  const ScratchFolder scratch;
  const std::string file = scratch.file(
      "flip.toml", plain_case("[[station]]\nkind = \"knock-off\"\nclearance = \"0.2 mm\"\n"));
  const auto outcome = run_program({"lesson", file, "--out", scratch.at("page.html")});
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_THAT(outcome.err, HasSubstr("kind \"belt\""));
  EXPECT_FALSE(std::filesystem::exists(scratch.at("page.html")));
}

TEST(Lesson, RefusesAPlaceThatItCannotWriteBeforeItComputes) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("plate.toml", plain_case(belt));
  const std::string kept = scratch.file("kept.html", "mine");
  EXPECT_EQ(run_program({"lesson", file, "--out", kept}).exit_code, 2);
  EXPECT_EQ(support::read_file(kept), "mine");
  EXPECT_EQ(run_program({"lesson", file, "--out", scratch.at("no/page.html")}).exit_code, 2);
}

// No burr, no coating, a title full of tags, a drum with a speed mark: all that a page must take.
TEST(Lesson, AdaptsToABarePlateAndEscapesItsText) {
  const ScratchFolder scratch;
  const std::string file = scratch.file("plate.toml", plain_case(belt));
  const std::string out = scratch.at("page.html");
  const auto outcome = run_program({"lesson", file, "--out", out, "--answers", "--quiet"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_EQ(outcome.out, "");
  const std::string page = support::read_file(out);
  EXPECT_LT(page.size(), 1500000U);
  EXPECT_THAT(page, Not(HasSubstr("<b>PL-7</b>")));
  EXPECT_THAT(page, HasSubstr("&lt;b&gt;PL-7&lt;/b&gt; &amp; &quot;co&quot;"));
  EXPECT_THAT(page, HasSubstr("Content-Security-Policy"));
  EXPECT_THAT(page, Not(HasSubstr("eval(")));
  EXPECT_THAT(page, Not(HasSubstr("localStorage")));
  // The name of SVG's namespace is the only address, and nobody asks it for anything.
  EXPECT_EQ(count(page, "http://"), count(page, "http://www.w3.org/2000/svg"));
  EXPECT_EQ(count(page, "https://"), 0U);
  EXPECT_THAT(page, HasSubstr("Trainer's copy, with answers"));
  EXPECT_THAT(page, Not(HasSubstr("id=\"value-burr_left\"")));
  EXPECT_THAT(page, Not(HasSubstr("id=\"value-coating_left\"")));
  EXPECT_THAT(page, HasSubstr("never run it"));  // above the drum's mark
  // Scripts off: tables, answers in folds, cautions.
  EXPECT_THAT(page, HasSubstr("<caption>Set by interference</caption>"));
  EXPECT_THAT(page, HasSubstr("<caption>Set by line load</caption>"));
  EXPECT_EQ(count(page, "Answer, from this case"), 5U);
  EXPECT_THAT(page, HasSubstr("A process estimate, not a safety assessment."));
  EXPECT_TRUE(std::regex_search(page, std::regex("SHA-256 [0-9a-f]{64}")));
  EXPECT_THAT(page, Not(testing::ContainsRegex("[Bb]urr-free|[Oo]ptimal|[Pp]erfect|guarante")));
}

}  // namespace
}  // namespace drumlin
