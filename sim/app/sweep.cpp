#include <charconv>
#include <chrono>
#include <cstdio>
#include <iostream>
#include <mutex>

#include <fmt/format.h>
#include <unistd.h>

#include "cases/file_text.hpp"
#include "cases/study_reader.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/stop_signal.hpp"
#include "sim/app/sweep_parts.hpp"
#include "sim/app/terminal.hpp"
#include "sim/app/user_fault.hpp"
#include "sim/numerics/error.hpp"
#include "sim/sweep/row_plan.hpp"
#include "sim/sweep/study_table.hpp"
#include "viz/atomic_file.hpp"
#include "viz/study/study_store.hpp"
#include "viz/study/times_file.hpp"

namespace drumlin::app {
namespace fs = std::filesystem;
namespace {

/// Packing's share of the progress line.
constexpr double packing_from = 0.95;

viz::StudyStore opened(const SweepCommand& command, const sim::StudyHeader& header) {
  const viz::Shard shard = parse_shard(command.shard);
  const bool there = fs::exists(command.out);
  if (there && !command.resume)
    throw InputError(
        fmt::format("{}: exists already; add --resume to go on with it, or name "
                    "another folder",
                    command.out.string()));
  return there ? viz::StudyStore::resume(command.out, header, shard)
               : viz::StudyStore::create(command.out, header, shard);
}

viz::RowTimes times_of(std::uint64_t chunk, const std::vector<sim::Row>& rows, unsigned threads) {
  viz::RowTimes times{.chunk = chunk,
                      .first_row = rows.front().index,
                      .rows = rows.size(),
                      .slowest_row = rows.front().index,
                      .computed_by = fmt::format("{}:{}", viz::machine_name(), getpid()),
                      .threads = threads};
  for (const sim::Row& row : rows) {
    times.rows_s += row.wall_s;
    if (row.wall_s <= times.slowest_s) continue;
    times.slowest_s = row.wall_s;
    times.slowest_row = row.index;
  }
  return times;
}

/// Computes the chunks that a store lacks and keeps them as they come.
class Rows {
 public:
  Rows(const cases::Study& study, const sim::StudyHeader& header, viz::StudyStore& store)
      : study_(study), header_(header), store_(store), missing_(store.missing()) {}

  /// @throws sim::Stopped saying what is kept; InputError if it cannot be kept.
  void compute(sim::RowRunner& runner, ProgressLine& line, const std::stop_token& stop) {
    try {
      runner.stream([&] { return next(); },
                    [&](sim::RowRange range, const std::vector<sim::Row>& rows) {
                      take(range, rows, runner.threads());
                      show(line);
                    },
                    stop);
    } catch (const sim::Stopped&) {
      stopped_ = true;
    }
    if (stopped_ || kept_ < missing_.size())
      throw sim::Stopped(fmt::format(
          "stopped on request; {} of {} parts of this study are in {}; the same command with "
          "--resume goes on",
          kept_ + before(), kept_ + before() + missing_.size() - kept_, store_.folder().string()));
  }

 private:
  std::optional<sim::RowRange> next() {
    if (given_ == missing_.size()) return std::nullopt;
    return range_of(header_, missing_[given_++]);
  }

  void take(sim::RowRange range, const std::vector<sim::Row>& rows, unsigned threads) {
    const std::uint64_t chunk = range.first / header_.rows_per_chunk;
    for_the_user([&] {
      store_.keep(chunk_of(study_, header_, chunk, rows));
      viz::add_times(store_.folder(), times_of(chunk, rows, threads));
    });
    ++kept_;
  }

  void show(ProgressLine& line) const {
    const double share = static_cast<double>(kept_) / static_cast<double>(missing_.size());
    line.show(packing_from * share, fmt::format("rows, {} of {} parts", kept_, missing_.size()));
  }

  [[nodiscard]] std::uint64_t before() const { return store_.owned() - missing_.size(); }

  const cases::Study& study_;
  const sim::StudyHeader& header_;
  viz::StudyStore& store_;
  std::vector<std::uint64_t> missing_;
  std::size_t given_ = 0;
  std::size_t kept_ = 0;
  bool stopped_ = false;
};

int one_row(const SweepCommand& command, const cases::Study& study) {
  sim::RowRunner runner(study, 1);
  std::cout << row_text(study, runner, *command.row, stdout_style());
  if (command.out.empty()) return done;
  if (fs::exists(command.out))
    throw InputError(command.out.string() + ": exists already; name another file");
  const std::string text = fmt::format("# Row {} of {}.\n", *command.row, study.title) +
                           study.text_with(sim::RowPlan(study).values(*command.row));
  for_the_user([&] { viz::write_whole_file(command.out, text); });
  std::cout << fmt::format("\nIts case is in {}.\n", command.out.string());
  return done;
}

}  // namespace

viz::Shard parse_shard(const std::string& text) {
  if (text.empty()) return {};
  const std::size_t slash = text.find('/');
  const auto number = [&](std::string_view part) -> std::optional<std::uint64_t> {
    std::uint64_t value = 0;
    const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), value);
    if (error != std::errc() || end != part.data() + part.size()) return std::nullopt;
    return value;
  };
  if (slash != std::string::npos) {
    const auto i = number(std::string_view(text).substr(0, slash));
    const auto n = number(std::string_view(text).substr(slash + 1));
    if (i && n && *n > 0 && *i <= *n) return {*i % *n, *n};
  }
  throw InputError(
      fmt::format("--shard {}: expected i/n, such as 1/4; i from 0 to n - 1 or from 1 to n", text));
}

int carry_out(const SweepCommand& command) {
  const cases::Study study = cases::read_study(command.study_file);
  if (command.row) return one_row(command, study);
  const viz::Shard shard = parse_shard(command.shard);
  if (command.out.empty() && !command.dry_run)
    throw InputError("--out is required: the folder for the table (or --dry-run)");
  sim::RowRunner runner(study, command.threads);
  const Style style = stdout_style();
  if (command.dry_run) {
    std::cout << forecast_text(study, runner, shard, command.study_file.string(), style);
    return done;
  }
  const sim::StudyHeader header = sim::header_of(study, runner, cases::sha256);
  viz::StudyStore store = for_the_user([&] { return opened(command, header); });
  const StopOnSignal stop;
  ProgressLine line(stderr, !command.quiet && stderr_is_terminal());
  Rows(study, header, store).compute(runner, line, stop.token());
  for_the_user([&] {
    store.finish(
        [&](double share) { line.show(packing_from + (1.0 - packing_from) * share, "packing"); });
  });
  line.wipe();
  if (!store.finished()) {
    if (!command.quiet)
      std::cout << fmt::format("Part {} of the study is done; drumlin merge packs all parts.\n",
                               command.shard);
    return done;
  }
  for_the_user([&] {
    const viz::StudyFile packed(store.packed_file());
    if (command.csv) viz::write_study_csv(packed, command.out / "study.csv");
    if (!command.quiet) std::cout << study_text(packed, command.out.string(), style);
  });
  return done;
}

}  // namespace drumlin::app
