#pragma once

#include <string>

#include "sim/setup.hpp"

namespace drumlin::sim {

/// Which way round the part is best fed, of the four quarter turns from how it lies: the one at
/// which the fast model finds the fewest limits broken, then the fewest that it cannot judge, then
/// the largest margin on what decides. Says what the turn costs in width of conveyor and,
/// where the case gives its lanes, in lanes and parts per hour.
///
/// Edges that a section normal to the drum does not show are not judged, so a part with burrs on
/// its sides gains by a turn that makes them ends.
///
/// @return  one sentence; empty where there are no limits, no edges or no belt.
/// @throws NumericsError.
[[nodiscard]] std::string feed_angle_text(const Setup& setup);

}  // namespace drumlin::sim
