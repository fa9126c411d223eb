#pragma once

#include "models/burr/burr_kinds.hpp"

namespace drumlin::sim::fast {

/// Width of face that a burr's columns take from the edge line inwards [mm]; 0 without burr. A
/// rolled burr's are those over its bend, a stub's those of its root even where no ridge stands.
[[nodiscard]] double footprint(const models::AnyBurr& burr);

/// Mean height of a burr over a stretch of its footprint [mm], so that cells of any width hold its
/// metal.
///
/// @param from, to  distances from the edge line into the metal, across the edge [mm].
[[nodiscard]] double mean_height(const models::AnyBurr& burr, double from, double to);

}  // namespace drumlin::sim::fast
