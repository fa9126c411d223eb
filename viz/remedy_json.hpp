#pragma once

#include <nlohmann/json.hpp>

#include "sim/remedy_result.hpp"

namespace drumlin::viz {

/// What would have to change, as "remedies" of summary.json; numbers carry their unit in the key.
[[nodiscard]] nlohmann::ordered_json remedies_json(const sim::RemedyStudy& study);

/// What each knob moves, as "sensitivities" of summary.json.
[[nodiscard]] nlohmann::ordered_json sensitivities_json(const sim::RemedyStudy& study);

/// A unit as keys have it: "m/min" as "m_per_min"; empty for a pure number.
[[nodiscard]] std::string unit_in_key(const std::string& unit);

}  // namespace drumlin::viz
