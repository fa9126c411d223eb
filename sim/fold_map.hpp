#pragma once

#include <optional>
#include <stop_token>

#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// What becomes of a wall burr over its height and root thickness: ground off, left standing, or
/// folded beyond the edge, after one pass of the first belt station over the first edge that
/// carries a wall burr and whose burr the drag pushes beyond it; by the fast model.
///
/// Heights and roots go evenly in logarithm. The map holds the case's own burr and, where there is
/// one at the case's height, the root at which folding ends. Taper and flow stress are the case's.
///
/// @return none without a belt station that meets the burrs' face first, or without such an edge.
/// @throws NumericsError, Stopped.
[[nodiscard]] std::optional<FoldMap> study_folding(const Setup& setup,
                                                   const std::stop_token& stop = {});

}  // namespace drumlin::sim
