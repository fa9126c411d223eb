#include <algorithm>
#include <regex>

#include <gtest/gtest.h>

#include "sim/app/summary_text.hpp"
#include "tests/support/run_program.hpp"
#include "tests/support/sample_result.hpp"
#include "tests/support/small_cases.hpp"
#include "viz/report.hpp"

namespace drumlin {
namespace {

using support::run_program;

// Claims that no simulation can make. "safety" is not a claim and stays allowed.
std::string claim_in(const std::string& text) {
  static const std::regex claims(
      "burr[- ]?free|\\bperfect(ly)?\\b|\\boptimal(ly)?\\b|\\bguarante|\\bsafe(ly)?\\b|digital "
      "twin",
      std::regex::icase);
  std::smatch match;
  if (!std::regex_search(text, match, claims)) return "";
  const std::string before = match.prefix().str();
  return before.substr(before.size() - std::min<std::size_t>(before.size(), 60)) + match.str();
}

TEST(Words, OfClaimsAreFound) {
  EXPECT_NE(claim_in("the part is burr-free"), "");
  EXPECT_NE(claim_in("The settings are Safe."), "");
  EXPECT_EQ(claim_in("not a safety assessment"), "");
}

TEST(Words, OfClaimsAreInNothingThatTheProgramSays) {
  EXPECT_EQ(claim_in(run_program({"--help"}).out), "");
  EXPECT_EQ(claim_in(run_program({"run", "--help"}).out), "");
  EXPECT_EQ(claim_in(run_program({"materials"}).out), "");
  EXPECT_EQ(claim_in(run_program({"report", "--help"}).out), "");
  EXPECT_EQ(claim_in(app::summary_text(support::sample_result(), {})), "");
  EXPECT_EQ(claim_in(viz::report_html(support::sample_result())), "");
}

TEST(Words, OfClaimsAreInNoFileOfARun) {
  const support::ScratchFolder scratch;
  const std::string file = scratch.file("hole.toml", support::hole_case());
  const auto outcome = run_program({"run", file, "--out", scratch.at("out"), "--no-pictures"});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_EQ(claim_in(outcome.out), "");
  EXPECT_EQ(claim_in(run_program({"check", file}).out), "");
  const auto files = support::files_of(scratch.path() / "out");
  ASSERT_TRUE(files.contains("report.html"));
  for (const auto& [name, content] : files) {
    if (name.ends_with(".json") || name.ends_with(".pvd") || name.ends_with(".html")) {
      EXPECT_EQ(claim_in(content), "") << name;
    }
  }
}

}  // namespace
}  // namespace drumlin
