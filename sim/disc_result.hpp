#pragma once

namespace drumlin::sim {

/// How discs go over the part: motion only, so nothing of it has a band.
struct DiscResult {
  double tip_speed = 0;     ///< [mm/s] mean over the part, of its places under filaments
  double rubbed_path = 0;   ///< [mm] that a place of the ring would rub on a place in a pass, mean
  double rubbed_least = 0;  ///< [mm] at the place across the width that gets least
  double rubbed_most = 0;   ///< [mm]
  double evenness = 0;      ///< [-] least over most
  double along_share = 0;   ///< [-] of the path, what runs along the feed; 2/pi if all ways alike
  double across_share = 0;  ///< [-] what runs across it
  /// Strikes on an edge that have one from the other side to go with, over all of them [-].
  double reversed_on_ends = 0;   ///< edges across the feed
  double reversed_on_sides = 0;  ///< the sides of the part
  /// [1/mm] filaments that cross an edge in a pass, per length of it.
  double strikes_on_ends = 0;
  double strikes_on_sides = 0;
};

}  // namespace drumlin::sim
