#include <iostream>
#include <optional>
#include <variant>

#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/mpi/ranks.hpp"
#include "sim/app/mpi/sweep_on_ranks.hpp"
#include "sim/app/stop_signal.hpp"
#include "sim/app/sweep_parts.hpp"

namespace {

namespace app = drumlin::app;

/// Commands that one process carries out, by rank 0; the others wait for its exit code.
int by_rank_0(const app::Command& command, const app::Ranks& ranks) {
  int code = app::done;
  std::exception_ptr problem;
  if (ranks.rank() == 0) try {
      code = std::visit([](const auto& chosen) { return app::carry_out(chosen); }, command);
    } catch (...) {
      problem = std::current_exception();
    }
  ranks.agree(problem);
  return std::stoi(ranks.of_rank_0(std::to_string(code)));
}

int all_ranks(const app::Command& command, const app::Ranks& ranks,
              const std::optional<app::StopOnSignal>& stop) {
  try {
    if (!stop) return by_rank_0(command, ranks);
    app::sweep_on_ranks(std::get<app::SweepCommand>(command), ranks, stop->token());
    return app::done;
  } catch (const app::Ended& end) {
    if (ranks.rank() == 0) std::cerr << end.what() << std::flush;
    return end.exit_code();
  }
}

}  // namespace

// The function object is small enough to be held in place: making it cannot throw.
int main(int argc, char** argv) {  // NOLINT(bugprone-exception-escape)
  const app::Command command = app::parse_command_line(argc, argv);
  const auto* sweep = std::get_if<app::SweepCommand>(&command);
  // Before MPI starts threads of its own, which would die of the signal.
  std::optional<app::StopOnSignal> stop;
  if (sweep != nullptr && app::is_whole_study(*sweep)) stop.emplace();
  const app::Ranks ranks;
  bool together = false;
  const int code = app::guarded(
      [&] {
        const int shared = all_ranks(command, ranks, stop);
        together = true;
        return shared;
      },
      std::cerr);
  // One rank that fails alone takes the others with it: they would wait for it for ever.
  if (!together) ranks.abandon(code);
  return code;
}
