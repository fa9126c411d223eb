#pragma once

namespace drumlin::models {

/// Fully plastic moment per length [N] of a plate in plane strain: (2/sqrt 3) sigma_y t^2 / 4.
///
/// Source: plastic hinge, von Mises; 1.526 N for 235 MPa and 0.15 mm.
[[nodiscard]] double plastic_moment(double flow_stress, double thickness) noexcept;

/// How much more a burr's root feels of a force that comes through single grains than of the same
/// force spread evenly [-], >= 1.
///
/// Grains that cut stand a distance s apart, so s^2 of a patch b carries one grain's force
/// f_n s^2 / b at one place, taken to be as long as it is wide; a wall pushed there bends along
/// 2 l + b of its root (45 degrees to either side of the arm l):
///
///     k_g = max(1, s^2 / (b (2 l + b))),   b = max(w, t).
///
/// The patch is the pressed width w, but no less than the plate's thickness t: on a shorter one the
/// plate's own metal yields under the grain before the plate bends, so the grain sinks in until it
/// bears on about t. Of a grain whose patch reaches beyond the pressed width, w / b bears on the
/// burr. With s = 0 the force is spread evenly and k_g = 1.
///
/// @param grain_spacing  s [mm], >= 0, between grains that cut.
/// @param arm            l [mm], >= 0, from the hinge to where the force acts.
/// @param width          w [mm], > 0, of burr that is pressed on, across the edge.
/// @param thickness      t [mm], >= 0, of the plate where it bends; 0: no least patch.
///
/// Source: spread of a point load on a cantilever plate, 45 degrees (from memory; yield-line
/// theory of slabs); least patch: models/theory/fold.md, eq. (4), band 0.4 t to 1.3 t / (2 mu).
[[nodiscard]] double grain_concentration(double grain_spacing, double arm, double width,
                                         double thickness) noexcept;

/// A wall that has bent at its root, or a burr that lies bent from the start: a plate of even
/// thickness whose middle line runs straight from the hinge. The hinge lies in the face (height 0),
/// half a thickness inside the edge line.
struct Lip {
  double length = 0;     ///< L [mm] of the middle line, > 0
  double thickness = 0;  ///< t [mm], > 0
  double turn = 0;       ///< phi [rad] from upright towards where it fell, 0 <= phi < pi
  double hinge = 0;      ///< t_h [mm] thickness where it bends; 0: as thick as the rest
};

/// Farthest that a lip turns [rad]: it then lies against the flank.
inline constexpr double farthest_turn = 3.0;

/// Thickness that bends [mm].
[[nodiscard]] constexpr double hinge_thickness(const Lip& lip) noexcept {
  return lip.hinge > 0.0 ? lip.hinge : lip.thickness;
}

/// Height of the lip's upper side above the face [mm] at a distance from the hinge, counted towards
/// where it fell; negative infinity where the lip is not.
[[nodiscard]] double top(const Lip& lip, double distance) noexcept;

/// Thickness of the lip measured upright [mm] at a distance from the hinge; 0 where the lip is not.
[[nodiscard]] double upright_thickness(const Lip& lip, double distance) noexcept;

/// How far the lip reaches from its hinge, towards where it fell [mm].
[[nodiscard]] double reach(const Lip& lip) noexcept;

/// How far it hangs beyond the edge line [mm], >= 0.
[[nodiscard]] double overhang(const Lip& lip) noexcept;

/// A lip that lies flat and hangs so far beyond the edge line [mm].
[[nodiscard]] Lip flat_lip(double overhang, double thickness) noexcept;

}  // namespace drumlin::models
