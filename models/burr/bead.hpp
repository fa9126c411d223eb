#pragma once

#include <array>
#include <string_view>

#include "models/key.hpp"

namespace drumlin::models {

/// Bead of resolidified melt (dross, slag) along a thermally cut edge: a segment of a circle on the
/// face, from the edge line inwards. It clings by a bond of its own strength and grinds with a
/// specific energy of its own.
struct Bead {
  static constexpr std::string_view name = "bead";

  double width = 0;            ///< w [mm] on the face, from the edge line inwards, > 0
  double height = 0;           ///< h [mm] above the face, 0 < h <= w / 2 (a segment, not more)
  double specific_energy = 0;  ///< u [MPa] of its grinding, > 0
  double bond_strength = 0;    ///< [MPa] of the bond to the face, in shear and in peel, > 0

  static constexpr auto keys();

  [[nodiscard]] bool operator==(const Bead&) const = default;
};

constexpr auto Bead::keys() {
  return std::to_array<Key<Bead>>({
      {"width", &Bead::width, dimension::length, 1e-2, 20, "width on the face"},
      {"height", &Bead::height, dimension::length, 1e-3, 10, "height above the face"},
      {"specific_energy", &Bead::specific_energy, dimension::specific_energy, 100, 5e5,
       "energy to grind a volume of it away"},
      {"bond_strength", &Bead::bond_strength, dimension::pressure, 0.1, 2000,
       "strength of its bond to the face"},
  });
}

[[nodiscard]] constexpr double footprint(const Bead& bead) noexcept {
  return bead.width;
}
[[nodiscard]] constexpr double height(const Bead& bead) noexcept {
  return bead.height;
}
/// Height of the segment of a circle above the face [mm] at a distance from the edge line.
[[nodiscard]] double profile(const Bead& bead, double distance) noexcept;
/// Area of the segment from the edge line to a distance within the footprint [mm^2]; the whole is
/// r^2 acos(1 - h/r) - (r - h) sqrt(2 r h - h^2), r = (w^2/4 + h^2)/2h.
[[nodiscard]] double area_to(const Bead& bead, double distance) noexcept;
/// It lies on the face and what covers it.
[[nodiscard]] constexpr bool drawn_from_sheet(const Bead&) noexcept {
  return false;
}

/// Normal force per length [N/mm] at which the bead leaves the face.
///
/// The drag mu f_n at its top bends its foot, the normal force presses it on, and the drag shears
/// it; it goes where the tension at the foot's edge, 6 mu f_n h / w^2 - f_n / w, or the shear
/// mu f_n / w comes to the bond's strength. Brittle: no redistribution over the foot.
///
/// @param height    of what is left of it [mm].
/// @param friction  mu [-], > 0.
///
/// Source: beam on a foot of width w, linear stress; models/theory/fold.md.
[[nodiscard]] double breaking_force(const Bead& bead, double height, double friction) noexcept;
/// The same for a force along the edge's normal that does not press it on [N/mm], as a knock-off
/// tool's: where the tension 6 f c / w^2 at the foot's edge or the shear f / w comes to the bond's
/// strength.
///
/// @param arm  c [mm] of the force over the foot. A tool with an upright front meets the bead's
///             leaning flank with its lower edge: c is its clearance, less what the foot lies
///             above the face; below the foot it only shears.
[[nodiscard]] double breaking_strike(const Bead& bead, double arm) noexcept;

}  // namespace drumlin::models
