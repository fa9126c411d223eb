#include "sim/app/summary_text.hpp"

#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/sample_result.hpp"

namespace drumlin::app {
namespace {

using support::sample_result;
using ::testing::HasSubstr;
using ::testing::Not;

const Style plain{};
const Style coloured{.colour = true};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);)
    lines.push_back(line);
  return lines;
}

TEST(Summary, NamesTheVerdictWithTheItemThatDecidesItsLimitAndItsMargin) {
  sim::Result result = sample_result();
  result.verdict.state = "not accepted";
  result.verdict.decided_by = "face coating_left";
  result.verdict.items = {{.name = "face coating_left",
                           .quantity = "coating_left",
                           .unit = "um",
                           .value = sim::Banded{8.25, 4.0, 11.0},
                           .low = 12.0,
                           .high = {},
                           .limit = ">= 12 um",
                           .margin = -3.75,
                           .accepted = false}};
  const std::string text = summary_text(result, plain);
  EXPECT_THAT(text, HasSubstr("verdict: not accepted (uncalibrated)\n  limited by face "
                              "coating_left: 8.2 um, limit >= 12 um, margin -3.8 um\n"));
  EXPECT_THAT(text, HasSubstr("4.0..11.0\n"));
}

TEST(Summary, SaysNotKnownWhereAValueIsMissing) {
  sim::Result result = sample_result();
  result.verdict.state = "not known";
  result.verdict.decided_by = "face temperature";
  result.verdict.items = {{.name = "face temperature",
                           .quantity = "temperature",
                           .unit = "degC",
                           .value = {},
                           .low = {},
                           .high = 120.0,
                           .limit = "<= 120 degC",
                           .margin = {},
                           .accepted = {}}};
  EXPECT_THAT(summary_text(result, plain),
              HasSubstr("verdict: not known (uncalibrated)\n  limited by face temperature: no "
                        "value, limit <= 120 degC\n"));
}

TEST(Summary, ShowsEveryEdgeWithUnitsAndBands) {
  sim::Result result = sample_result();
  sim::FeatureResult edge;
  edge.name = "hole-6:trailing";
  edge.burr_height = sim::Banded{0.0123, 0.0081, 0.0204};
  edge.peak_pressure = sim::Banded{2.164, {}, {}};
  result.part.features = {edge};
  const std::string text = summary_text(result, plain);
  // Millimetres inside, micrometres with one decimal for people.
  EXPECT_THAT(text, ::testing::ContainsRegex("hole-6:trailing +12\\.3 +2\\.16"));
  EXPECT_THAT(text, HasSubstr("8.1..20.4"));
  EXPECT_THAT(text, HasSubstr("µm"));
  EXPECT_THAT(text, HasSubstr("MPa"));
}

TEST(Summary, ShowsTheDrumAtWorkAndMarksTheoryAndEstimates) {
  const std::string text = summary_text(sample_result(), plain);
  EXPECT_THAT(text, HasSubstr("Drum at work: what the durometer does not say"));
  for (const char* column :
       {"effective", "stiffness", "critical", "tension", "lean", "rolling loss", "warms by"})
    EXPECT_THAT(text, HasSubstr(column));
  EXPECT_THAT(text, HasSubstr("15.1"));  // m/s, critical
  EXPECT_THAT(text, HasSubstr("theory, no measured onset"));
  EXPECT_THAT(text, HasSubstr("warms by: an estimate"));
}

TEST(Summary, IsSilentAboutADrumOfWhichNothingIsKnown) {
  sim::Result result = sample_result();
  sim::StationResult& station = result.stations[0];
  for (sim::Quantity* quantity :
       {&station.effective_interference, &station.dynamic_stiffening, &station.critical_speed,
        &station.speed_ratio, &station.belt_tension_at_speed, &station.lean, &station.rolling_loss,
        &station.cover_heating})
    quantity->reset();
  EXPECT_THAT(summary_text(result, plain), Not(HasSubstr("Drum at work")));
}

TEST(Summary, LeavesOutQuantitiesThatTheModelDoesNotGive) {
  sim::Result result = sample_result();
  for (auto& feature : result.part.features)
    feature.secondary_burr.reset();
  EXPECT_THAT(summary_text(result, plain), Not(HasSubstr("secondary")));
  result.part.features.front().secondary_burr = sim::Banded{0.02, {}, {}};
  EXPECT_THAT(summary_text(result, plain), HasSubstr("secondary"));
}

// One edge with a value gives the column; the edge without shows a dash and never a zero.
TEST(Summary, ShowsADashForAMissingValueAndNeverAZero) {
  sim::Result result = sample_result();
  sim::FeatureResult with;
  with.name = "with";
  with.burr_height = sim::Banded{0.01, {}, {}};
  sim::FeatureResult without;
  without.name = "without";
  result.part.features = {with, without};
  EXPECT_THAT(summary_text(result, plain), ::testing::ContainsRegex("\n  without +-\n"));
}

TEST(Summary, KeepsWithinItsWidth) {
  sim::Result result = sample_result();
  result.warnings.push_back(std::string(40, 'w') + " " + std::string(70, 'v') + " end");
  result.part.features.push_back(result.part.features.front());
  result.part.features.back().name = "a-long-name-of-a-slot-in-the-middle:trailing";
  result.part.features.back().secondary_burr = sim::Banded{0.02, 0.01, 0.03};
  for (const Style& style : {plain, coloured})
    for (const std::string& line : lines_of(summary_text(result, style)))
      EXPECT_LE(columns(line), style.width) << line;
}

TEST(Summary, IsTheSameTextWithAndWithoutColour) {
  const sim::Result result = sample_result();
  std::string stripped;
  bool in_escape = false;
  for (const char c : summary_text(result, coloured)) {
    if (c == '\x1b') in_escape = true;
    if (!in_escape) stripped += c;
    if (c == 'm') in_escape = false;
  }
  EXPECT_EQ(stripped, summary_text(result, plain));
  EXPECT_THAT(summary_text(result, plain), Not(HasSubstr("\x1b")));
  EXPECT_THAT(summary_text(result, coloured), HasSubstr("\x1b[31m"));
}

TEST(Summary, NamesTheInputsThatMatterMostFirst) {
  sim::Result result = sample_result();
  const auto influence = [](const char* input, double reach) {
    return sim::Influence{input, input, 1, 2, "mm", "face removal", 0, reach};
  };
  result.influences = {influence("third", 1e-3), influence("first", 9e-3),
                       influence("second", 5e-3)};
  const std::string text = summary_text(result, plain);
  EXPECT_LT(text.find("first 1..2 mm: 0.0..9.0 µm"), text.find("second 1.."));
  EXPECT_LT(text.find("second 1.."), text.find("third 1.."));
}

TEST(Summary, CarriesWarningsNotesUnusedKeysSamplesAndCautions) {
  sim::Result result = sample_result();
  result.warnings = {"a warning"};
  result.notes = {"a note"};
  result.unused_keys = {"an unused key"};
  result.samples = {"a sample"};
  result.cautions = {"a caution"};
  const std::string text = summary_text(result, plain);
  for (const char* line : {"- a warning", "- a note", "- an unused key", "- a sample",
                           "- a caution", "A process estimate, not a safety assessment."})
    EXPECT_THAT(text, HasSubstr(line));
}

TEST(Summary, SaysUncalibratedUnlessCalibrated) {
  sim::Result result = sample_result();
  result.calibrated = false;
  EXPECT_THAT(summary_text(result, plain), HasSubstr("Uncalibrated"));
  result.calibrated = true;
  EXPECT_THAT(summary_text(result, plain), Not(HasSubstr("ncalibrated")));
}

TEST(FilesText, NamesTheFolderAndThePicturesAndCountsTheSeries) {
  const std::string text = files_text(
      "out/a",
      {"series/a_0.vti", "series/a_1.vti", "series/a.pvd", "pictures/p.png", "summary.json"},
      {"something is missing"}, plain);
  EXPECT_THAT(text, HasSubstr("out/a"));
  EXPECT_THAT(text, HasSubstr("pictures  pictures/p.png"));
  EXPECT_THAT(text, HasSubstr("series/a.pvd, summary.json"));
  EXPECT_THAT(text, HasSubstr("2 members"));
  EXPECT_THAT(text, HasSubstr("something is missing"));
}

}  // namespace
}  // namespace drumlin::app
