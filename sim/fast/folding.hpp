#pragma once

#include <Eigen/Core>

#include "sim/fast/section.hpp"
#include "sim/fast/wearing_pass.hpp"

namespace drumlin::sim::fast {

/// What the belt puts on a burr, per length of its edge.
struct BurrLoad {
  double force = 0;         ///< f_n [N/mm]
  double eccentricity = 0;  ///< e [mm] of the pressure's centroid from the hinge, towards the drag
  double width = 0;         ///< [mm] of burr that is pressed on, across the edge
};

/// Load of a pressure [MPa] per cell on the footprint of an edge's burr.
///
/// @param drag  way along x that the belt rubs: +1 or -1.
[[nodiscard]] BurrLoad burr_load(const Section& section, const SectionRim& rim,
                                 const Eigen::VectorXd& pressure, int drag);

/// How much of what its root or its bond can take a burr is asked for [-]: from 1 on it folds or
/// breaks off. 0 for what cannot: no burr, a stub, one that lies already, and a wall no higher than
/// half its root, whose lip would not reach its edge line.
///
/// Wall: k_g (mu f_n l + f_n e) / M_p with the arm l of the top over the weakest section, whose
/// M_p it is. Bead: the greater of peel 6 mu f_n h / w^2 - f_n / w and
/// shear mu f_n / w, over the strength of the bond. Of the drag the part across the edge counts.
///
/// @param height  h [mm] of the burr's top over its root.
[[nodiscard]] double demand(const SectionRim& rim, const BurrLoad& load, double height,
                            const Abrasion& abrasion);

/// Whether drag pushes a burr from the metal over its edge line; else onto the face.
[[nodiscard]] constexpr bool pushed_beyond(const SectionRim& rim, int drag) noexcept {
  return drag * rim.metal < 0;
}

/// The wall that stands on a rim, as a plate of even thickness; of length 0 where none does.
[[nodiscard]] models::Lip standing_plate(const Section& section, const SectionRim& rim);

/// A wall turns about its root and lies at once; a bead breaks off.
///
/// Beyond the edge it is a lip as long as the wall was high, of the same metal, that lies flat
/// until the belt pushes it on (`press_lip`); over the root its upper half t / 2 stays on the face
/// and is ground. On the face its metal lies on the columns inwards of the root.
///
/// @param removed  what the plain face has lost [mm].
void give_way(Section& section, SectionRim& rim, int drag, double removed);

/// Force on what is left of a burr over its root, per length of edge [N/mm].
[[nodiscard]] double force_on_root(const Section& section, const SectionRim& rim,
                                   const Eigen::VectorXd& pressure);

/// Takes the burr off its footprint: the columns keep what lies under it.
void strike_off(Section& section, SectionRim& rim);

/// Hard edges go over the section: beads that stand higher than the clearance break off where the
/// strike comes to what the bond holds (`models::breaking_strike`), its arm where the tool's lower
/// edge meets the bead's flank.
///
/// @param removed  what the plain face has lost [mm].
void knock_off(Section& section, double clearance, double line_force, double removed);

}  // namespace drumlin::sim::fast
