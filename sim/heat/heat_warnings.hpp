#pragma once

#include <string>
#include <vector>

#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// Adds where, at which station and by how much heat passes a limit: zinc that smears or melts,
/// paint that softens, burrs that reach their melting point, temper colours, fluid that boils as a
/// film, covers that age.
void warn_of_heat(const Setup& setup, Result& result);

/// What the model of heat counts and leaves out.
[[nodiscard]] std::vector<std::string> heat_notes(const Setup& setup);

}  // namespace drumlin::sim
