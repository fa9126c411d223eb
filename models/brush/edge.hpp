#pragma once

#include "models/brush/brush.hpp"

namespace drumlin::models {

/// How filaments meet an edge: a brush that turns the other way changes one into the other.
enum class EdgeSide {
  onto_metal,  ///< tips come from the opening, strike the edge and its flank, climb onto the face
  off_metal,   ///< tips slide along the face and off over the edge
};

/// How an edge is met.
///
/// @param metal  on which side of the edge the metal lies: +1 towards +x, -1 towards -x.
/// @param tips   which way tips run over the face: +1 with +x, -1 against it. Turning the brush the
///               other way changes it.
[[nodiscard]] constexpr EdgeSide edge_side(int metal, int tips) noexcept {
  return metal * tips > 0 ? EdgeSide::onto_metal : EdgeSide::off_metal;
}

/// Brush on a sharp edge along the drum's axis, while the edge travels through the contact.
struct EdgeContact {
  double zone = 0;         ///< length of feed over which the edge is met [mm]
  double line_force = 0;   ///< on the edge itself, mean over the zone [N/mm]
  double peak_force = 0;   ///< of one filament on the edge [N]
  double sweep = 0;        ///< length of filament that slides over the edge, mean [mm]
  double flank_reach = 0;  ///< how far down the flank tips strike [mm]; 0 where they leave
  double slide = 0;        ///< force times sliding length, over the zone [N mm^2]
  double crossing = 0;     ///< force of the tip as it crosses, over the zone [N mm]
};

/// Forces of balance, as in contact(); blows come on top (strike_on(), passage()).
///
/// @param side  which way the tips run over the edge.
/// @throws  std::domain_error as contact() does, and for penetrations beyond `deepest_on_edge`.
[[nodiscard]] EdgeContact edge_contact(const FilamentBrush& brush, double penetration, double speed,
                                       EdgeSide side);

/// How far filaments dip into an opening.
struct Dip {
  double deepest = 0;    ///< below the face, anywhere in the opening [mm]
  double far_flank = 0;  ///< where tips strike the flank they run onto [mm] below the face
};

/// Dip into an opening of a given width along the way of the tips.
///
/// A tip that slides off the first rim is bent back; it swings out with its first mode (a quarter
/// period, then straight) while the drum carries it across. No filament reaches deeper than the
/// penetration, and none touches the flank it comes off.
///
/// @param width  of the opening [mm], >= 0. Largest values over all places under the brush.
[[nodiscard]] Dip dip(const FilamentBrush& brush, double penetration, double speed, double width);

/// What a pass does to an edge.
struct EdgeWork {
  double radius = 0;   ///< of the edge after the pass [mm]
  double area = 0;     ///< taken off across the edge [mm^2]
  double strikes = 0;  ///< filaments that crossed it, per length of edge [1/mm]
};

/// Growth of an edge radius in one pass: a filament takes off K times force times the path it rubs
/// on the edge, and a radius r has cost (1 - pi/4) r^2 = 0.2146 r^2:
///
///     (2 - pi/2) r dr = K (4 fill R / (pi d^2)) (W / v_f) (slide + crossing (d + pi r / 2)).
///
/// The tip rubs over its own diameter and, once there is a radius, along the arc.
///
/// @param feed                 v_f [mm/s], > 0.
/// @param removal_coefficient  K [1/MPa] of the metal at the edge.
/// @param radius               before the pass [mm], >= 0.
[[nodiscard]] EdgeWork edge_work(const FilamentBrush& brush, const EdgeContact& contact,
                                 double speed, double feed, double removal_coefficient,
                                 double radius);

}  // namespace drumlin::models
