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

/// Height of the burr's profile above the face [mm] at a distance from the edge line.
///
/// @param distance  from the edge line into the metal [mm]; outside [0, root] the profile is 0.
[[nodiscard]] double profile(const WallBurr& burr, double distance) noexcept;

/// Fully plastic moment per length of the root [N].
[[nodiscard]] double plastic_moment(const WallBurr& burr) noexcept;

/// Normal force per length [N/mm] above which the drag mu f_n at the tip bends the root plastically
/// instead of letting the burr be ground down: f_n = M_p / (mu h).
///
/// @param friction  mu [-], > 0.
[[nodiscard]] double folding_force(const WallBurr& burr, double friction) noexcept;

}  // namespace drumlin::models
