// What does it cost to write a line run down, and to keep the frames that are written? Times every
// writer alone on two shipped cases, first-look (one section, about 280 steps) and panel-soft
// (three sections, about 190 steps each), then all data files together, which shall take 0.3 s at
// most. Beside each time stands, from the same process, what the same bytes in as many files cost
// when they are written plainly. Pictures are timed family by family in one window that is open
// already, the window by itself. The files are looked at before anything is timed.

#include <algorithm>
#include <chrono>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <list>
#include <map>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "cases/reader.hpp"
#include "sim/line/line_model.hpp"
#include "sim/run.hpp"
#include "viz/output.hpp"

using namespace drumlin;
namespace fs = std::filesystem;

namespace {

constexpr double most_seconds = 0.3;  // for the data files of one run

double seconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

cases::Case shipped(const std::string& name) {
  return cases::read(std::string(DRUMLIN_SOURCE_DIR) + "/cases/examples/" + name + ".toml");
}

/// Result of a shipped case, run once with everything that a user gets.
const sim::Result& result_of(const std::string& name) {
  static std::map<std::string, sim::Result> kept;
  const auto found = kept.find(name);
  if (found != kept.end()) return found->second;
  return kept.emplace(name, sim::run(sim::set_up(shipped(name)))).first->second;
}

/// A folder of its own, gone with the object.
class Scratch {
 public:
  Scratch()
      : path_(fs::temp_directory_path() /
              ("drumlin-writers-" +
               std::to_string(std::chrono::steady_clock::now().time_since_epoch().count()))) {
    fs::create_directories(path_);
  }
  ~Scratch() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  Scratch(Scratch&&) = delete;
  Scratch& operator=(Scratch&&) = delete;
  [[nodiscard]] const fs::path& path() const noexcept { return path_; }

 private:
  fs::path path_;
};

using Contents = std::map<std::string, std::string>;

Contents contents(const fs::path& folder) {
  Contents out;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file()) continue;
    std::ifstream file(entry.path(), std::ios::binary);
    out[entry.path().lexically_relative(folder).string()] = {std::istreambuf_iterator<char>(file),
                                                             {}};
  }
  return out;
}

/// Shortest of some times to write the same bytes into as many files [s]: the floor.
double plain_seconds(const Contents& files) {
  double least = 1e9;
  std::list<Scratch> places;
  for (int round = 0; round < 5; ++round) {
    const Scratch& place = places.emplace_back();
    const auto start = std::chrono::steady_clock::now();
    for (const auto& [name, bytes] : files) {
      fs::create_directories((place.path() / name).parent_path());
      std::ofstream(place.path() / name, std::ios::binary) << bytes;
    }
    least = std::min(least, seconds_since(start));
  }
  return least;
}

using Write = void (*)(const sim::Result&, viz::Output&);

void write_data(const sim::Result& result, viz::Output& out) {
  viz::write_summary_json(result, out);
  viz::write_hdf5(result, out);
  viz::write_vtk_series(result, out);
}

/// One writer (or some) into a fresh folder each time.
void data(benchmark::State& state, Write write, const std::string& name) {
  const sim::Result& result = result_of(name);
  const auto into = [&](const Scratch& place) {
    viz::Output out(place.path(), {.overwrite = true, .pictures = false});
    write(result, out);
  };
  Contents files;
  {
    const Scratch place;
    into(place);
    files = contents(place.path());
  }
  double bytes = 0;
  for (const auto& [file, text] : files) {
    if (text.empty()) state.SkipWithError((file + " is empty").c_str());
    bytes += static_cast<double>(text.size());
  }
  if (files.empty()) state.SkipWithError("nothing was written");
  double spent = 0;
  // Folders go at the end: a file system is slow to give away again what was freed a moment ago.
  std::list<Scratch> places;
  for (auto _ : state) {
    const Scratch& place = places.emplace_back();
    const auto start = std::chrono::steady_clock::now();
    into(place);
    const double once = seconds_since(start);
    state.SetIterationTime(once);
    spent += once;
  }
  const double each = spent / static_cast<double>(state.iterations());
  state.counters["files"] = static_cast<double>(files.size());
  state.counters["bytes"] = bytes;
  state.counters["over_plain_writing"] = each / plain_seconds(files);
  state.counters["share_of_0.3_s"] = each / most_seconds;
}

/// One family of pictures in a window that is open already.
void pictures(benchmark::State& state, Write write, const std::string& name) {
  const sim::Result& result = result_of(name);
  const Scratch place;
  viz::Output out(place.path(), {.overwrite = true, .pictures = true});
  if (out.screen() == nullptr) {
    state.SkipWithError("nothing can be drawn here");
    return;
  }
  write(result, out);
  const Contents files = contents(place.path());
  for (auto _ : state)
    write(result, out);
  double bytes = 0;
  for (const auto& [file, text] : files)
    bytes += static_cast<double>(text.size());
  state.counters["files"] = static_cast<double>(files.size());
  state.counters["bytes"] = bytes;
  state.counters["per_picture"] = benchmark::Counter(
      static_cast<double>(std::max<std::size_t>(1, files.size())),
      benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

/// The window that all pictures of a run share.
void open_window(benchmark::State& state) {
  for (auto _ : state) {
    viz::Output out(fs::temp_directory_path(), {.overwrite = true, .pictures = true});
    if (out.screen() == nullptr) state.SkipWithError("nothing can be drawn here");
  }
}

/// The line model alone, without and with as many frames as `run` keeps, turn by turn: what
/// watching costs the solver. Shortest times count, since a busy machine only adds.
void recording(benchmark::State& state, const std::string& name) {
  constexpr int frames = 48;
  const sim::Setup setup = sim::set_up(shipped(name));
  const cases::Numerics& numerics = setup.scenario.numerics;
  std::map<int, double> least{{0, 1e9}, {frames, 1e9}};
  std::map<int, double> least_cpu = least;  // of the processor: what others do counts less
  for (auto _ : state) {
    for (auto& [kept, shortest] : least) {
      const auto start = std::chrono::steady_clock::now();
      const std::clock_t cpu = std::clock();
      const auto answer =
          sim::line::simulate(setup, {.fineness = {.resolution = numerics.resolution,
                                                   .root_cells = 8,
                                                   .steps = numerics.steps,
                                                   .nested = true},
                                      .frames = kept,
                                      .progress = {},
                                      .stop = {}});
      shortest = std::min(shortest, seconds_since(start));
      least_cpu[kept] = std::min(least_cpu[kept], static_cast<double>(std::clock() - cpu) /
                                                      static_cast<double>(CLOCKS_PER_SEC));
      if (answer.records.empty() != (kept == 0)) state.SkipWithError("frames where none belong");
    }
    state.SetIterationTime(least[frames]);
  }
  state.counters["unwatched_ms"] = 1e3 * least[0];
  state.counters["watched_over_unwatched"] = least[frames] / least[0];
  state.counters["cpu_watched_over_unwatched"] = least_cpu[frames] / least_cpu[0];
}

struct Named {
  const char* name;
  Write write;
};

constexpr Named data_writers[] = {{"summary_json", viz::write_summary_json},
                                  {"results_h5", viz::write_hdf5},
                                  {"vtk_series", viz::write_vtk_series},
                                  {"all_data", write_data}};
constexpr Named picture_writers[] = {{"all", viz::write_pictures}, {"report", viz::write_report}};

}  // namespace

int main(int argc, char** argv) {
  for (const std::string name : {"first-look", "panel-soft"}) {
    for (const Named& writer : data_writers)
      benchmark::RegisterBenchmark((std::string(writer.name) + "/" + name).c_str(), data,
                                   writer.write, name)
          ->UseManualTime()
          ->Unit(benchmark::kMillisecond);
    benchmark::RegisterBenchmark(("recording/" + name).c_str(), recording, name)
        ->UseManualTime()
        ->Iterations(15)
        ->Unit(benchmark::kMillisecond);
  }
  benchmark::RegisterBenchmark("open_window", open_window)->Unit(benchmark::kMillisecond);
  for (const Named& writer : picture_writers)
    benchmark::RegisterBenchmark((std::string("pictures_") + writer.name).c_str(), pictures,
                                 writer.write, std::string("panel-soft"))
        ->Unit(benchmark::kMillisecond);
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  benchmark::RunSpecifiedBenchmarks();
  benchmark::Shutdown();
  return 0;
}
