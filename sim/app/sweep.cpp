#include <charconv>
#include <cstdio>
#include <iostream>

#include <fmt/format.h>
#include <unistd.h>

#include "cases/file_text.hpp"
#include "cases/study_reader.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/stop_signal.hpp"
#include "sim/app/store_desk.hpp"
#include "sim/app/study_analysis.hpp"
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

sim::StudyHeader checked_header(const SweepCommand& command, const cases::Study& study,
                                const sim::RowRunner& runner) {
  sim::StudyHeader header = sim::header_of(study, runner, cases::sha256);
  const std::string doubtful = aims_without_numbers(wishes_for(header, study.file), runner);
  if (!command.quiet && !doubtful.empty()) std::cerr << doubtful;
  return header;
}

viz::StudyStore open_store(const SweepCommand& command, const sim::StudyHeader& header) {
  const viz::Shard shard = parse_shard(command.shard);
  const bool there = fs::exists(command.out);
  if (there && !command.resume)
    throw InputError(
        fmt::format("{}: exists already; add --resume to go on with it, or name "
                    "another folder",
                    command.out.string()));
  return for_the_user([&] {
    return there ? viz::StudyStore::resume(command.out, header, shard)
                 : viz::StudyStore::create(command.out, header, shard);
  });
}

void pack_and_tell(const SweepCommand& command, viz::StudyStore& store, ProgressLine& line,
                   const std::stop_token& stop) {
  const auto packed_share = [&](double share) {
    if (stop.stop_requested())
      throw sim::Stopped(
          fmt::format("stopped on request; all parts of this study are in {}; the same command "
                      "with --resume packs them",
                      command.out.string()));
    line.show(rows_share + (1.0 - rows_share) * share, "packing");
  };
  try {
    store.finish(packed_share);
  } catch (const sim::Stopped&) {
    throw;
  } catch (const std::runtime_error& error) {
    throw InputError(
        fmt::format("{}; all parts of this study are kept in {}; the same command with "
                    "--resume packs them",
                    error.what(), command.out.string()));
  }
  line.wipe();
  if (!store.finished()) {
    if (!command.quiet)
      std::cout << fmt::format("Part {} of the study is done; drumlin merge packs all parts.\n",
                               command.shard);
    return;
  }
  for_the_user([&] {
    const viz::StudyFile packed(store.packed_file());
    if (command.csv) viz::write_study_csv(packed, command.out / "study.csv");
    const std::string says = write_analysis(packed, command.study_file.string(), command.out,
                                            command.out.string(), stdout_style());
    if (!command.quiet) std::cout << says;
  });
}

bool is_whole_study(const SweepCommand& command) {
  return !command.row && !command.dry_run;
}

int carry_out(const SweepCommand& command) {
  const cases::Study study = cases::read_study(command.study_file);
  if (command.row) return one_row(command, study);
  const viz::Shard shard = parse_shard(command.shard);
  if (command.out.empty() && !command.dry_run)
    throw InputError("--out is required: the folder for the table (or --dry-run)");
  sim::RowRunner runner(study, command.threads);
  const sim::StudyHeader header = checked_header(command, study, runner);
  if (command.dry_run) {
    std::cout << forecast_text(study, runner, shard, command.study_file.string(), stdout_style());
    return done;
  }
  viz::StudyStore store = open_store(command, header);
  const StopOnSignal stop;
  ProgressLine line(stderr, !command.quiet && stderr_is_terminal());
  StoreDesk desk(store, line);
  try {
    compute_chunks(study, header, runner, desk, fmt::format("{}:{}", viz::machine_name(), getpid()),
                   stop.token());
  } catch (const sim::Stopped&) {
    // What is kept is counted below; a stop that came last of all is none.
  }
  desk.expect_all_kept();
  pack_and_tell(command, store, line, stop.token());
  return done;
}

}  // namespace drumlin::app
