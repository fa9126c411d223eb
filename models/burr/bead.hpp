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

}  // namespace drumlin::models
