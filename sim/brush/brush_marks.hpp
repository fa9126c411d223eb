#pragma once

namespace drumlin::sim {

/// What brushes have done to one edge besides its profile: goes with the edge through the line.
struct BrushMarks {
  bool met = false;  ///< whether tips have struck or crossed it
  /// Whether rollers went along it and rubbed it as they rub the face: nothing else is known.
  bool rubbed_along = false;
  double flank_reach = 0;   ///< [mm] below the face, deepest that tips strike the flank
  double oxide_volume = 0;  ///< [mm^2] of flank film that their work could take, per length of edge
  double life_used = 0;     ///< of a burr's root [-]: strikes over strikes to break, summed (Miner)
};

}  // namespace drumlin::sim
