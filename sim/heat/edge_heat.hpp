#pragma once

#include <string_view>
#include <vector>

#include "sim/answer.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// What a belt brings to a burr, besides its force.
struct BurrContact {
  double friction = 0;         ///< mu [-]
  double sliding_speed = 0;    ///< v [mm/s]
  double share = 0;            ///< of the power that goes into the part [-]
  double dwell = 0;            ///< [s] under the nip
  double energy = 0;           ///< u [MPa] that a removed volume of the base metal takes
  double base_energy = 0;      ///< [MPa] specific energy of the base metal in the library
  double face = 0;             ///< [K] temperature of the face in this nip
  double line_load_ratio = 1;  ///< working line load over that of the station of the peak force
};

/// Temperatures of every edge in the nip of one belt, in the order of the results.
///
/// A burr that stands when the belt comes is a fin on the sheet's corner that takes up
/// share mu f_n v at its tip. It does so for as long as grinding off what the belt took at this
/// force needs, u A / (mu f_n v), and for no longer than the nip is wide. A lip that lies or hangs
/// and an edge without burr have no value: they are as warm as the face.
///
/// @param before  state of the part on arrival; null at the first station.
/// @param after   state behind it; `peak_line_force` counts so far: a belt that does not raise it
///                is taken to press in proportion to its line load.
[[nodiscard]] std::vector<EdgeHeat> edge_heat(const Setup& setup, const BurrContact& contact,
                                              const FaceState* before, const FaceState& after);

}  // namespace drumlin::sim
