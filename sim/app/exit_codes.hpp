#pragma once

#include <functional>
#include <iosfwd>

namespace drumlin::app {

/// What the program says to the shell that called it.
enum ExitCode : int {
  done = 0,
  not_accepted = 1,  ///< done, but not accepted, with --strict
  bad_input = 2,     ///< the case, the flags or the output folder; nothing was written
  no_solution = 3,   ///< a numerical method failed, or the program itself; nothing was written
  stopped = 130,     ///< Ctrl-C or SIGTERM; nothing was written
};

/// Runs a command and turns every error into one message on `errors` and its exit code.
[[nodiscard]] int guarded(const std::function<int()>& command, std::ostream& errors) noexcept;

}  // namespace drumlin::app
