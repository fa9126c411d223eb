#pragma once

#include <cstddef>
#include <vector>

#include "sim/bands.hpp"

namespace drumlin::sim {

/// Adds what is uncertain about a brush station.
void add_brush_variations(std::vector<Variation>& list, const Setup& setup, std::size_t index);

}  // namespace drumlin::sim
