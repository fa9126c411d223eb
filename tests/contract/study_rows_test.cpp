// Rows of a study: what may be relied on, whoever runs them and in whatever order.

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "sim/run.hpp"
#include "sim/sweep/row_plan.hpp"
#include "sim/sweep/row_runner.hpp"
#include "tests/support/rows.hpp"
#include "tests/support/studies.hpp"

namespace drumlin::sim {
namespace {

using support::column;
using support::factor;
using support::study_of;
using testing::HasSubstr;

const std::string over_drum_and_burr =
    factor("station[0].drum.hardness", "from = \"15 Shore A\"\nto = \"70 Shore A\"") +
    factor("station[0].setting.interference", "from = \"0.05 mm\"\nto = \"0.6 mm\"") +
    factor("part.feature[2].burr.height",
           "distribution = { kind = \"truncated-normal\", mean = \"0.12 mm\", deviation = \"0.05 "
           "mm\", "
           "low = \"0.02 mm\", high = \"0.3 mm\" }");

cases::Study drawn(int size, const std::string& more = over_drum_and_burr) {
  return study_of("panel-soft.toml", "[design]\nkind = \"latin-hypercube\"\nseed = 3\nsize = " +
                                         std::to_string(size) + "\n" + more);
}

void expect_same(const Row& a, const Row& b) {
  EXPECT_EQ(a.index, b.index);
  EXPECT_EQ(a.values, b.values);
  EXPECT_EQ(a.status, b.status) << a.index;
  EXPECT_EQ(a.reason, b.reason);
  EXPECT_EQ(a.outputs, b.outputs) << a.index;  // to the last bit
}

TEST(RowsOfAStudy, DoNotDependOnThreadsOrderOrOtherRows) {
  const cases::Study study = drawn(40);
  RowRunner two(study, 2);
  const auto rows = two.run(0, study.rows());
  RowRunner one(study, 1);
  std::vector<std::uint64_t> shuffled(study.rows());
  std::iota(shuffled.begin(), shuffled.end(), 0U);
  std::shuffle(shuffled.begin(), shuffled.end(), std::mt19937(5));
  const auto others = one.run(shuffled);
  for (std::size_t i = 0; i < shuffled.size(); ++i)
    expect_same(others[i], rows[shuffled[i]]);
  RowRunner fresh(study, 1);
  const std::vector<std::uint64_t> alone{23};
  expect_same(fresh.run(alone)[0], rows[23]);
}

/// Of so many rows that their drums stand between the rungs of a ladder, over modulus and speed.
const std::string over_speed_too =
    over_drum_and_burr + factor("station[0].speed", "from = \"5 m/s\"\nto = \"10 m/s\"");

TEST(RowsOfAStudy, DoNotDependOnThreadsOrOrderBetweenTheRungsOfALadder) {
  for (const auto& [more, size] :
       {std::pair(over_drum_and_burr, 100000), std::pair(over_speed_too, 200000)}) {
    const cases::Study study = drawn(size, more);
    std::vector<std::uint64_t> some(40);
    for (std::size_t i = 0; i < some.size(); ++i)
      some[i] = 7 * i;
    RowRunner two(study, 2);
    const auto rows = two.run(some);
    std::vector<std::uint64_t> backwards(some.rbegin(), some.rend());
    RowRunner one(study, 1);
    const auto others = one.run(backwards);
    for (std::size_t i = 0; i < some.size(); ++i)
      expect_same(others[some.size() - 1 - i], rows[i]);
    RowRunner fresh(study, 1);
    const std::vector<std::uint64_t> alone{some[23]};
    expect_same(fresh.run(alone)[0], rows[23]);
  }
}

// Then a row is its single run but for what lies between rungs: 1e-3 of removal is the promise,
// against 2 % of the model.
TEST(RowsOfAStudy, AreNearlySingleRunsBetweenTheRungsOfALadder) {
  const cases::Study study = drawn(200000, over_speed_too);
  RowRunner runner(study, 1);
  for (const Row& row : runner.run(0, 12)) {
    cases::Case scenario = study.with(row.values);
    scenario.numerics.bands = false;
    const double removal = sim::run(set_up(scenario)).part.face.removal->value * 1e3;
    const double of_row = *row.outputs[column(runner, "face.removal_um")];
    EXPECT_NEAR(of_row / removal, 1.0, 1e-3) << row.index;
  }
}

// A sheet that comes thicker meets a drum that stands where it stood; one that is chosen thicker is
// what the drum is set to. Contact does not ask for the sheet's thickness otherwise.
TEST(RowsOfAStudy, TakeADrawnThicknessAsInterferenceAndAChosenOneAsAnotherSheet) {
  const auto removal_at = [](const std::string& design, const std::string& factors) {
    const cases::Study study = study_of("panel-soft.toml", design + factors);
    RowRunner runner(study, 1);
    const Row row = runner.run(0, 1).front();
    return std::pair(row.values[0], *row.outputs[column(runner, "face.removal_um")]);
  };
  const std::string grid = "[design]\nkind = \"grid\"\n";
  const auto [thickness, drawn] =
      removal_at("[design]\nkind = \"sobol\"\nsize = 1\nseed = 4\n",
                 factor("part.thickness",
                        "distribution = { kind = \"uniform\", low = \"1.52 mm\", high = "
                        "\"1.58 mm\" }"));
  const auto [deeper, as_deep] =
      removal_at(grid, factor("station[0].setting.interference",
                              "values = [\"" + std::to_string(0.3 + thickness - 1.5) + " mm\"]"));
  const auto [nominal, as_set] =
      removal_at(grid, factor("station[0].setting.interference", "values = [\"0.3 mm\"]"));
  const auto [chosen, as_chosen] = removal_at(
      grid, factor("part.thickness", "values = [\"" + std::to_string(thickness) + " mm\"]"));
  EXPECT_NEAR(drawn / as_deep, 1.0, 1e-4);  // six digits of the interference as written
  EXPECT_NEAR(as_chosen / as_set, 1.0, 1e-9);
  EXPECT_GT(drawn, 1.05 * as_set);
}

// Bow and dirt under the part: what lifts it is interference, at belts and brushes alike.
TEST(RowsOfAStudy, TakeALiftedPartAsInterference) {
  const auto removal = [](const std::string& key, const std::string& value) {
    const cases::Study study =
        study_of("panel-punched.toml",
                 "[design]\nkind = \"grid\"\n" + factor(key, "values = [\"" + value + "\"]"));
    RowRunner runner(study, 1);
    return runner.run(0, 1).front().outputs;
  };
  const cases::Case own = cases::read(support::examples() + "panel-punched.toml");
  const auto& brush = std::get<cases::BrushStation>(own.stations.back());
  ASSERT_GT(brush.penetration, 0.1);
  const auto lifted = removal("part.lift", "0.04 mm");
  const auto thicker =
      removal("part.set_thickness", std::to_string(own.part.thickness - 0.04) + " mm");
  ASSERT_EQ(lifted.size(), thicker.size());
  for (std::size_t i = 0; i < lifted.size(); ++i) {
    ASSERT_EQ(lifted[i].has_value(), thicker[i].has_value()) << i;
    // The difference of two thicknesses is rounded.
    const double by = 1e-6 * std::abs(thicker[i].value_or(0));
    EXPECT_NEAR(lifted[i].value_or(0), thicker[i].value_or(0), by) << i;
  }
  EXPECT_NE(lifted, removal("part.lift", "0 mm"));
  EXPECT_NE(lifted, removal("part.lift", "-0.04 mm"));
}

// A part passes under many turns of the drum: its run-out is no interference but a ripple.
TEST(RowsOfAStudy, TakeRunOutAsRipple) {
  const cases::Study study = study_of(
      "panel-soft.toml", "[design]\nkind = \"grid\"\n" +
                             factor("station[0].run_out", "values = [\"0.02 mm\", \"0.06 mm\"]"));
  RowRunner runner(study, 1);
  const auto rows = runner.run(0, 2);
  const std::size_t ripple = column(runner, "station[0].ripple_height_um");
  const std::size_t removal = column(runner, "face.removal_um");
  EXPECT_NEAR(*rows[1].outputs[ripple], 3 * *rows[0].outputs[ripple],
              1e-9 * *rows[1].outputs[ripple]);
  EXPECT_EQ(*rows[1].outputs[removal], *rows[0].outputs[removal]);
}

// Deep nips lay a drum's law out deeper: which one was asked for first must not tell.
TEST(RowsOfAStudy, DoNotDependOnADrumThatADeeperRowMade) {
  const std::string deep = factor("station[0].setting.interference",
                                  "values = [\"0.3 mm\", \"2.9 mm\", \"4.2 mm\", \"2.1 mm\"]") +
                           factor("numerics.cover_strain", "values = [\"linear\"]");
  const cases::Study study = study_of("panel-soft.toml", "[design]\nkind = \"grid\"\n" + deep);
  RowRunner together(study, 1);
  const auto rows = together.run(0, study.rows());
  for (std::uint64_t i = 0; i < study.rows(); ++i) {
    RowRunner alone(study, 1);
    expect_same(alone.run(i, i + 1)[0], rows[i]);
  }
}

// Acceptance scenario 15's heart: 37 impossible set-ups among many. Interference at or beyond the
// cover's 15 mm makes no case.
TEST(RowsOfAStudy, KeepImpossibleOnesWithTheirReason) {
  std::string values = "values = [";
  for (int i = 0; i < 120; ++i)
    values +=
        (i % 3 == 1 && i < 111 ? "\"16 mm\"" : "\"0." + std::to_string(10 + i % 40) + " mm\"") +
        std::string(i < 119 ? ", " : "]");
  const cases::Study study =
      study_of("panel-soft.toml",
               "[design]\nkind = \"grid\"\n" + factor("station[0].setting.interference", values));
  RowRunner runner(study);
  const auto rows = runner.run(0, study.rows());
  ASSERT_EQ(rows.size(), 120U);
  const auto bad = [](const Row& row) { return row.status == RowStatus::bad_input; };
  EXPECT_EQ(std::count_if(rows.begin(), rows.end(), bad), 37);
  const std::size_t removal = column(runner, "face.removal_um");
  for (const Row& row : rows) {
    if (bad(row)) {
      EXPECT_THAT(row.reason, HasSubstr("panel-soft.toml:38:"));
      EXPECT_THAT(row.reason, HasSubstr("16 mm is not less than the cover's thickness"));
      EXPECT_FALSE(row.outputs[removal]);
    } else {
      EXPECT_GT(row.outputs[removal].value(), 0.0);
    }
  }
}

// A row is what a single run of its case gives, but for what a row leaves out (bands, waves).
TEST(RowsOfAStudy, AreSingleRunsOfTheirCases) {
  const cases::Study study = drawn(6);
  RowRunner runner(study, 1);
  const auto rows = runner.run(0, study.rows());
  for (const Row& row : rows) {
    cases::Case scenario = study.with(row.values);
    scenario.numerics.bands = false;
    const Result result = sim::run(set_up(scenario));
    EXPECT_EQ(*row.outputs[column(runner, "face.removal_um")],
              result.part.face.removal->value * 1e3);
    EXPECT_EQ(*row.outputs[column(runner, "hole-6.burr_height_um")],
              result.part.features[2].burr_height->value * 1e3);
    EXPECT_EQ(row.status == RowStatus::done, result.verdict.accepted);
  }
}

TEST(RowsOfAStudy, AskTheLineModelToo) {
  const auto line = cases::parse_study(
      "case = \"panel-soft.toml\"\nmodel = \"line\"\n[design]\nkind = \"grid\"\n" +
          factor("numerics.steps", "values = [100]") +
          factor("station[0].setting.interference", "values = [\"0.3 mm\"]"),
      support::examples() + "study.toml");
  const auto fast = study_of(
      "panel-soft.toml", "[design]\nkind = \"grid\"\n" +
                             factor("station[0].setting.interference", "values = [\"0.3 mm\"]"));
  RowRunner slow(line, 1);
  RowRunner quick(fast, 1);
  const double removal = *slow.run(0, 1)[0].outputs[column(slow, "face.removal_um")];
  // The standing test of both models: face removal within 5 %.
  EXPECT_NEAR(removal / *quick.run(0, 1)[0].outputs[column(quick, "face.removal_um")], 1, 0.05);
  EXPECT_TRUE(slow.run(0, 1)[0].outputs[column(slow, "hole-6.edge_radius_um")]);
  EXPECT_FALSE(quick.run(0, 1)[0].outputs[column(quick, "hole-6.edge_radius_um")]);
}

TEST(ColumnsOfAStudy, SayUnitAndMeaningAndAreNamedOnce) {
  const cases::Study study =
      study_of("panel-soft.toml",
               "[design]\nkind = \"grid\"\n" +
                   factor("part.feature[2].side", "values = [\"trailing\", \"leading\"]") +
                   factor("environment.cooling", "values = [\"dry\", \"wet\"]"));
  const RowRunner runner(study, 1);
  std::vector<std::string> names;
  for (const StudyColumn& c : runner.columns()) {
    names.push_back(c.name);
    EXPECT_FALSE(c.unit.empty()) << c.name;
    EXPECT_FALSE(c.meaning.empty()) << c.name;
  }
  std::sort(names.begin(), names.end());
  EXPECT_EQ(std::adjacent_find(names.begin(), names.end()), names.end());
}

TEST(ThePlanOfAGrid, LetsTheLastFactorChangeFastest) {
  const cases::Study study = study_of(
      "panel-soft.toml",
      "replicates = 2\n[design]\nkind = \"grid\"\n" +
          factor("part.thickness", "values = [\"1 mm\", \"2 mm\"]") +
          factor("station[0].drum.hardness",
                 "from = \"20 Shore A\"\nto = \"80 Shore A\"\nsteps = 3\nscale = \"log\"") +
          factor("conveyor.speed",
                 "distribution = { kind = \"uniform\", low = \"1 m/min\", high = "
                 "\"2 m/min\" }"));
  ASSERT_EQ(study.rows(), 12U);
  const RowPlan plan(study);
  const double middle = 40.0;  // sqrt(20 80)
  for (std::uint64_t i = 0; i < 12; ++i) {
    const auto values = plan.values(i);
    EXPECT_EQ(values[0], i % 6 < 3 ? 1.0 : 2.0);
    EXPECT_NEAR(values[1], (std::vector{20.0, middle, 80.0}[i % 3]), 1e-12);
    // 1 to 2 m/min in mm/s; drawn anew in every replicate.
    EXPECT_TRUE(values[2] > 1000.0 / 60 && values[2] < 2000.0 / 60);
  }
  EXPECT_NE(plan.values(0)[2], plan.values(6)[2]);
}

TEST(ThePlanOfAStudy, IsTheSameWheneverItIsAskedAndAnotherForAnotherSeed) {
  const cases::Study a = drawn(50);
  const cases::Study b = drawn(50);
  auto c = drawn(50);
  c.seed = 4;
  EXPECT_EQ(RowPlan(a).values(17), RowPlan(b).values(17));
  EXPECT_NE(RowPlan(a).values(17), RowPlan(c).values(17));
}

TEST(AFilter, LeavesRowsOutAndSaysWhich) {
  const cases::Study study =
      study_of("panel-soft.toml",
               "[design]\nkind = \"grid\"\n" +
                   factor("station[0].setting.interference", "values = [\"0.2 mm\", \"0.6 mm\"]") +
                   "[[filter]]\nkeep = \"station[0].setting.interference <= 0.5 mm\"\n");
  RowRunner runner(study, 1);
  const auto rows = runner.run(0, 2);
  EXPECT_NE(rows[0].status, RowStatus::left_out);
  EXPECT_EQ(rows[1].status, RowStatus::left_out);
  EXPECT_EQ(rows[1].reason, "station[0].setting.interference <= 0.5 mm");
}

TEST(RowsOfAStudy, StopWhenAsked) {
  const cases::Study study = drawn(4);
  RowRunner runner(study, 1);
  std::stop_source source;
  source.request_stop();
  EXPECT_ANY_THROW(static_cast<void>(runner.run(0, 4, source.get_token())));
}

}  // namespace
}  // namespace drumlin::sim
