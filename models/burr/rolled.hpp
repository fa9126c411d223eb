#pragma once

#include <array>
#include <string_view>

#include "models/key.hpp"

namespace drumlin::models {

/// Secondary burr: a wall that an earlier working has bent over its edge, so that it lies in the
/// plane of the face, beyond the edge line or over a hole.
struct RolledBurr {
  static constexpr std::string_view name = "rolled";

  double overhang = 0;     ///< how far it reaches beyond the edge line [mm], > 0
  double thickness = 0;    ///< [mm], > 0
  double flow_stress = 0;  ///< sigma_y [MPa] of the metal in the bend, > 0

  static constexpr auto keys();

  [[nodiscard]] bool operator==(const RolledBurr&) const = default;
};

constexpr auto RolledBurr::keys() {
  return std::to_array<Key<RolledBurr>>({
      {"overhang", &RolledBurr::overhang, dimension::length, 1e-3, 20,
       "how far it reaches beyond the edge line"},
      {"thickness", &RolledBurr::thickness, dimension::length, 1e-3, 5, "thickness of the lip"},
      {"flow_stress", &RolledBurr::flow_stress, dimension::pressure, 1, 1e4,
       "flow stress of the metal in the bend"},
  });
}

/// It stands on no metal of the part: it lies beyond the edge line.
[[nodiscard]] constexpr double footprint(const RolledBurr&) noexcept {
  return 0.0;
}
/// Half its thickness stands above the face: its middle lies in it.
[[nodiscard]] constexpr double height(const RolledBurr& burr) noexcept {
  return 0.5 * burr.thickness;
}
[[nodiscard]] constexpr double profile(const RolledBurr&, double) noexcept {
  return 0.0;
}
/// None of its cross-section stands on the metal [mm^2].
[[nodiscard]] constexpr double area_to(const RolledBurr&, double) noexcept {
  return 0.0;
}
[[nodiscard]] constexpr bool drawn_from_sheet(const RolledBurr&) noexcept {
  return true;
}

}  // namespace drumlin::models
