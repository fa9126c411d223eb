// How many rows of a study are run per second, on one thread and on all cores, and where the time
// goes? Each study's first rows are held against single runs of their cases before it is timed.
// Give ratios of one run: the machine may be shared.

#include <cmath>
#include <string>

#include <benchmark/benchmark.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cases/study_reader.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/run.hpp"
#include "sim/sweep/columns.hpp"
#include "sim/sweep/drum_choice.hpp"
#include "sim/sweep/row_answer.hpp"
#include "sim/sweep/row_plan.hpp"
#include "sim/sweep/row_runner.hpp"

using namespace drumlin;

namespace {

enum Kind { two_edges, plain, interference, drum_and_speed, all, five_drums, with_bending };

const char* of_plain_factors =
    "[[factor]]\nkey = \"part.feature[0].burr.height\"\nfrom = \"0.05 mm\"\nto = \"0.2 mm\"\n"
    "[[factor]]\nkey = \"station[0].belt.removal_coefficient\"\nfrom = \"2e-5 1/MPa\"\nto = \"6e-5 "
    "1/MPa\"\n"
    "[[factor]]\nkey = \"conveyor.speed\"\nfrom = \"1 m/min\"\nto = \"3 m/min\"\n";
const char* of_interference =
    "[[factor]]\nkey = \"station[0].setting.interference\"\nfrom = \"0.2 mm\"\nto = \"0.5 mm\"\n";
const char* of_hardness_and_speed =
    "[[factor]]\nkey = \"station[0].drum.hardness\"\nfrom = \"15 Shore A\"\nto = \"60 Shore A\"\n"
    "[[factor]]\nkey = \"station[0].speed\"\nfrom = \"5 m/s\"\nto = \"10 m/s\"\n";
const char* of_bending =
    "[[factor]]\nkey = \"station[0].drum.hardness\"\nfrom = \"15 Shore A\"\nto = \"60 Shore A\"\n"
    "[[factor]]\nkey = \"station[0].belt.bending_stiffness\"\nfrom = \"0.5 N mm\"\nto = \"20 N "
    "mm\"\n";
const char* of_five_drums =
    "[[factor]]\nkey = \"station[0].drum.hardness\"\nvalues = [\"15 Shore A\", \"20 Shore A\", "
    "\"30 "
    "Shore A\", \"40 Shore A\", \"60 Shore A\"]\n";

cases::Study study_of(Kind kind) {
  std::string text =
      kind == two_edges ? "case = \"first-look.toml\"\n" : "case = \"panel-soft.toml\"\n";
  text += "model = \"fast\"\n[design]\nkind = \"sobol\"\nsize = 1000000\nseed = 1\n";
  text += of_plain_factors;
  if (kind == interference || kind == all) text += of_interference;
  if (kind == drum_and_speed || kind == all) text += of_hardness_and_speed;
  if (kind == with_bending) text += of_bending;
  if (kind == five_drums) text += of_five_drums;
  return cases::parse_study(text, DRUMLIN_SOURCE_DIR "/cases/examples/study.toml");
}

/// Drums between rungs are within 1e-3, others the same.
bool agrees_with_single_runs(const cases::Study& study) {
  sim::RowRunner runner(study, 1);
  for (const sim::Row& row : runner.run(0, 3)) {
    cases::Case scenario = study.with(row.values);
    scenario.numerics.bands = false;
    const double removal = sim::run(sim::set_up(scenario)).part.face.removal->value * 1e3;
    for (std::size_t c = 0; c < row.outputs.size(); ++c)
      if (runner.columns()[c].name == "face.removal_um" &&
          std::abs(*row.outputs[c] / removal - 1.0) > 1e-3)
        return false;
  }
  return true;
}

/// Runs rows in a process of its own while `meanwhile` runs in this one.
template <class Work, class Meanwhile>
void beside(const Work& work, const Meanwhile& meanwhile) {
  const pid_t child = fork();
  if (child == 0) {
    work();
    _exit(0);
  }
  meanwhile();
  waitpid(child, nullptr, 0);
}

/// @param 0: which study, 1: threads; 0: two processes of one thread each at the same time, which
/// share nothing but the machine: what two threads can come to at best.
void rows(benchmark::State& state) {
  const auto study = study_of(static_cast<Kind>(state.range(0)));
  if (!agrees_with_single_runs(study)) state.SkipWithError("a row differs from its single run");
  const auto threads = static_cast<unsigned>(state.range(1));
  sim::RowRunner runner(study, threads == 0 ? 1 : threads);
  constexpr std::uint64_t for_one = 512;
  const std::uint64_t at_a_time = for_one * (threads == 1 ? 1 : 2);
  benchmark::DoNotOptimize(runner.run(0, 4 * at_a_time));  // drums that are kept are made here
  std::uint64_t next = 4 * at_a_time;
  std::uint64_t done = 0;
  for (auto _ : state) {
    const auto some = [&](std::uint64_t first, std::uint64_t count) {
      benchmark::DoNotOptimize(runner.run(first, first + count));
    };
    if (threads == 0)
      beside([&] { some(next, for_one); }, [&] { some(next + for_one, for_one); });
    else
      some(next, at_a_time);
    next += at_a_time;
    done += at_a_time;
  }
  state.counters["rows_per_s"] =
      benchmark::Counter(static_cast<double>(done), benchmark::Counter::kIsRate);
  state.counters["s_per_million"] = benchmark::Counter(
      static_cast<double>(done) / 1e6, benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}
BENCHMARK(rows)
    ->ArgNames({"study", "threads"})
    ->ArgsProduct({{two_edges, plain, interference, drum_and_speed, all, five_drums, with_bending},
                   {1, 2, 0}})
    ->UseRealTime()
    ->MeasureProcessCPUTime()
    ->Unit(benchmark::kMillisecond);

/// One stage after the other, one thread: 0 values, 1 the case, 2 its set-up, 3 the model, 4 all
/// that is said of it, 5 the row's cells.
void stage(benchmark::State& state) {
  const auto study = study_of(static_cast<Kind>(state.range(0)));
  const sim::RowPlan plan(study);
  sim::fast::Drums drums(32, sim::drum_axes(study, plan, 32));
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
    ->ArgsProduct({{plain, interference}, {0, 1, 2, 3, 4, 5}})
    ->Unit(benchmark::kMicrosecond);

}  // namespace
