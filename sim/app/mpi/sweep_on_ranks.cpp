#include "sim/app/mpi/sweep_on_ranks.hpp"

#include <memory>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "cases/study_reader.hpp"
#include "sim/app/mpi/computing.hpp"
#include "sim/app/mpi/service.hpp"
#include "sim/app/store_desk.hpp"
#include "sim/app/sweep_parts.hpp"
#include "sim/app/terminal.hpp"
#include "sim/sweep/study_table.hpp"

namespace drumlin::app {
namespace {

/// A study as one rank has read it.
struct Prepared {
  cases::Study study;
  sim::RowRunner runner;
  sim::StudyHeader header;

  Prepared(const SweepCommand& command, unsigned threads)
      : study(cases::read_study(command.study_file)),
        runner(study, threads),
        header(checked_header(command, study, runner)) {}
};

/// A study that is the same on all ranks.
std::unique_ptr<Prepared> prepared(const SweepCommand& command, const Ranks& ranks) {
  const unsigned share = ranks.share_of_cores();
  SweepCommand own = command;
  own.quiet = own.quiet || ranks.rank() != 0;  // warnings are said once
  std::unique_ptr<Prepared> made;
  ranks.agree(problem_of([&] {
    static_cast<void>(parse_shard(command.shard));
    if (command.out.empty()) throw InputError("--out is required: the folder for the table");
    made = std::make_unique<Prepared>(own, command.threads == 0 ? share : command.threads);
  }));
  const std::string first = ranks.of_rank_0(made->header.identity);
  ranks.agree(problem_of([&] {
    if (made->header.identity != first)
      throw InputError(
          fmt::format("{}: the study that {} reads is not that of rank 0: another version of "
                      "drumlin, of a file, or another kind of processor",
                      command.study_file.string(), viz::machine_name()));
  }));
  return made;
}

}  // namespace

void sweep_on_ranks(const SweepCommand& command, const Ranks& ranks, std::stop_token stop) {
  const std::unique_ptr<Prepared> made = prepared(command, ranks);
  const std::string name = fmt::format("{}:rank {}", viz::machine_name(), ranks.rank());
  const bool holds_folder = ranks.rank() == 0;
  std::optional<viz::StudyStore> store;
  ranks.agree(problem_of([&] {
    if (holds_folder) store.emplace(open_store(command, made->header));
  }));
  ProgressLine line(stderr, holds_folder && !command.quiet && stderr_is_terminal());
  std::exception_ptr problem;
  {
    Computing computing(made->study, made->header, made->runner, name, stop);
    if (holds_folder) {
      StoreDesk desk(*store, line);
      problem = problem_of([&] { Service(ranks, computing, desk).run(); });
      if (!problem) problem = computing.failure();
      if (!problem) problem = problem_of([&] { desk.expect_all_kept(); });
    } else {
      talk_to_rank_0(ranks, computing);
      problem = computing.failure();
    }
  }
  line.wipe();
  ranks.agree(problem);
  ranks.agree(problem_of([&] {
    if (holds_folder) pack_and_tell(command, *store, line, stop);
  }));
}

}  // namespace drumlin::app
