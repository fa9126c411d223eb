#pragma once

namespace drumlin::sim::fast {

/// Cover and belt around a burr that stands on a wide, evenly pressed face.
struct BurrGround {
  double pressure = 0;              ///< p [MPa] of the face beside it, > 0
  double plane_strain_modulus = 0;  ///< E* [MPa] of the cover
};

/// How a burr holds the belt off the face beside it.
struct BurrContact {
  double half_gap = 0;  ///< c [mm] from the burr's middle to where the face is touched again
  double force = 0;     ///< F [N/mm] on the burr, pi p c
};

/// A burr much smaller than nip and cover, without belt:
///
///     h = (2 p c / E*)(ln(8 c / w) - 1),   F = pi p c.
///
/// @param height  h [mm], > 0.
/// @param root    w [mm], width of its flat top.
///
/// Source: flat step on a half-space under background pressure; F within 0.2 % of finite elements
/// for h/w 0.1 to 2.
[[nodiscard]] BurrContact burr_on_cover(const BurrGround& ground, double height, double root);

/// The same under a belt that bends but has no tension: it bridges the root, and
/// rho = 0.56 (2 D / E*)^(1/3) stands in for w / 4.
///
/// @param bending  D [N mm], > 0.
///
/// Within 10 % for D 0.5 to 50; with tension no closed form is known, nor beside an open edge:
/// `EdgePass` solves those.
[[nodiscard]] BurrContact burr_under_belt(const BurrGround& ground, double height, double bending);

}  // namespace drumlin::sim::fast
