#pragma once

#include <numbers>

namespace drumlin::models {

/// Power that a drag takes at a sliding speed [mW/mm], F' v: of a belt with F' = mu P'. Where what
/// is removed goes with force and path (K = mu / u, no threshold), it equals `removal_power`.
///
/// @param drag   F' [N/mm] along the surface.
/// @param speed  v [mm/s] of tool against part.
[[nodiscard]] constexpr double drag_power(double drag, double speed) noexcept {
  return drag * speed;
}

/// Power from the energy that a removed volume takes, u Q: [mW] with Q in mm^3/s, [mW/mm] with Q'
/// in mm^3/(mm s).
///
/// @param specific_energy  u [MPa = mJ/mm^3].
/// @param removal_rate     Q or Q'.
[[nodiscard]] constexpr double removal_power(double specific_energy, double removal_rate) noexcept {
  return specific_energy * removal_rate;
}

/// Tangential force behind a power at a speed, P / v [N].
///
/// @param power  P [mW].
/// @param speed  v [mm/s], > 0.
[[nodiscard]] constexpr double tangential_force(double power, double speed) noexcept {
  return power / speed;
}

/// Speed of a drum's surface, pi d n [mm/s].
///
/// @param diameter   d [mm].
/// @param frequency  n [1/s] turns; rpm / 60.
[[nodiscard]] constexpr double surface_speed(double diameter, double frequency) noexcept {
  return std::numbers::pi * diameter * frequency;
}

}  // namespace drumlin::models
