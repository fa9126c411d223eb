#pragma once

#include <cstddef>
#include <vector>

#include "sim/setup.hpp"

namespace drumlin::sim {

/// Joins a brush station with the laws.
///
/// @param index     of the station.
/// @param problems  gets what the filaments' law does not hold for.
[[nodiscard]] BrushSetup brush_setup(const cases::BrushStation& station,
                                     const cases::Case& scenario, std::size_t index,
                                     std::vector<cases::Problem>& problems);

/// Penetration that a brush works with [mm], within what the filaments' law holds for.
[[nodiscard]] double working_penetration(const BrushSetup& station);

}  // namespace drumlin::sim
