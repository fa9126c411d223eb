// Scatter of shipped cases: every limit appears, the same bytes on one thread and two, and rows of
// a study that are drawn.

#include "cases/scatter.hpp"

#include <algorithm>
#include <fstream>
#include <sstream>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cases/reader.hpp"
#include "sim/app/scatter_text.hpp"
#include "sim/run.hpp"
#include "sim/scatter/scatter_study.hpp"
#include "sim/sweep/row_runner.hpp"
#include "tests/support/rows.hpp"
#include "tests/support/studies.hpp"
#include "viz/report_parts.hpp"
#include "viz/summary_json.hpp"

namespace drumlin::sim {
namespace {

using support::column;
using testing::HasSubstr;
using testing::Not;

std::string text_of(const std::string& name) {
  std::stringstream text;
  text << std::ifstream(support::examples() + name).rdbuf();
  return text.str();
}

cases::Case case_of(std::string text) {
  const std::size_t size = text.find("size = 256");
  if (size != std::string::npos) text.replace(size, 10, "size = 32");
  return cases::parse(text, support::examples() + "case.toml");
}

Result drawn(const cases::Case& scenario, unsigned threads = 0) {
  Result result = run(set_up(scenario));
  result.scatter = scatter_study(cases::scatter_of(scenario), result.part, result.verdict,
                                 {.threads = threads, .progress = {}, .stop = {}});
  return result;
}

std::string dump(const Result& result) {
  return viz::summary_json(result, [](const std::string&) {}).dump();
}

TEST(ScatterOfTheShippedPanel, GivesTheSameBytesOnOneThreadAndTwo) {
  const cases::Case scenario = case_of(text_of("panel-scatter.toml"));
  const Result one = drawn(scenario, 1);
  const Result two = drawn(scenario, 2);
  EXPECT_EQ(dump(one), dump(two));
  EXPECT_EQ(viz::report_scatter(one), viz::report_scatter(two));
}

TEST(ScatterOfTheShippedPanel, SaysWhatItRestsOn) {
  const Result result = drawn(case_of(text_of("panel-scatter.toml")));
  const std::string text = app::scatter_text(*result.scatter, {});
  for (const char* word : {"64 draws", "fast model", "seed 1", "measured or invented",
                           "independently of each other", "deviations", "95 %"}) {
    EXPECT_THAT(text, HasSubstr(word));
  }
  const auto json = nlohmann::json::parse(dump(result)).at("uncertainty");
  EXPECT_EQ(json.at("model"), "fast");
  EXPECT_EQ(json.at("points_per_set"), 32);
  EXPECT_EQ(json.at("seed"), 1);
  EXPECT_EQ(json.at("inputs").size(), 7U);
  const std::string html = viz::report_scatter(result);
  EXPECT_THAT(html, HasSubstr("<svg"));
  EXPECT_THAT(html, Not(HasSubstr("nan")));
}

// Belt life is a limit that draws do not follow: it is there, without a probability.
TEST(Scatter, ListsEveryLimitOfTheCase) {
  std::string text = text_of("panel-punched.toml");
  text +=
      "\n[numerics]\nmodel = \"fast\"\nbands = false\n[uncertainty]\nsize = 8\n"
      "\"part.thickness\" = \"0.02 mm\"\n";
  const Result result = drawn(case_of(text));
  ASSERT_EQ(result.scatter->limits.size(), result.verdict.items.size());
  bool life = false;
  for (std::size_t i = 0; i < result.verdict.items.size(); ++i) {
    const ScatterOutput& limit = result.scatter->limits[i];
    EXPECT_EQ(limit.name, result.verdict.items[i].name);
    EXPECT_NE(limit.met.has_value(), !limit.why_not.empty()) << limit.name;
    if (limit.quantity == "belt_life") life = !limit.met;
  }
  EXPECT_TRUE(life);
}

/// Of a finished run: share of the draws of set A that keep the limit.
double met_by_draws(const Result& result, const std::string& name) {
  const auto limit = std::find_if(result.scatter->limits.begin(), result.scatter->limits.end(),
                                  [&](const ScatterOutput& one) { return one.name == name; });
  const auto size = static_cast<std::ptrdiff_t>(result.scatter->size);
  const auto met = std::count_if(limit->values.begin(), limit->values.begin() + size,
                                 [&](double value) { return value >= *limit->low; });
  return static_cast<double>(met) / static_cast<double>(size);
}

std::vector<Row> rows_of(RowRunner& runner) {
  return runner.run(0, 3);
}

TEST(RowsWithScatter, CarryProbabilitiesFromCommonDraws) {
  const cases::Study study = cases::parse_study(
      "case = \"panel-scatter.toml\"\nscatter = true\n[design]\nkind = \"grid\"\n" +
          support::factor("station[0].setting.interference",
                          "values = [\"0.2 mm\", \"0.3 mm\", \"0.4 mm\"]"),
      support::examples() + "study.toml");
  RowRunner runner(study, 1);
  const auto rows = rows_of(runner);
  RowRunner other(study, 2);
  const auto same = rows_of(other);
  for (std::size_t i = 0; i < rows.size(); ++i)
    EXPECT_EQ(rows[i].outputs, same[i].outputs) << i;
  const std::size_t all = column(runner, "probability_all_met");
  const std::size_t low = column(runner, "probability_all_met_low");
  const std::size_t face = column(runner, "limit.face_coating_left.probability");
  const std::size_t middle = column(runner, "verdict.margin_p50");
  static_cast<void>(column(runner, "probability_all_met_high"));
  // Deeper takes more zinc, draw by draw: with common draws no chance can turn that round.
  EXPECT_GE(*rows[0].outputs[face], *rows[1].outputs[face]);
  EXPECT_GE(*rows[1].outputs[face], *rows[2].outputs[face]);
  EXPECT_LT(*rows[2].outputs[face], 1.0);
  for (const Row& row : rows) {
    EXPECT_LE(*row.outputs[low], *row.outputs[all]);
    EXPECT_LE(*row.outputs[all], *row.outputs[face]);
    EXPECT_TRUE(row.outputs[middle].has_value());
  }
  // The middle row is the case itself: its draws are the set A of a run.
  const cases::Case own = cases::read(support::examples() + "panel-scatter.toml");
  const Result result = drawn(own);
  EXPECT_DOUBLE_EQ(*rows[1].outputs[face], met_by_draws(result, "face coating_left"));
}

// The line is set for the row's sheet, and sheets of its coil scatter around that: not around the
// case's sheet, and not as a drum set anew for every one of them.
TEST(RowsWithScatter, OfOtherThicknessesAreCasesOfThatThickness) {
  const cases::Study study = cases::parse_study(
      "case = \"panel-scatter.toml\"\nscatter = true\n[design]\nkind = \"grid\"\n" +
          support::factor("part.thickness", "values = [\"1.2 mm\", \"1.5 mm\", \"2.0 mm\"]"),
      support::examples() + "study.toml");
  RowRunner runner(study, 2);
  const auto rows = rows_of(runner);
  const std::size_t face = column(runner, "limit.face_coating_left.probability");
  for (const Row& row : rows) {
    std::string text = text_of("panel-scatter.toml");
    const std::string thickness = "thickness = \"1.5 mm\"";
    text.replace(text.find(thickness), thickness.size(),
                 fmt::format("thickness = \"{} mm\"", row.values[0]));
    const cases::Case own = cases::parse(text, support::examples() + "case.toml");
    EXPECT_DOUBLE_EQ(*row.outputs[face], met_by_draws(drawn(own), "face coating_left"))
        << row.values[0];
  }
}

}  // namespace
}  // namespace drumlin::sim
