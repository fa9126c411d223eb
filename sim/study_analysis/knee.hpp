#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/study_analysis_result.hpp"

namespace drumlin::sim {

struct KneeOrReason {
  std::optional<Knee> knee;
  std::string reason;  ///< why there is none
};

/// The knee of a front: its point farthest from the line (plane) through its ends, on the side of
/// the better values. The ends are, for each aim, the point that is best in it; of several, the one
/// that is best in the others together. Aims are normalised so that the best of the front is 0 and
/// the worst 1, which makes the knee the same in any unit.
///
/// With three aims and more the plane through the ends may be degenerate or lean over (one point
/// best in two aims); then that of equal weights through the ends' middle is taken.
///
/// From the knee to each end the change of every aim is given: what is given up over what is
/// gained, as a mean over that side of the front.
///
/// Source: Das (1999), Struct. Optim. 18, 107: the knee lies farthest from the hull of the
/// individual minima (from memory).
///
/// @param up  for each aim, whether more is better.
[[nodiscard]] KneeOrReason knee_of(const std::vector<FrontPoint>& front,
                                   const std::vector<bool>& up);

}  // namespace drumlin::sim
