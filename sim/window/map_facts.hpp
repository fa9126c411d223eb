#pragma once

#include "sim/window_result.hpp"

namespace drumlin::sim {

/// Fills in what follows from a map's points and leaves: shares of the map by kind, limits whose
/// margin leaps at the border, and why points could not be computed.
void add_map_facts(Window& window);

}  // namespace drumlin::sim
