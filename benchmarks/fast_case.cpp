// What does a case of the fast model cost: when only setting, burr and removal change, and when the
// drum, the belt or the belt speed do? Each answer is held against the line model's before it is
// timed. No bands, no critical speed: what a sweep asks for. A line of three belts over four edges
// is what a cautious user simulates; its drums are kept from case to case.

#include <cmath>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "sim/fast/fast_model.hpp"
#include "sim/fold_map.hpp"
#include "sim/line/line_model.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;

namespace {

/// Plain face (0), one outer edge (1), or edges at both ends and a hole (2), all with burrs.
sim::Setup setup_with(int features, const sim::Options& options) {
  sim::Setup setup;
  setup.scenario.part.thickness = 1.5;
  setup.scenario.conveyor.passes = 1;
  const models::WallBurr burr{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 300};
  const auto add = [&](const char* name, cases::FeatureKind kind, cases::Side side) {
    setup.scenario.part.features.push_back(
        {.name = name, .kind = kind, .size = 6.0, .side = side, .burr = burr});
  };
  if (features > 0) add("back", cases::FeatureKind::outer_edge, cases::Side::trailing);
  if (features > 1) {
    add("front", cases::FeatureKind::outer_edge, cases::Side::leading);
    add("hole", cases::FeatureKind::hole, cases::Side::trailing);
  }
  auto station = tests::belted_drum(20);
  station.density = 1.1e-9;
  station.belt_speed = 8000.0;
  station.belt_mass = 1e-9;
  station.options = options;
  setup.stations = {station};
  return setup;
}

/// Three belts of different covers, each set less deep than the one before, over four outer edges
/// whose burrs all differ: no section stands for another.
sim::Setup long_line() {
  sim::Setup setup = setup_with(0, {});
  setup.stations = {tests::belted_drum(20), tests::belted_drum(40), tests::belted_drum(30)};
  for (int i = 0; i < 4; ++i) {
    const models::WallBurr burr{
        .height = 0.12 + 0.01 * i, .root = 0.15, .taper = 0, .flow_stress = 300};
    setup.scenario.part.features.push_back(
        {.name = "edge-" + std::to_string(i),
         .kind = cases::FeatureKind::outer_edge,
         .size = {},
         .side = i % 2 == 0 ? cases::Side::trailing : cases::Side::leading,
         .burr = burr});
  }
  return setup;
}

bool agrees_with_line(const sim::Setup& setup, sim::fast::Drums& drums) {
  const double fast = sim::fast::simulate(setup, drums).last.back().part.burrs.plain.removed;
  sim::Setup plain = setup;
  plain.scenario.part.features.clear();
  const double line = sim::line::simulate(plain, {}).last.back().part.burrs.face.removed;
  return std::abs(fast / line - 1.0) < 0.05;
}

/// Interference, burr height and removal coefficient of the k-th case.
void change_setting(sim::Setup& setup, int k) {
  setup.belt(0).setting = cases::InterferenceSetting{0.4 + 0.01 * (k % 20)};
  setup.belt(0).substrate.law = models::Preston{(3.0 + 0.1 * (k % 17)) * 1e-5, 0.0};
  setup.belt(0).coating = setup.belt(0).substrate;
  for (auto& feature : setup.scenario.part.features)
    std::get<models::WallBurr>(feature.burr).height = 0.10 + 0.005 * (k % 13);
}

void setting_changes(benchmark::State& state) {
  sim::Setup setup = setup_with(static_cast<int>(state.range(0)), {});
  sim::fast::Drums drums;
  if (!agrees_with_line(setup, drums)) state.SkipWithError("removal differs from the line model");
  int k = 0;
  for (auto _ : state) {
    change_setting(setup, k++);
    benchmark::DoNotOptimize(sim::fast::simulate(setup, drums));
  }
  state.counters["drums_made"] = drums.made();
}
BENCHMARK(setting_changes)->Arg(0)->Arg(1)->Arg(2)->Unit(benchmark::kMicrosecond);

void long_line_setting_changes(benchmark::State& state) {
  sim::Setup setup = long_line();
  sim::fast::Drums drums;
  if (!agrees_with_line(setup, drums)) state.SkipWithError("removal differs from the line model");
  int k = 0;
  for (auto _ : state) {
    for (std::size_t i = 0; i < 3; ++i) {
      auto& belt = setup.belt(i);
      belt.setting =
          cases::InterferenceSetting{(0.4 + 0.01 * (k % 20)) / (1.0 + static_cast<double>(i))};
      belt.substrate.law = models::Preston{(3.0 + 0.1 * (k % 17)) * 1e-5, 0.0};
      belt.coating = belt.substrate;
    }
    for (std::size_t f = 0; f < 4; ++f) {
      std::get<models::WallBurr>(setup.scenario.part.features[f].burr).height =
          0.10 + 0.005 * (k % 13) + 0.01 * static_cast<double>(f);
    }
    ++k;
    benchmark::DoNotOptimize(sim::fast::state(setup, sim::fast::simulate(setup, drums), false));
  }
  state.counters["drums_made"] = drums.made();
}
BENCHMARK(long_line_setting_changes)->Unit(benchmark::kMicrosecond);

void cut_fold_map(benchmark::State& state) {
  auto setup = setup_with(0, {});
  setup.belt(0).grain_spacing = 0.3;
  setup.scenario.part.features = {
      {.name = "hole",
       .kind = cases::FeatureKind::hole,
       .size = 6.0,
       .side = cases::Side::leading,
       .burr = models::WallBurr{.height = 0.12, .root = 0.02, .taper = 0, .flow_stress = 220}}};
  for (auto _ : state)
    benchmark::DoNotOptimize(sim::study_folding(setup));
}
BENCHMARK(cut_fold_map)->Unit(benchmark::kMillisecond);

/// As the last step of a sweep: the answer in the result's terms, too.
void setting_changes_stated(benchmark::State& state) {
  sim::Setup setup = setup_with(static_cast<int>(state.range(0)), {});
  sim::fast::Drums drums;
  int k = 0;
  for (auto _ : state) {
    change_setting(setup, k++);
    benchmark::DoNotOptimize(sim::fast::state(setup, sim::fast::simulate(setup, drums), false));
  }
}
BENCHMARK(setting_changes_stated)->Arg(0)->Arg(2)->Unit(benchmark::kMicrosecond);

/// Flat, static, slipping (0); the drum's ring (1); gripped and running with a lossy cover (2).
sim::Options options_of(std::int64_t kind) {
  return {.curved = kind > 0, .moving = kind > 1, .gripped = kind > 1, .finite_strain = false};
}

void drum_changes(benchmark::State& state) {
  sim::Setup setup = setup_with(0, options_of(state.range(0)));
  if (state.range(0) > 1) setup.belt(0).relaxation = models::ConstantLoss{0.1};
  sim::fast::Drums drums;
  if (!agrees_with_line(setup, drums)) state.SkipWithError("removal differs from the line model");
  const double modulus = setup.belt(0).cover.modulus;
  int k = 0;
  for (auto _ : state) {
    setup.belt(0).cover.modulus = modulus * (1.0 + 0.01 * (k++ % 20 + 1));
    benchmark::DoNotOptimize(sim::fast::simulate(setup, drums));
  }
  state.counters["drums_made"] = drums.made();
}
BENCHMARK(drum_changes)->Arg(0)->Arg(1)->Arg(2)->Unit(benchmark::kMicrosecond);

void line_load_of_a_drum(benchmark::State& state) {
  const auto station = tests::belted_drum(20);
  sim::fast::Drums drums;
  const auto& law = drums.of(0, station, 0.5).law;
  double depth = 0.1;
  for (auto _ : state) {
    benchmark::DoNotOptimize(law.line_load(depth));
    depth = depth < 1.0 ? depth * 1.01 : 0.1;
  }
}
BENCHMARK(line_load_of_a_drum)->Unit(benchmark::kNanosecond);

void interference_of_a_drum(benchmark::State& state) {
  const auto station = tests::belted_drum(20);
  sim::fast::Drums drums;
  const auto& law = drums.of(0, station, 0.5).law;
  double load = 0.1;
  for (auto _ : state) {
    benchmark::DoNotOptimize(law.interference(load));
    load = load < 1.0 ? load * 1.01 : 0.1;
  }
}
BENCHMARK(interference_of_a_drum)->Unit(benchmark::kNanosecond);

}  // namespace
