#include <chrono>
#include <cstdio>
#include <iostream>

#include "cases/window_reader.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/stop_signal.hpp"
#include "sim/app/summary_text.hpp"
#include "sim/app/terminal.hpp"
#include "sim/app/user_fault.hpp"
#include "sim/app/window_text.hpp"
#include "sim/numerics/error.hpp"
#include "sim/window/process_window.hpp"
#include "viz/window_writer.hpp"

namespace drumlin::app {

int carry_out(const WindowCommand& command) {
  const auto start = std::chrono::steady_clock::now();
  const cases::WindowStudy study = cases::read_window(command.study_file);
  for_the_user([&] { viz::expect_writable(command.out, command.overwrite); });
  const StopOnSignal stop;
  ProgressLine line(stderr, !command.quiet && stderr_is_terminal());
  sim::Window window = sim::draw_window(
      study, command.threads, [&](double share, std::string_view what) { line.show(share, what); },
      stop.token());
  line.wipe();
  if (stop.token().stop_requested()) throw sim::Stopped();
  const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - start;
  window.provenance.wall_s = wall.count();
  const viz::WriteReport written = for_the_user([&] {
    return viz::write_window(window, command.out,
                             {.overwrite = command.overwrite, .pictures = command.pictures});
  });
  if (!command.quiet) {
    const Style style = stdout_style();
    std::cout << window_text(window, style)
              << files_text(command.out.string(), written.files, written.remarks, style);
  }
  return done;
}

}  // namespace drumlin::app
