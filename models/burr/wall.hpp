#pragma once

#include <array>
#include <string_view>

#include "models/key.hpp"

namespace drumlin::models {

/// Upright burr as punching and shearing leave it: it stands on the face, its outer flank flush
/// with the edge, its inner flank leaning outward by the taper. Rigid against the cover.
struct WallBurr {
  static constexpr std::string_view name = "wall";

  double height = 0;       ///< h [mm] above the face, > 0
  double root = 0;         ///< t_b [mm], thickness where it meets the face, > 0
  double taper = 0;        ///< lean of the inner flank from the upright [rad], 0 <= taper < pi/2
  double flow_stress = 0;  ///< sigma_y [MPa] of the metal in the root, > 0

  static constexpr auto keys();

  [[nodiscard]] bool operator==(const WallBurr&) const = default;
};

constexpr auto WallBurr::keys() {
  return std::to_array<Key<WallBurr>>({
      {"height", &WallBurr::height, dimension::length, 1e-4, 20, "height above the face"},
      {"root", &WallBurr::root, dimension::length, 1e-3, 20, "thickness where it meets the face"},
      {"taper", &WallBurr::taper, dimension::angle, 0, 1.4, "lean of the inner flank"},
      {"flow_stress", &WallBurr::flow_stress, dimension::pressure, 1, 1e4,
       "flow stress of the metal in the root"},
  });
}

/// How much metal it covers, from the edge line inwards [mm].
[[nodiscard]] constexpr double footprint(const WallBurr& burr) noexcept {
  return burr.root;
}
[[nodiscard]] constexpr double height(const WallBurr& burr) noexcept {
  return burr.height;
}
/// Height of the burr's profile above the face [mm] at a distance from the edge line.
///
/// @param distance  from the edge line into the metal [mm]; outside [0, root] the profile is 0.
[[nodiscard]] double profile(const WallBurr& burr, double distance) noexcept;
/// Area of its cross-section from the edge line to a distance within the footprint [mm^2].
[[nodiscard]] double area_to(const WallBurr& burr, double distance) noexcept;
/// A wall is drawn up from the sheet: it carries no coating, nor does the root it leaves.
[[nodiscard]] constexpr bool drawn_from_sheet(const WallBurr&) noexcept {
  return true;
}

/// Where a wall bends first: its thickness there, and how high that lies.
struct WeakestSection {
  double height = 0;     ///< above the face [mm]
  double thickness = 0;  ///< [mm]
};

/// Weakest section of a wall that a force at its tip bends.
///
/// The moment of the force falls with the height z as (h - z), the plastic moment as the square of
/// the thickness t(z) = t_b - z tan(taper); the ratio is largest where t = 2 (h - z) tan(taper), or
/// at the root if that lies below it:
///
///     z = max(0, 2 h - t_b / tan(taper)).
///
/// @param height  h [mm], of what is left of it.
[[nodiscard]] WeakestSection weakest_section(const WallBurr& burr, double height) noexcept;

/// Fully plastic moment per length of the root [N].
[[nodiscard]] double plastic_moment(const WallBurr& burr) noexcept;

/// Normal force per length [N/mm] above which the drag mu f_n at the tip bends the root plastically
/// instead of letting the burr be ground down: f_n = M_p / (mu h).
///
/// @param friction  mu [-], > 0.
[[nodiscard]] double folding_force(const WallBurr& burr, double friction) noexcept;

}  // namespace drumlin::models
