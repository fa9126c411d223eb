#pragma once

#include <vector>

#include "sim/bands.hpp"

namespace drumlin::sim {

/// Adds the share of the power that goes into the part, the least known number of its heat.
void add_heat_variations(std::vector<Variation>& list, const Setup& setup);

}  // namespace drumlin::sim
