#pragma once

#include "sim/cost_per_part.hpp"
#include "sim/line_economy_result.hpp"
#include "sim/result.hpp"
#include "sim/setup.hpp"

/// Throughput, power, hold-down and cost of the line.
namespace drumlin::sim {

/// Friction of a belt on the drum that drives it and its wrap, for the question whether its tension
/// is enough (common practice, no source).
inline constexpr double drive_friction = 0.4;
inline constexpr double drive_wrap = 3.14159265358979323846;  ///< [rad] half a turn

/// @param stations  what a model says of each station of the set-up, bands as far as it has them.
/// @param life      of belts and brushes, where a model predicts it.
[[nodiscard]] LineEconomy line_economy(const Setup& setup,
                                       const std::vector<StationResult>& stations,
                                       const PredictedLife& life = {});

/// Whether a station rubs on the part: a belt or a brush.
[[nodiscard]] bool is_tool(const StationSetup& station) noexcept;

}  // namespace drumlin::sim
