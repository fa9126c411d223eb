#pragma once

#include "models/burr/burr_kinds.hpp"
#include "models/burr/fold.hpp"

namespace drumlin::sim::fast {

/// Width of face that a burr covers from the edge line inwards [mm]; 0 without burr.
[[nodiscard]] double footprint(const models::AnyBurr& burr);

/// Mean height of a burr over a stretch of its footprint [mm], so that cells of any width hold its
/// metal.
///
/// @param from, to  distances from the edge line into the metal, across the edge [mm].
[[nodiscard]] double mean_height(const models::AnyBurr& burr, double from, double to);

/// How far a burr shifts the edge line out [mm]: a stub's protrusion.
[[nodiscard]] double shift_of(const models::AnyBurr& burr);

/// A plate that lies flat about a hinge half its thickness inside the edge line and reaches so far
/// beyond it.
[[nodiscard]] models::Lip flat_lip(double overhang, double thickness);

/// Overhang of a lip beyond the edge line [mm].
[[nodiscard]] double overhang(const models::Lip& lip);

}  // namespace drumlin::sim::fast
