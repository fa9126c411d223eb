#pragma once

#include <optional>

namespace drumlin::models {

/// A slender rod in a plane, seen from its loaded end: x to the right, z up.
struct Rod {
  double length = 0;             ///< L [mm], > 0
  double bending_stiffness = 0;  ///< E I [N mm^2], > 0
  double line_density = 0;       ///< rho A [t/mm]; 0 leaves centrifugal load out
  double angular_speed = 0;      ///< W [rad/s] about the axis
  double axis_x = 0;             ///< where the axis of rotation stands [mm]
  double axis_z = 0;
};

/// How much a rod is a rope: L (T / EI)^(1/2) [-] with the centrifugal tension T where it is held.
[[nodiscard]] double limpness(const Rod& rod, double hub_radius) noexcept;

/// Up to here a rod that touches is found; shooting from the free end fails on limper ones (wires
/// of 0.1 mm, 70 mm long, above 30 m/s).
inline constexpr double limpest = 10.0;

/// Force and bending at one place of a rod. `angle` is that of the direction towards the free end,
/// counted from straight down towards +x [rad]; `force` is what the part beyond the place, and
/// what acts on it, does to the rod up to there.
struct RodState {
  double angle = 0;
  double curvature = 0;  ///< d(angle)/ds towards the free end [rad/mm]
  double x = 0;          ///< [mm]
  double z = 0;          ///< [mm]
  double force_x = 0;    ///< [N]
  double force_z = 0;    ///< [N]
};

/// The state at the held end of a rod whose free end is given: the inextensible elastica
///
///     E I angle'' = -(F_x cos(angle) + F_z sin(angle)),   F' = -rho A W^2 (position - axis),
///
/// marched from the free end in equal steps of the fifth-order Dormand-Prince rule.
///
/// @param length  from the free end to the held end [mm]; at most the rod's.
/// @param steps   error per length falls as steps^-5; 16 give 1e-7 of the angle up to
///                P L^2 / EI = 10, 40 give 1e-9.
[[nodiscard]] RodState held_end(const Rod& rod, const RodState& free_end, double length,
                                int steps = 24);

/// How a rod held at one end, pointing down from the origin, stands under a load at its tip.
struct BentRod {
  double slope = 0;       ///< of the tip against the unbent rod [rad]
  double deflection = 0;  ///< of the tip across the unbent rod [mm]
  double shortening = 0;  ///< of the tip along the unbent rod [mm]
};

/// Cantilever under a tip load of fixed direction, however far it bends: shooting for the slope
/// of the tip.
///
/// @param load       [N], >= 0.
/// @param direction  of the load [rad], from along the rod (0, a pull) over across it (pi/2) to
///                   against it (pi, a push); 0 < direction <= pi.
/// @return  the way it bends towards the load; under a push below pi^2 EI / (4 L^2) it stays
///          straight. Slope within 1e-9 of the exact elastica.
///
/// Source: Bisshopp and Drucker (1945); Mattiasson (1981) for the table it is checked against.
[[nodiscard]] BentRod bent_by_tip_load(const Rod& rod, double load, double direction,
                                       int steps = 48);

/// Where a rod is held: place and direction.
struct Hold {
  double x = 0;
  double z = 0;
  double angle = 0;  ///< of the unbent rod from straight down towards +x [rad]
};

/// A rod that touches the part: what carries it and how.
struct Touch {
  double normal_force = 0;  ///< [N] on the part
  double drag = 0;          ///< [N] on the part along +x, or along the rod at a corner
  double angle = 0;         ///< of the rod where it touches [rad]
  double x = 0;             ///< where it touches first, seen from the held end [mm]
  double length = 0;        ///< from the held end to there [mm]
  double flank_length = 0;  ///< that lies on the part beyond that place [mm]
  double energy = 0;        ///< above that of the straight rod: bending, centrifugal load [N mm]
  double moment = 0;        ///< of the rod on its holder, about the axis [N mm]
};

/// Rod whose tip drags over the face z = 0 towards +x with friction mu, bent backward. Where the
/// tip would turn up the rod lies down on its flank: it touches tangentially and without bending
/// moment, and what lies beyond is straight.
///
/// @param guess  a state close by, from the same branch.
/// @return  no value where none is found near the guess (the tip has left, or sprung over).
[[nodiscard]] std::optional<Touch> touch_on_face(const Rod& rod, const Hold& hold, double friction,
                                                 const Touch& guess);

/// Rod whose flank slides over the corner (corner_x, 0), its tip hanging beyond and drawn towards
/// the corner: force across the rod, and mu of it along the rod.
///
/// @return  no value where none is found near the guess. `length` may exceed the rod's own: then
///          the tip has passed the corner.
[[nodiscard]] std::optional<Touch> touch_on_corner(const Rod& rod, const Hold& hold,
                                                   double friction, double corner_x,
                                                   const Touch& guess);

}  // namespace drumlin::models
