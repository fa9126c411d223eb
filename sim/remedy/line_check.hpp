#pragma once

#include <stop_token>

#include "cases/case.hpp"
#include "sim/remedy_result.hpp"

namespace drumlin::sim {

/// What the case's own model says of a change that was found in the fast one.
///
/// @param changed  the case with the change.
/// @param limit    index of the limit that it is for; -1: all.
/// @throws Stopped
[[nodiscard]] LineCheck line_check(const cases::Case& changed, int limit,
                                   const std::stop_token& stop);

}  // namespace drumlin::sim
