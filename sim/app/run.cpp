#include "sim/run.hpp"

#include <chrono>
#include <cstdio>
#include <iostream>
#include <utility>

#include "cases/reader.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/stop_signal.hpp"
#include "sim/app/summary_text.hpp"
#include "sim/app/terminal.hpp"
#include "sim/numerics/error.hpp"
#include "sim/setup.hpp"
#include "viz/writers.hpp"

namespace drumlin::app {

namespace {

void expect_folder(const RunCommand& command) {
  try {
    viz::expect_writable(command.out, command.overwrite);
  } catch (const std::runtime_error& error) {
    throw InputError(error.what());
  }
}

viz::WriteReport write(const sim::Result& result, const RunCommand& command) {
  try {
    return viz::write(result, command.out,
                      {.overwrite = command.overwrite, .pictures = command.pictures});
  } catch (const std::runtime_error& error) {
    throw InputError(error.what());
  }
}

}  // namespace

int carry_out(const RunCommand& command) {
  const auto start = std::chrono::steady_clock::now();
  const sim::Setup setup = sim::set_up(cases::read(command.case_file));
  expect_folder(command);
  const StopOnSignal stop;
  ProgressLine line(stderr, !command.quiet && stderr_is_terminal());
  sim::Result result = sim::run(
      setup, [&line](double share, std::string_view what) { line.show(share, what); },
      stop.token());
  line.wipe();
  if (stop.token().stop_requested()) throw sim::Stopped();
  const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - start;
  result.provenance.wall_s = wall.count();
  const viz::WriteReport written = write(result, command);
  if (!command.quiet) {
    const Style style = stdout_style();
    std::cout << summary_text(result, style)
              << files_text(command.out.string(), written.files, written.remarks, style);
  }
  return command.strict && !result.verdict.accepted ? not_accepted : done;
}

}  // namespace drumlin::app
