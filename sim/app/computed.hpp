#pragma once

#include <stop_token>

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

/// The same with what only the case's file can tell: what would have to change for its limits, and
/// what its [uncertainty] does to the result. @throws sim::Stopped
[[nodiscard]] sim::Result explained(const sim::Setup& setup, ProgressLine& line,
                                    const std::stop_token& stop);

}  // namespace drumlin::app
