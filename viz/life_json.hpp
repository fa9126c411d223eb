#pragma once

#include <nlohmann/json.hpp>

#include "sim/life_result.hpp"

namespace drumlin::viz {

/// Belt life as summary.json holds it; units in the key names, no key where there is no value.
[[nodiscard]] nlohmann::ordered_json life_json(const sim::LifeStudy& study);

}  // namespace drumlin::viz
