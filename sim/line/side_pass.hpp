#pragma once

#include <functional>
#include <span>
#include <vector>

#include "sim/line/drum.hpp"
#include "sim/line/plain_nip.hpp"
#include "sim/line/surface.hpp"

namespace drumlin::sim::line {

/// Strips across the edges that lie along the feed, unworn: x is the way across the edge.
///
/// One per result whose edge is fed as a side, turned by the part's angle. An outer edge has open
/// air beyond it and, where the part is narrow, its other side behind it. A hole or slot shows half
/// as wide as it is long along the feed: over a round opening the belt is held all round, so each
/// length of rim carries half of what it would beside an endless one as wide.
///
/// @param face  only that of the burrs carries any.
[[nodiscard]] std::vector<Strip> unworn_sides(const cases::Part& part, const Fineness& fineness,
                                              FaceSide face);

/// One step of the nip over a side edge once solved; the span lives until the next step.
struct SideStep {
  double offset = 0;                 ///< of the place in the nip from the drum's axis, +x [mm]
  double plain_pressure = 0;         ///< [MPa] of the plain face there
  std::span<const double> pressure;  ///< [MPa], per cell
};
using OnSideStep = std::function<void(const Strip&, const SideStep&)>;

/// How finely the nip is stepped through: removal beside an edge is good to 1 % with these.
inline constexpr int side_steps = 80;

/// Lets a drum pass over the edges that lie along the feed.
///
/// The nip's pressure along the feed is the plain face's; across the edge each place of it presses
/// as a long, straight drum would (`side_compliance`). Burrs ride under the drag, which runs along
/// the edge: they are ground down, none folds.
///
/// @param face   the plain face as it was before this pass.
/// @param plain  what the drum does to the plain face in this pass; where the drum does not touch
///               it, nothing happens to sides either, however high a burr stands on them.
/// @param interference  of the drum at the plain face [mm].
/// @throws NumericsError if a step does not converge.
void pass_sides(const Drum& drum, const PlainFace& face, const PlainPass& plain,
                double interference, std::vector<Strip>& sides, int steps = side_steps,
                const OnSideStep& on_step = {});

}  // namespace drumlin::sim::line
