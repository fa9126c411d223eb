#pragma once

#include "sim/line/surface.hpp"

namespace drumlin::sim::line {

/// Strikes beads off the face that lies up: every bead that stands higher above the worn face than
/// the tool clears, if the strike comes to what its bond holds (`breaking_strike`), its arm where
/// the tool's lower edge meets the bead's flank. Burrs of other kinds are metal of the part: the
/// tool passes over them.
void knock_off(const KnockOffSetup& tool, Surface& surface);

}  // namespace drumlin::sim::line
