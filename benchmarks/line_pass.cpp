// What does a pass of the line model cost, and how does that compare with the transforms it would
// need at least? Times one pass over a 6 mm hole with a burr: nested cells (5 um at the feature)
// with growing strides against the single even grid of 400 strides, for the elastic slipping flat
// cover of theory and for the moving, gripped, round one of the defaults; static contacts of the
// same drum; and, in the same process, transform pairs of both grids' lengths: the machine's floor.

#include <algorithm>
#include <cmath>
#include <vector>

#include <benchmark/benchmark.h>

#include "sim/line/line_model.hpp"
#include "sim/line/passage.hpp"
#include "sim/line/plain_nip.hpp"
#include "sim/line/surface.hpp"
#include "sim/numerics/fft.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;

namespace {

constexpr double interference = 0.5;
constexpr double burr_height = 0.15;

enum Cover { of_theory, as_it_is };

sim::BeltSetup station_of(double shore, Cover cover) {
  return cover == of_theory ? tests::belted_drum(shore) : tests::moving_drum(shore);
}

cases::Part part_with_hole() {
  cases::Part part;
  part.thickness = 1.5;
  part.features.push_back(
      {.name = "hole",
       .kind = cases::FeatureKind::hole,
       .size = 6.0,
       .side = cases::Side::trailing,
       .burr =
           models::WallBurr{.height = burr_height, .root = 0.15, .taper = 0, .flow_stress = 300}});
  return part;
}

/// Everything of a pass but the steady nip that it starts from, which stations share.
void line_pass(benchmark::State& state, bool nested) {
  const auto station =
      station_of(static_cast<double>(state.range(0)), static_cast<Cover>(state.range(1)));
  const sim::line::Drum drum(station, interference);
  const double window = sim::line::response_window(station, {});
  const auto plain = sim::line::plain_pass(drum, {}, interference, window);
  const double half_span = sim::line::patch_half_span(drum, interference + burr_height, window);
  const auto unworn = sim::line::unworn_surface(part_with_hole(), {.nested = nested},
                                                1.1 * half_span + 1.0, half_span);
  double applications = 0;
  double steps = 0;
  for (auto _ : state) {
    sim::line::Strip strip = unworn.strips.front();
    const double unit = strip.cells.unit;
    const int span = static_cast<int>((13.0 + half_span) / unit);
    const int stride = 2 * span / 400;
    const int longest =
        nested ? std::min(8 * stride, static_cast<int>(0.1 * half_span / unit)) : stride;
    sim::line::Passage passage(drum, strip, half_span, window);
    passage.run(strip,
                {.interference = interference,
                 .from = span,
                 .to = -span,
                 .stride = stride,
                 .longest = longest,
                 .face_error = 0.01 * plain.removal,
                 .burr_error = 0.01 * burr_height,
                 .landing = &plain.nip},
                [&](const sim::line::StepView& view) {
                  applications += view.report.applications;
                  steps += 1;
                });
    // The answer first: far from the hole the face has lost what the steady nip takes, within 2 %
    // (the hole is still felt a little).
    const auto far = strip.cells.cell_of(static_cast<int>(13.0 / unit));
    if (std::abs(-strip.height[far] / plain.removal - 1.0) > 0.02)
      state.SkipWithError("face removal is not that of the steady nip");
  }
  state.counters["steps"] = steps / static_cast<double>(state.iterations());
  state.counters["applications_per_step"] = applications / steps;
  state.counters["step_time"] =
      benchmark::Counter(steps, benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}
void nested(benchmark::State& state) {
  line_pass(state, true);
}
void single(benchmark::State& state) {
  line_pass(state, false);
}
BENCHMARK(nested)->ArgsProduct({{20, 80}, {of_theory, as_it_is}})->Unit(benchmark::kMillisecond);
BENCHMARK(single)->ArgsProduct({{20, 80}, {of_theory}})->Unit(benchmark::kMillisecond);

/// Three belts after one another over a part with four features, as `run` simulates them: drums,
/// static and wearing nips, sections and passes.
void three_stations(benchmark::State& state) {
  const auto cover = static_cast<Cover>(state.range(0));
  sim::Setup setup;
  setup.scenario.part.thickness = 1.5;
  const auto add = [&](const char* name, cases::FeatureKind kind, double size, cases::Side side) {
    cases::Feature feature;
    feature.name = name;
    feature.kind = kind;
    if (size > 0.0) feature.size = size;
    feature.side = side;
    feature.burr =
        models::WallBurr{.height = burr_height, .root = 0.15, .taper = 0, .flow_stress = 300};
    setup.scenario.part.features.push_back(feature);
  };
  add("leading", cases::FeatureKind::outer_edge, 0, cases::Side::leading);
  add("hole-4", cases::FeatureKind::hole, 4, cases::Side::trailing);
  add("hole-6", cases::FeatureKind::hole, 6, cases::Side::leading);
  add("slot-20", cases::FeatureKind::slot, 20, cases::Side::trailing);
  for (const double shore : {60.0, 40.0, 20.0}) {
    sim::BeltSetup station = station_of(shore, cover);
    station.setting = cases::InterferenceSetting{0.3};
    setup.stations.emplace_back(station);
  }
  for (auto _ : state) {
    const auto answer = sim::line::simulate(setup, {});
    if (!(answer.last.back().part.burrs.face.removed > 0.0))
      state.SkipWithError("the face lost nothing");
  }
}
BENCHMARK(three_stations)->Arg(of_theory)->Arg(as_it_is)->Unit(benchmark::kMillisecond);

/// One contact of the bare cover on a plate with the kernel at hand, from no pressure at all.
void static_contact(benchmark::State& state) {
  const auto station = tests::bare_drum(40);
  const sim::line::Drum drum(station, interference);
  const double half_span = 11.0;
  const auto cells = static_cast<std::size_t>(state.range(0));
  const double spacing = 2.0 * half_span / static_cast<double>(cells);
  sim::LineCompliance compliance(drum.compliance(), spacing, cells, 320.0);
  std::vector<double> overlap(cells);
  for (std::size_t i = 0; i < cells; ++i) {
    const double x = (static_cast<double>(i) - 0.5 * static_cast<double>(cells - 1)) * spacing;
    overlap[i] = interference - drum.rise(x);
  }
  const std::vector<std::uint8_t> metal(cells, 1);
  sim::ContactSolver solver;
  std::vector<double> pressure(cells);
  double load = 0.0;
  for (auto _ : state) {
    std::fill(pressure.begin(), pressure.end(), 0.0);
    solver.solve(compliance, overlap, metal,
                 [](std::size_t, double) {
                   return sim::LocalGive{0.0, 0.0};
                 },
                 pressure, {.gap = 1e-5});
    load = 0.0;
    for (const double p : pressure)
      load += p * spacing;
  }
  // Collocation of the same problem: references, 1.8501 N/mm.
  state.counters["off_per_cent"] = 100.0 * (load / 1.8501 - 1.0);
}
BENCHMARK(static_contact)->Arg(81)->Arg(121)->Arg(243)->Unit(benchmark::kMicrosecond);

void static_nip(benchmark::State& state) {
  const auto station = station_of(40, static_cast<Cover>(state.range(0)));
  const sim::line::Drum drum(station, interference);
  const double window = sim::line::response_window(station, {});
  for (auto _ : state)
    benchmark::DoNotOptimize(sim::line::static_nip(drum, interference, window).line_load);
}
BENCHMARK(static_nip)->Arg(of_theory)->Arg(as_it_is)->Unit(benchmark::kMicrosecond);

void transform_pair(benchmark::State& state) {
  sim::RealFft fft(sim::RealFft::good_length(static_cast<std::size_t>(state.range(0))));
  std::fill(fft.samples().begin(), fft.samples().end(), 0.1);
  const double scale = 1.0 / static_cast<double>(fft.length());
  for (auto _ : state) {
    fft.forward();
    for (auto& c : fft.components())
      c *= scale;
    fft.backward();
    benchmark::DoNotOptimize(fft.samples().data());
  }
}
BENCHMARK(transform_pair)->Arg(512)->Arg(1024)->Arg(10000)->Unit(benchmark::kMicrosecond);

}  // namespace
