#pragma once

#include <vector>

#include "models/brush/filament.hpp"

namespace drumlin::models {

/// Deepest penetration, over the filament's length, to which upright filaments are followed.
inline constexpr double deepest_dragged = 0.2;

/// A filament held upright over a flat face and dragged along it, as in a disc brush: it stands in
/// balance all the time.
struct DraggedFilament {
  double normal_force = 0;  ///< N [N]
  double drag = 0;          ///< mu N [N], against the way it is dragged
  double slope = 0;         ///< of the tip against the upright filament [rad], below pi / 2
  double deflection = 0;    ///< how far the tip trails behind the holder [mm]
};

/// Clamped rod whose tip is pressed up by the penetration and held back by friction: the elastica
/// under a tip load N (1, mu) of fixed direction, its shortening the penetration.
///
/// Without friction nothing bends below Euler's pi^2 EI / (4 L^2), which is the force of every
/// small penetration; with friction the force grows with the root of a small one. N L^2 / (E I)
/// depends on penetration / L and mu alone, so at one penetration / L N goes with d^4 / L^2.
///
/// @param penetration  delta [mm]; at or below zero nothing touches and every value is zero.
/// @return  forces within 1e-6; that of the steady drag: centrifugal load, which splays filaments
///          outwards (splay()), is left out.
/// @throws  std::domain_error beyond `deepest_dragged` of the length, and where the tip would lie
///          down on its flank before (frictions above 1).
///
/// Source: models/theory/disc_brush.md; checked against the post-buckling table of Timoshenko and
/// Gere, Theory of Elastic Stability (from memory).
[[nodiscard]] DraggedFilament dragged_over_face(const Filament& filament, double penetration);

/// How far centrifugal load bends the tip of an upright filament outwards [mm]: a uniform load on a
/// cantilever, rho A a L^4 / (8 E I).
///
/// @param acceleration  a [mm/s^2] of its holder towards the axis.
[[nodiscard]] double splay(const Filament& filament, double acceleration) noexcept;

/// A moment of an upright filament whose flank slides over an edge.
struct Lean {
  double travel = 0;  ///< of the holder since it met the edge, across it [mm]
  double length = 0;  ///< from the holder to the edge [mm]
  double force = 0;   ///< across the filament [N]
};

/// An upright filament that is carried onto metal: from where its flank meets the edge until its
/// tip has been drawn over it.
struct LeanOnEdge {
  std::vector<Lean> points;  ///< first: straight, without force; last: the tip on the edge
  double peak_force = 0;     ///< [N]

  /// Force times the length that rubs on the edge while the holder travels at an angle psi to its
  /// normal [N mm]: the filament slides by what it is drawn in and, held back by the edge, along
  /// it,
  ///
  ///     int N (cos^2 psi dl^2 + sin^2 psi du^2)^(1/2),
  ///
  /// per filament and per length of way of the holder times cos psi. Bending is that of the motion
  /// across the edge; friction along it is left out.
  [[nodiscard]] double rubbing(double cos_psi) const noexcept;
  /// Force of the tip as it comes over the edge [N].
  [[nodiscard]] double crossing() const noexcept;
};

/// @param depth  how far the tip of the straight filament hangs below the face [mm].
/// @param steps  over the way; sums are good to steps^-2.
/// @return  without points where the depth is not above zero.
/// @throws  std::domain_error beyond `deepest_dragged`, or where it cannot be followed.
[[nodiscard]] LeanOnEdge lean_on_edge(const Filament& filament, double depth, int steps = 24);

/// How deep an upright filament that leaves one rim of an opening hangs where it meets the other
/// [mm]: it swings out with its first mode (a quarter period, then straight), d = delta sin^2(w t),
/// where its tip has gone v t + deflection (1 - cos w t).
///
/// @param speed  v of its holder [mm/s]; at rest it hangs as deep as it is set.
/// @param width  of the opening along its way [mm].
[[nodiscard]] double dip_of_dragged(const Filament& filament, double penetration, double speed,
                                    double width);

}  // namespace drumlin::models
