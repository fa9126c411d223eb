#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/support/run_program.hpp"

/// A line's cost asked of the program, end to end.
namespace drumlin {
namespace {

using Json = nlohmann::ordered_json;
using support::run_program;
using support::ScratchFolder;
using testing::HasSubstr;

const std::string line_of_three_lanes = R"([part]
material = "DX51D"
thickness = "1.5 mm"
width = "250 mm"
length = "400 mm"
[[station]]
kind = "belt"
drum = { radius = "100 mm", cover = "15 mm", hardness = "40 Shore A" }
belt = { grit = "P120", abrasive = "alumina" }
setting = { interference = "0.2 mm" }
speed = "10 m/s"
[[station]]
kind = "brush"
filament = { material = "abrasive-nylon", diameter = "1.0 mm", free_length = "40 mm" }
radius = "150 mm"
penetration = "2 mm"
speed = "12 m/s"
[conveyor]
speed = "4 m/min"
lanes = 3
gap = "50 mm"
[cost]
line_rate = "90 €/h"
belt = { price = "120 €", life = "8000 parts" }
brush = { price = "900 €", life = "60000 parts" }
rework = { cost = "1.20 €", share = 0.04 }
[numerics]
model = "fast"
)";

Json summary_of(const std::string& text, std::string* said = nullptr) {
  const ScratchFolder scratch;
  const auto outcome = run_program(
      {"run", scratch.file("line.toml", text), "--out", scratch.at("out"), "--no-pictures"});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  if (said != nullptr) *said = outcome.out;
  return Json::parse(support::read_file(scratch.path() / "out" / "summary.json"));
}

double saved_by(const Json& cost, const std::string& what) {
  for (const Json& saving : cost["savings"])
    if (saving["what"] == what) return saving["saves_EUR_per_part"].get<double>();
  return std::nan("");
}

// Acceptance scenario: 400 mm parts 50 mm apart in three lanes at 4 m/min, 90 an hour, a belt of
// 120 per 8000 parts, brushes of 900 per 60000, 4 % of rework at 1.20: 1600 parts/h and
// 5.63 + 1.50 + 1.50 + 4.80 = 13.4 ct, to the tool's own rounding; a belt 20 % cheaper saves 0.3
// ct, half the rework 2.4 ct.
TEST(CostOfALine, IsThatOfTheAcceptanceScenario) {
  std::string said;
  const Json line = summary_of(line_of_three_lanes, &said)["line"];
  EXPECT_NEAR(line["throughput_per_h"].get<double>(), 1600.0, 1e-9);
  EXPECT_NEAR(line["throughput_m_per_min"].get<double>(), 1600 * 0.4 / 60, 1e-9);
  const Json cost = line["cost"];
  EXPECT_EQ(cost["currency"], "EUR");
  EXPECT_NEAR(cost["time_EUR_per_part"].get<double>(), 0.05625, 1e-9);
  EXPECT_NEAR(cost["belts_EUR_per_part"].get<double>(), 0.015, 1e-9);
  EXPECT_NEAR(cost["brushes_EUR_per_part"].get<double>(), 0.015, 1e-9);
  EXPECT_NEAR(cost["rework_EUR_per_part"].get<double>(), 0.048, 1e-9);
  EXPECT_NEAR(cost["sum_EUR_per_part"].get<double>(), 0.13425, 1e-9);
  EXPECT_NEAR(cost["sum_EUR_per_m"].get<double>(), 0.13425 / 0.4, 1e-9);
  EXPECT_NEAR(saved_by(cost, "a belt 20 % cheaper"), 0.003, 1e-9);
  EXPECT_NEAR(saved_by(cost, "half the rework"), 0.024, 1e-9);
  EXPECT_FALSE(cost.contains("power_EUR_per_part")) << "no price of power was given";
  EXPECT_THAT(line["missing"].dump(), HasSubstr("cost.power"));
  for (const char* words : {"1600 parts/h", "13.43 ct a part", "half the rework saves 2.40 ct",
                            "a belt 20 % cheaper saves 0.30 ct"})
    EXPECT_THAT(said, HasSubstr(words));
}

TEST(CostOfALine, IsAbsentFromTheSummaryWithoutPrices) {
  std::string text = line_of_three_lanes;
  const std::size_t at = text.find("[cost]");
  text.erase(at, text.find("[numerics]") - at);
  const Json line = summary_of(text)["line"];
  EXPECT_FALSE(line.contains("cost"));
  EXPECT_TRUE(line.contains("throughput_per_h"));
  EXPECT_THAT(line["missing"].dump(), HasSubstr("give [cost]"));
}

TEST(Line, StatesPowerHoldAndBothCoolingsWithUnitsAndBands) {
  const Json summary = summary_of(line_of_three_lanes);
  const Json& line = summary["line"];
  ASSERT_EQ(line["stations"].size(), 2U);
  for (const Json& station : line["stations"]) {
    EXPECT_EQ(station["covered_width_mm"], 750.0);
    for (const char* key : {"power_kW", "drag_N", "grip_margin", "turning_margin"}) {
      ASSERT_TRUE(station.contains(key)) << key;
      const double value = station[key].get<double>();
      EXPECT_GT(value, 0.0) << key;
      EXPECT_LE(station["bands"][key][0].get<double>(), value) << key;
      EXPECT_GE(station["bands"][key][1].get<double>(), value) << key;
    }
  }
  for (const char* cooling : {"dry", "wet"})
    for (const char* key :
         {"friction", "removal_um", "power_kW", "grip_margin", "sum_EUR_per_part"})
      EXPECT_TRUE(summary["wet_dry"][cooling].contains(key)) << cooling << " " << key;
}

TEST(OverspeedOfALine, IsRefusedAndForcedOnlyWithAWarningAtTheHead) {
  std::string text = line_of_three_lanes;
  text.replace(text.find("abrasive = \"alumina\""), 20,
               "abrasive = \"alumina\", speed_limit = \"8 m/s\"");
  const ScratchFolder scratch;
  const auto refused =
      run_program({"run", scratch.file("line.toml", text), "--out", scratch.at("out")});
  EXPECT_EQ(refused.exit_code, 2);
  EXPECT_THAT(refused.err, HasSubstr("nearest speed that would do: \"8 m/s\""));
  EXPECT_FALSE(std::filesystem::exists(scratch.at("out")));
  text.insert(text.find("setting ="), "allow_overspeed = true\n");
  std::string said;
  const Json summary = summary_of(text, &said);
  EXPECT_THAT(summary["warnings"][0].get<std::string>(), HasSubstr("station[0] is forced"));
  EXPECT_THAT(summary["cautions"][0].get<std::string>(), HasSubstr("Do not run it on a machine"));
  EXPECT_LT(said.find("station[0] is forced"), said.find("verdict:"));
}

TEST(WetLine, RefusesAPaperBelt) {
  std::string text = line_of_three_lanes;
  text.replace(text.find("abrasive = \"alumina\""), 20,
               "abrasive = \"alumina\", backing = \"paper\"");
  text += "[environment]\ncooling = \"wet\"\n";
  const ScratchFolder scratch;
  const auto outcome =
      run_program({"run", scratch.file("line.toml", text), "--out", scratch.at("out")});
  EXPECT_EQ(outcome.exit_code, 2);
  EXPECT_THAT(outcome.err, HasSubstr("soften in water"));
}

}  // namespace
}  // namespace drumlin
