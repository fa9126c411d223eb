#pragma once

#include <stop_token>

#include "cases/case.hpp"
#include "sim/app/progress.hpp"
#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::app {

/// Share of a line of progress that a piece of work fills.
struct ProgressPart {
  double from = 0;
  double to = 1;
};

/// Runs a case, showing how far it is. @throws sim::Stopped, also where the stop came last of all.
[[nodiscard]] sim::Result computed(const sim::Setup& setup, ProgressLine& line,
                                   const std::stop_token& stop, ProgressPart part = {});

/// Adds what the case's [uncertainty] does to its result, where it has one.
/// @throws sim::Stopped
void add_scatter(const cases::Case& scenario, sim::Result& result, ProgressLine& line,
                 const std::stop_token& stop);

}  // namespace drumlin::app
