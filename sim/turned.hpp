#pragma once

#include <vector>

#include "cases/case.hpp"

namespace drumlin::sim {

/// How an edge meets the drum once the part lies turned on the conveyor.
struct FedEdge {
  cases::Side side = cases::Side::leading;  ///< what it is as fed
  /// Acute angle [rad] between the edge and the drum's axis where it is fed as leading or trailing,
  /// between the edge and the feed where it is fed as a side; 0 on a part that lies square.
  double skew = 0;
};

/// What an edge becomes when the part is turned; sides are named as on the part at angle 0.
///
/// An edge counts as leading or trailing while it lies within 45 degrees of the drum's axis. A part
/// has two sides: turned by 90 degrees one of them leads and the other trails, so that both are
/// given.
///
/// @param angle  of the part against the feed, counter-clockwise seen from above [rad].
[[nodiscard]] std::vector<FedEdge> fed_edges(double angle, cases::Side drawn);

}  // namespace drumlin::sim
