// How many rows of a study are run per second, on one thread and on all cores, and where the time
// goes? Each study's first rows are held against single runs of their cases before it is timed.
// Give ratios of one run: the machine may be shared.

#include <string>

#include <benchmark/benchmark.h>

#include "cases/study_reader.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/run.hpp"
#include "sim/sweep/columns.hpp"
#include "sim/sweep/row_answer.hpp"
#include "sim/sweep/row_plan.hpp"
#include "sim/sweep/row_runner.hpp"

using namespace drumlin;

namespace {

enum Kind { one_edge, panel, panel_depth, panel_drum, few_drums };

const char* of_burrs_and_removal =
    "[[factor]]\nkey = \"part.feature[0].burr.height\"\nfrom = \"0.05 mm\"\nto = \"0.2 mm\"\n"
    "[[factor]]\nkey = \"station[0].belt.removal_coefficient\"\nfrom = \"2e-5 1/MPa\"\nto = \"6e-5 "
    "1/MPa\"\n"
    "[[factor]]\nkey = \"conveyor.speed\"\nfrom = \"1 m/min\"\nto = \"3 m/min\"\n";
const char* of_interference =
    "[[factor]]\nkey = \"station[0].setting.interference\"\nfrom = \"0.2 mm\"\nto = \"0.5 mm\"\n";
const char* of_drum_and_belt =
    "[[factor]]\nkey = \"station[0].drum.hardness\"\nfrom = \"15 Shore A\"\nto = \"60 Shore A\"\n"
    "[[factor]]\nkey = \"station[0].belt.bending_stiffness\"\nfrom = \"0.5 N mm\"\nto = \"20 N "
    "mm\"\n";
const char* of_five_drums =
    "[[factor]]\nkey = \"station[0].drum.hardness\"\nvalues = [\"15 Shore A\", \"20 Shore A\", "
    "\"30 "
    "Shore A\", \"40 Shore A\", \"60 Shore A\"]\n";

cases::Study study_of(Kind kind) {
  std::string text =
      kind == one_edge ? "case = \"first-look.toml\"\n" : "case = \"panel-soft.toml\"\n";
  text += "model = \"fast\"\n[design]\nkind = \"sobol\"\nsize = 1000000\nseed = 1\n";
  text += of_burrs_and_removal;
  if (kind == panel_depth || kind == panel_drum) text += of_interference;
  if (kind == panel_drum) text += of_drum_and_belt;
  if (kind == few_drums) text += of_five_drums;
  return cases::parse_study(text, DRUMLIN_SOURCE_DIR "/cases/examples/study.toml");
}

bool agrees_with_single_runs(const cases::Study& study) {
  sim::RowRunner runner(study, 1);
  for (const sim::Row& row : runner.run(0, 3)) {
    cases::Case scenario = study.with(row.values);
    scenario.numerics.bands = false;
    const double removal = sim::run(sim::set_up(scenario)).part.face.removal->value * 1e3;
    for (std::size_t c = 0; c < row.outputs.size(); ++c)
      if (runner.columns()[c].name == "face.removal_um" && row.outputs[c] != removal) return false;
  }
  return true;
}

/// @param 0: which study, 1: threads.
void rows(benchmark::State& state) {
  const auto study = study_of(static_cast<Kind>(state.range(0)));
  if (!agrees_with_single_runs(study)) state.SkipWithError("a row differs from its single run");
  sim::RowRunner runner(study, static_cast<unsigned>(state.range(1)));
  constexpr std::uint64_t at_a_time = 512;
  std::uint64_t next = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(runner.run(next, next + at_a_time));
    next += at_a_time;
  }
  state.counters["rows_per_s"] =
      benchmark::Counter(static_cast<double>(next), benchmark::Counter::kIsRate);
  state.counters["s_per_million"] = benchmark::Counter(
      static_cast<double>(next) / 1e6, benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}
BENCHMARK(rows)
    ->ArgNames({"study", "threads"})
    ->ArgsProduct({{one_edge, panel, panel_depth, panel_drum, few_drums}, {1, 2}})
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);

/// One stage after the other, one thread: 0 values, 1 the case, 2 its set-up, 3 the model, 4 all
/// that is said of it, 5 the row's cells.
void stage(benchmark::State& state) {
  const auto study = study_of(static_cast<Kind>(state.range(0)));
  const sim::RowPlan plan(study);
  sim::fast::Drums drums(32);
  sim::Columns columns;
  columns.add(sim::row_answer(sim::set_up(study.with(plan.values(0))), drums, {}));
  std::uint64_t i = 0;
  for (auto _ : state) {
    const auto values = plan.values(i++ % study.rows());
    if (state.range(1) < 1) continue;
    auto scenario = study.with(values);
    if (state.range(1) < 2) continue;
    const auto setup = sim::set_up(std::move(scenario));
    if (state.range(1) < 3) continue;
    if (state.range(1) == 3) {
      benchmark::DoNotOptimize(sim::fast::simulate(setup, drums));
      continue;
    }
    const auto answer = sim::row_answer(setup, drums, {});
    if (state.range(1) == 5) benchmark::DoNotOptimize(columns.values(answer));
  }
}
BENCHMARK(stage)
    ->ArgNames({"study", "up_to"})
    ->ArgsProduct({{panel}, {0, 1, 2, 3, 4, 5}})
    ->Unit(benchmark::kMicrosecond);

}  // namespace
