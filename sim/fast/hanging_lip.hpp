#pragma once

#include <vector>

#include "sim/fast/section.hpp"

namespace drumlin::sim::fast {

/// A belt over a lip that hangs beyond an edge line, in one step. Over the few hundredths of a
/// millimetre that it presses on there the belt goes straight on as it comes off the edge.
struct LipPress {
  double belt = 0;           ///< height of the belt's face at the edge line, before wear [mm]
  double slope = 0;          ///< by which it falls beyond there [-]
  double sinks = 0;          ///< how far it goes down in the step, with the edge that wears [mm]
  double give = 0;           ///< of grains [mm/MPa], >= 0
  double wear = 0;           ///< depth that the step takes per pressure [mm/MPa], >= 0
  double friction = 0;       ///< of the drag away from the metal [-]; negative towards it
  double grain_spacing = 0;  ///< [mm]
};

/// Distances from the edge line [mm] between which a lip's wear and load are followed, from 0 to
/// its length: an eighth of its thickness at the foot, each stretch a third wider than the last.
[[nodiscard]] std::vector<double> lip_bounds(const models::Lip& lip);

/// Turns a lip on, down into the opening, until its hinge bears what the belt presses on it, and
/// wears it; what stands over its root goes down with it, and what is ground through falls.
///
/// Where the lip's upper side z stands over the belt's face b, p = (z - b) / (give + wear); moment
/// about the edge line and plastic moment as in `line::Hinge`. That the lip takes load off the edge
/// beside it is left out.
///
/// @param removed  what the plain face has lost [mm].
/// @return         force on what hangs over, per length of edge [N/mm].
double press_lip(Section& section, SectionRim& rim, const LipPress& press, double removed);

/// How far what is left of the lip hangs beyond the edge line [mm], 0 without one.
[[nodiscard]] double overhang(const SectionRim& rim);

/// Thickness that wear has left of the lip at its foot [mm], of one laid on the face the whole.
[[nodiscard]] double lip_thickness(const SectionRim& rim);

}  // namespace drumlin::sim::fast
