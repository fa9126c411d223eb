#pragma once

#include <vector>

namespace drumlin::sim {

/// A column of metal beside an edge: lengths across the edge.
struct EdgeColumn {
  double from = 0;    ///< nearer bound, from the edge line [mm]
  double to = 0;      ///< farther bound [mm]
  double height = 0;  ///< of its top [mm]
  double burr = 0;    ///< burr metal on it [mm]
};

/// What a tool takes off an edge across it: `sharp` while it has no radius, more as tips run along
/// the arc, at the rate sharp + per_radius r.
struct EdgeWork {
  double sharp = 0;       ///< [mm^2]
  double per_radius = 0;  ///< [mm]
};

/// Depth that each column loses to a tool that works on the edge alone.
struct EdgeWear {
  std::vector<double> depth;  ///< [mm]
  double radius = 0;          ///< of the arc that is left, 0 where the burr took all the work [mm]
};

/// Spends a tool's work on an edge: burr metal first, from its top down; what is left rounds the
/// edge to an arc, tangent to the flank and to the surface beside it, that grows by
///
///     d(area) = (sharp + per_radius r) d(share),   area(r) what such an arc cuts off the profile.
///
/// On a sharp square edge this is models::edge_work. Earlier arcs and worn edges need no memory:
/// the profile itself tells where the next arc begins to cut.
///
/// @param columns       from the edge line inwards, without gaps; at least as far as the arc goes.
/// @param ease          removal of burr metal over that of the base [-].
/// @param largest       radius at which rounding ends, such as the sheet's thickness [mm].
[[nodiscard]] EdgeWear wear_edge(const std::vector<EdgeColumn>& columns, const EdgeWork& work,
                                 double ease, double largest);

}  // namespace drumlin::sim
