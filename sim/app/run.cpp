#include <chrono>
#include <cstdio>
#include <iostream>

#include "cases/reader.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/computed.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/stop_signal.hpp"
#include "sim/app/summary_text.hpp"
#include "sim/app/terminal.hpp"
#include "sim/app/user_fault.hpp"
#include "sim/setup.hpp"
#include "viz/writers.hpp"

namespace drumlin::app {

int carry_out(const RunCommand& command) {
  const auto start = std::chrono::steady_clock::now();
  const sim::Setup setup = sim::set_up(cases::read(command.case_file));
  for_the_user([&] { viz::expect_writable(command.out, command.overwrite); });
  const StopOnSignal stop;
  ProgressLine line(stderr, !command.quiet && stderr_is_terminal());
  sim::Result result = explained(setup, line, stop.token());
  line.wipe();
  const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - start;
  result.provenance.wall_s = wall.count();
  const viz::WriteReport written = for_the_user([&] {
    return viz::write(result, command.out,
                      {.overwrite = command.overwrite, .pictures = command.pictures});
  });
  if (!command.quiet) {
    const Style style = stdout_style();
    std::cout << summary_text(result, style)
              << files_text(command.out.string(), written.files, written.remarks, style);
  }
  return command.strict && !result.verdict.accepted ? not_accepted : done;
}

}  // namespace drumlin::app
