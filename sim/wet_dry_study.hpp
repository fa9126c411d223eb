#pragma once

#include <optional>
#include <stop_token>

#include "sim/line_economy_result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// The case dry and wet side by side, all else as it is, by the fast model: friction, removal,
/// power, hold and cost. Cooling itself, dust and drying are not in it.
///
/// @return  absent where the line has no tool on the part's face.
[[nodiscard]] std::optional<WetDryStudy> study_wet_dry(const Setup& setup,
                                                       const std::stop_token& stop);

}  // namespace drumlin::sim
