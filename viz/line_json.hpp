#pragma once

#include <nlohmann/json.hpp>

#include "sim/line_economy_result.hpp"

namespace drumlin::viz {

/// Throughput, power, hold-down and cost of the line, for summary.json.
///
/// @param calibrated  what the bands say of themselves.
[[nodiscard]] nlohmann::ordered_json line_json(const sim::LineEconomy& line, bool calibrated);

/// Dry and wet side by side.
[[nodiscard]] nlohmann::ordered_json wet_dry_json(const sim::WetDryStudy& study);

}  // namespace drumlin::viz
