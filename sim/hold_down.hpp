#pragma once

#include "sim/line_economy_result.hpp"
#include "sim/result.hpp"
#include "sim/setup.hpp"

/// Whether parts stay where the conveyor puts them.
namespace drumlin::sim {

/// Friction of parts on the conveyor with the case's cooling, and its band [-].
[[nodiscard]] const cases::Sourced& grip_friction(const cases::Case& scenario);

/// Adds the hold of one part under one tool: drag, margins, the smallest part, missing suction.
///
/// @param station  belt or brush; `stated` is what a model says of it.
void state_hold_down(const Setup& setup, std::size_t station, const StationResult& stated,
                     StationEconomy& economy);

/// Grip margin of a part under all tools of the line at once, drags along and against the feed
/// taken off each other; absent with fewer than two tools that push.
[[nodiscard]] Quantity margin_under_all(const Setup& setup,
                                        const std::vector<StationResult>& stations);

}  // namespace drumlin::sim
