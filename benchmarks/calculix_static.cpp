// What does one static contact of a drum on a plate cost in general finite elements? CalculiX in an
// active-set loop and with its own contact, and drumlin's line kernel, on the same drum.

#include <cmath>
#include <numbers>
#include <string>

#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include "sim/line/drum.hpp"
#include "sim/line/plain_nip.hpp"
#include "tests/reference/program_contact.hpp"
#include "tests/support/stations.hpp"

namespace {

using namespace drumlin;
using namespace drumlin::reference;

/// R 100 mm, cover 15 mm, nu 0.47, E 1 MPa, interference 0.5 mm.
constexpr double interference = 0.5;
constexpr Material rubber{.modulus = 1.0, .poisson_ratio = 0.47};

HalfCover drum(double elements) {
  return {.radius = 100.0, .thickness = 15.0, .interference = interference, .elements = elements};
}

/// Line load with four times the elements that are timed.
double converged() {
  static const double load = [] {
    const HalfCover cover = drum(64);
    const CoverMesh mesh = mesh_of(cover);
    return 2.0 * press_small(cover, mesh, rubber).load;
  }();
  return load;
}

/// Nothing is timed that is not within a share of the converged load; the share is reported.
bool is_right(benchmark::State& state, double load, double within) {
  const double error = load / converged() - 1.0;
  state.counters["error_percent"] = 100.0 * error;
  if (std::abs(error) <= within) return true;
  state.SkipWithError(("line load off by " + std::to_string(100.0 * error) + " %").c_str());
  return false;
}

/// Processor seconds of the programs run so far: on a shared machine worth more than wall seconds.
double seconds_of_programs() {
  rusage used{};
  getrusage(RUSAGE_CHILDREN, &used);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return seconds(used.ru_utime) + seconds(used.ru_stime);
}

/// From the set of nodes that overlap the undeformed drum until none pulls and none overlaps.
void calculix_active_set(benchmark::State& state) {
  const HalfCover cover = drum(16);
  const CoverMesh mesh = mesh_of(cover);
  std::vector<bool> overlapping;
  for (std::size_t i = 0; i < mesh.surface.size(); ++i)
    overlapping.push_back(overlap(cover, mesh, i) > 0.0);
  const double before = seconds_of_programs();
  for (auto _ : state) {
    const PlateContact plate = touch_plate(mesh, rubber, interference, overlapping, 1);
    state.counters["runs"] = plate.runs;
    if (!is_right(state, 2.0 * plate.contact.load, 5e-4)) return;
  }
  state.counters["ccx_cpu_s"] =
      benchmark::Counter(seconds_of_programs() - before, benchmark::Counter::kAvgIterations);
}

void calculix_own_contact(benchmark::State& state) {
  const HalfCover cover = drum(16);
  const CoverMesh mesh = mesh_of(cover);
  const double before = seconds_of_programs();
  for (auto _ : state) {
    const double load = program_contact_load(cover, mesh, rubber, 1e4);
    if (!is_right(state, load, 5e-4)) return;
  }
  state.counters["ccx_cpu_s"] =
      benchmark::Counter(seconds_of_programs() - before, benchmark::Counter::kAvgIterations);
}

void drumlin_static_nip(benchmark::State& state) {
  sim::BeltSetup station = tests::bare_drum(20);
  station.cover.modulus = rubber.modulus;
  station.options.curved = true;
  // The kernel's table is made once per drum; the line model's small angles cost it 0.1 % here.
  const sim::line::Drum nip(station, interference);
  for (auto _ : state) {
    const auto own = static_nip(nip, interference, 200.0 * std::numbers::pi);
    if (!is_right(state, own.line_load, 2e-3)) return;
  }
}

BENCHMARK(calculix_active_set)->Unit(benchmark::kMillisecond);
BENCHMARK(calculix_own_contact)->Unit(benchmark::kMillisecond);
BENCHMARK(drumlin_static_nip)->Unit(benchmark::kMillisecond);

}  // namespace
