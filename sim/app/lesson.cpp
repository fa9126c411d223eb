#include "sim/lesson.hpp"

#include <cstdio>
#include <iostream>

#include <fmt/format.h>

#include "cases/reader.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/computed.hpp"
#include "sim/app/exit_codes.hpp"
#include "sim/app/progress.hpp"
#include "sim/app/stop_signal.hpp"
#include "sim/app/terminal.hpp"
#include "sim/app/user_fault.hpp"
#include "sim/lesson_axes.hpp"
#include "viz/lesson_page.hpp"
#include "viz/page_file.hpp"

namespace drumlin::app {
namespace {

/// Share of the time that the run of the whole case takes.
constexpr double run_share = 0.3;

void expect_belt(const cases::Case& scenario) {
  if (sim::lesson_topic(scenario)) return;
  throw InputError(
      fmt::format("{}: a lesson shows a belt, and no [[station]] of this case is of kind \"belt\"",
                  scenario.file));
}

}  // namespace

int carry_out(const LessonCommand& command) {
  const cases::Case scenario = cases::read(command.case_file);
  expect_belt(scenario);
  const sim::Setup setup = sim::set_up(scenario);
  for_the_user([&] { viz::expect_page_writable(command.out, command.overwrite); });
  const StopOnSignal stop;
  ProgressLine line(stderr, !command.quiet && stderr_is_terminal());
  const sim::Result result = computed(setup, line, stop.token(), {.to = run_share});
  const auto lesson = sim::work_out_lesson(
      scenario,
      [&](double share, std::string_view what) {
        line.show(run_share + (1.0 - run_share) * share, what);
      },
      stop.token());
  line.wipe();
  const std::string html = viz::lesson_page(lesson.value(), result, command.answers);
  for_the_user([&] { viz::write_page(command.out, html, command.overwrite); });
  if (!command.quiet)
    std::cout << fmt::format(
        "{}: lesson of {} steps, {} with a warning in place of numbers, {:.0f} kB\n",
        command.out.string(), lesson->steps.size(), lesson->hidden,
        static_cast<double>(html.size()) / 1000.0);
  return done;
}

}  // namespace drumlin::app
