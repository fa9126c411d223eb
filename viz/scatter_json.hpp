#pragma once

#include <nlohmann/json.hpp>

#include "sim/scatter_result.hpp"

namespace drumlin::viz {

/// Part "uncertainty" of summary.json.
[[nodiscard]] nlohmann::ordered_json scatter_json(const sim::ScatterStudy& scatter);

}  // namespace drumlin::viz
