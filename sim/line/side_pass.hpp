#pragma once

#include <vector>

#include "sim/line/drum.hpp"
#include "sim/line/plain_nip.hpp"
#include "sim/line/surface.hpp"

namespace drumlin::sim::line {

/// Strips across the edges that lie along the feed, unworn: x is the way across the edge.
///
/// @param burrs  whether they carry the features' burrs (the other face of the part does not).
[[nodiscard]] std::vector<Strip> unworn_sides(const cases::Part& part, const Fineness& fineness,
                                              bool burrs);

/// Lets a drum pass over the edges that lie along the feed.
///
/// The nip's pressure along the feed is the plain face's; across the edge each place of it presses
/// as a long, straight drum would.
///
/// @param plain  what the drum does to the plain face in this pass.
/// @throws NumericsError if a step does not converge.
void pass_sides(const Drum& drum, const PlainPass& plain, double interference,
                std::vector<Strip>& sides);

}  // namespace drumlin::sim::line
