#pragma once

namespace drumlin::models {

/// Tension that a running belt needs to keep itself on its round path, m' v^2 [N/mm]: what is set
/// beyond it presses the belt onto the drums.
///
/// @param mass   m' [t/mm^2] per area of belt, >= 0.
/// @param speed  v [mm/s].
[[nodiscard]] constexpr double centrifugal_tension(double mass, double speed) noexcept {
  return mass * speed * speed;
}

/// Pressure of a belt under tension on the drum that it wraps, T / R [MPa].
///
/// @param tension  T [N/mm], what m' v^2 has left of it.
/// @param radius   R [mm], > 0.
[[nodiscard]] constexpr double wrap_pressure(double tension, double radius) noexcept {
  return tension / radius;
}

}  // namespace drumlin::models
