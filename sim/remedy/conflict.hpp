#pragma once

#include <optional>

#include "sim/remedy_result.hpp"

namespace drumlin::sim {

/// What the limits go by that are sought all at once.
inline constexpr const char* all_limits = "all limits";

/// Which limit most of what meets the worst limit works against; none where nothing does.
[[nodiscard]] std::optional<Conflict> conflict_of(const RemedyStudy& study);

}  // namespace drumlin::sim
