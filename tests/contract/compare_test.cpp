#include "sim/compare.hpp"

#include <filesystem>
#include <string>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "sim/run.hpp"
#include "tests/support/run_program.hpp"

/// Two drums on one part, as a class or a process developer sets them side by side.
namespace drumlin {
namespace {

using support::read_file;
using support::run_program;
using support::ScratchFolder;
using testing::HasSubstr;
using testing::Not;

std::string tray(const std::string& hardness, const std::string& setting,
                 const std::string& title = "Tray TR-8", const std::string& model = "line") {
  return fmt::format(R"(title = "{}"
[part]
material = "DX51D"
thickness = "1.5 mm"
thickness_tolerance = "0.07 mm"
[part.coating]
material = "zinc"
mass_class = "Z275"
[[part.feature]]
name = "rim"
kind = "hole"
size = "8 mm"
side = "trailing"
burr = {{ kind = "wall", height = "0.12 mm", root = "0.12 mm" }}
[[station]]
kind = "belt"
drum = {{ radius = "120 mm", cover = "20 mm", hardness = "{}" }}
belt = {{ grit = "P120", abrasive = "alumina", removal_coefficient = "4e-5 1/MPa", threshold_pressure = "0 MPa" }}
setting = {{ {} }}
speed = "8 m/s"
[conveyor]
speed = "2 m/min"
[accept]
coating_left = ">= 8 um"
[numerics]
model = "{}"
)",
                     title, hardness, setting, model);
}

sim::Comparison compared(const std::string& setting) {
  std::vector<sim::CaseFacts> facts;
  for (const char* hardness : {"25 Shore A", "75 Shore A"}) {
    const sim::Setup setup = sim::set_up(cases::parse(tray(hardness, setting), "tray.toml"));
    facts.push_back(sim::facts_of(setup, sim::run(setup), facts.empty() ? 'A' : 'B'));
  }
  return sim::compare(std::move(facts));
}

TEST(Compare, AtOneInterferenceTheHardDrumRemovesFarMore) {
  const sim::Comparison found = compared("interference = \"0.4 mm\"");
  EXPECT_THAT(found.held, testing::Contains("interference 0.4 mm"));
  const auto& [soft, hard] = std::tie(found.cases[0], found.cases[1]);
  EXPECT_GT(hard.removal->value, 4 * soft.removal->value);
  // The law itself: loss in proportion to the working line load, each found on its own way.
  EXPECT_NEAR(hard.removal->value / soft.removal->value,
              *hard.working_line_load / *soft.working_line_load, 0.01 * 10);
  EXPECT_THAT(found.usual_story, HasSubstr("holds here"));
}

TEST(Compare, AtOneLineLoadTheFaceIsEqualAndTheSlopeIsNot) {
  const sim::Comparison found = compared("line_load = \"0.5 N/mm\"");
  const auto& [soft, hard] = std::tie(found.cases[0], found.cases[1]);
  EXPECT_NEAR(hard.removal->value / soft.removal->value, 1, 0.02);
  EXPECT_GE(*hard.slope, 3 * *soft.slope);
  EXPECT_GT(soft.edge_drop->value, hard.edge_drop->value) << "the soft one rounds the edge more";
  EXPECT_THAT(found.held, testing::Contains(HasSubstr("working line load 0.5 N/mm")));
  EXPECT_THAT(found.usual_story, HasSubstr("does not hold as it is told"));
}

TEST(Compare, WritesOnePageWithQuestionsPicturesAndTheHashOfEveryCase) {
  const ScratchFolder scratch;
  const auto a = scratch.file("a.toml", tray("25 Shore A", "interference = \"0.3 mm\""));
  const auto b = scratch.file("b.toml", tray("75 Shore A", "interference = \"0.3 mm\""));
  const auto outcome = run_program({"compare", a, b, "--out", scratch.at("page.html")});
  ASSERT_EQ(outcome.exit_code, 0) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("station[0].drum.hardness: A 25 Shore A, B 75 Shore A"));
  EXPECT_THAT(outcome.out, HasSubstr("Why"));
  const std::string page = read_file(scratch.at("page.html"));
  EXPECT_THAT(page, HasSubstr("Guess first"));
  EXPECT_THAT(page, HasSubstr("<strong>Held equal:</strong> interference 0.3 mm"));
  EXPECT_THAT(page, HasSubstr("heights drawn"));
  EXPECT_THAT(page, HasSubstr("uncalibrated"));
  EXPECT_THAT(page, Not(HasSubstr("<script")));
  for (const auto& text : {a, b})
    EXPECT_THAT(page, HasSubstr(cases::read(text).sha256));
  // Both contact pictures have the same axis: its numbers come twice, in the same places.
  const auto axis = [&](const std::string& id) {
    const std::size_t at = page.find("aria-labelledby=\"" + id);
    const std::string svg = page.substr(at, page.find("</svg>", at) - at);
    std::string numbers;
    for (std::size_t k = svg.find("<text"); k != std::string::npos; k = svg.find("<text", k + 1))
      if (const std::size_t end = svg.find('>', k); std::isdigit(svg[end + 1]) != 0)
        numbers += svg.substr(k, svg.find("</text>", k) - k) + "\n";
    return numbers;
  };
  EXPECT_FALSE(axis("contact-a").empty());
  EXPECT_EQ(axis("contact-a"), axis("contact-b"));
  EXPECT_EQ(axis("edge-a"), axis("edge-b"));
}

TEST(Compare, EscapesWhatCasesSayAndGivesTheSameBytesTwice) {
  const ScratchFolder scratch;
  const std::string title = "<script>alert(1)</script> & 'more'";
  const auto a =
      scratch.file("a.toml", tray("25 Shore A", "interference = \"0.3 mm\"", title, "fast"));
  const auto b =
      scratch.file("b.toml", tray("75 Shore A", "interference = \"0.3 mm\"", "B", "fast"));
  for (const char* name : {"one.html", "two.html"})
    ASSERT_EQ(run_program({"compare", a, b, "--quiet", "--out", scratch.at(name)}).exit_code, 0);
  const std::string page = read_file(scratch.at("one.html"));
  EXPECT_THAT(page, Not(HasSubstr("<script")));
  EXPECT_THAT(page, HasSubstr("&lt;script&gt;alert(1)&lt;/script&gt; &amp; &#39;more&#39;"));
  EXPECT_THAT(page, HasSubstr("without sections"));
  EXPECT_EQ(page, read_file(scratch.at("two.html")));
}

TEST(Compare, OfACaseWithItselfFindsNoDifference) {
  const ScratchFolder scratch;
  const auto a =
      scratch.file("a.toml", tray("25 Shore A", "interference = \"0.3 mm\"", "A", "fast"));
  const auto outcome = run_program({"compare", a, a});
  EXPECT_EQ(outcome.exit_code, 0);
  EXPECT_THAT(outcome.out, HasSubstr("Nothing differs"));
  EXPECT_THAT(outcome.out, Not(HasSubstr("usual story")));
}

TEST(Compare, RefusesOneCaseABrokenCaseAndAnExistingPageAndWritesNothing) {
  const ScratchFolder scratch;
  const auto a =
      scratch.file("a.toml", tray("25 Shore A", "interference = \"0.3 mm\"", "A", "fast"));
  const auto broken = scratch.file("broken.toml", "title = \"x\"\n[part]\nmateriel = \"DC01\"\n");
  const auto page = scratch.at("page.html");
  const auto one = run_program({"compare", a, "--out", page});
  EXPECT_EQ(one.exit_code, 2);
  EXPECT_THAT(one.err, HasSubstr("2 to 6 cases, not 1"));
  const auto second = run_program({"compare", a, broken, "--out", page});
  EXPECT_EQ(second.exit_code, 2);
  EXPECT_THAT(second.err, HasSubstr("broken.toml:3:1: error: part.materiel"));
  EXPECT_FALSE(std::filesystem::exists(page));
  static_cast<void>(scratch.file("page.html", "somebody's own"));
  const auto there = run_program({"compare", a, a, "--out", page});
  EXPECT_EQ(there.exit_code, 2);
  EXPECT_THAT(there.err, HasSubstr("exists already"));
  EXPECT_EQ(read_file(page), "somebody's own");
}

}  // namespace
}  // namespace drumlin
