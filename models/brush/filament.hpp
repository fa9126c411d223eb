#pragma once

#include <array>
#include <string_view>

#include "models/key.hpp"

namespace drumlin::models {

/// One filament (wire, abrasive nylon) of a brush: a round rod, straight when free.
///
/// Elastic, does not stretch, does not shear; filaments do not help or hinder each other.
struct Filament {
  static constexpr std::string_view name = "filament";

  double diameter = 0;     ///< d [mm], > 0
  double free_length = 0;  ///< L [mm] from where it is held to its tip (trim), > 0
  double modulus = 0;      ///< Young's modulus E [MPa], > 0
  double density = 0;      ///< rho [t/mm^3], > 0
  double friction = 0;     ///< mu [-] of the tip on the part, >= 0

  [[nodiscard]] bool operator==(const Filament&) const = default;

  static constexpr auto keys();
};

constexpr auto Filament::keys() {
  return std::to_array<Key<Filament>>({
      {"diameter", &Filament::diameter, dimension::length, 0.02, 5, "diameter of a filament"},
      {"free_length", &Filament::free_length, dimension::length, 2, 500,
       "length from where it is held to its tip"},
      {"modulus", &Filament::modulus, dimension::pressure, 50, 1e6, "Young's modulus"},
      {"density", &Filament::density, dimension::density, 1e-10, 3e-8, "mass of a volume"},
      {"friction", &Filament::friction, dimension::number, 0, 1.2,
       "drag of a tip on the part over its normal force"},
  });
}

/// Area of the section [mm^2].
[[nodiscard]] double section_area(const Filament& filament) noexcept;

/// Bending stiffness E I = E pi d^4 / 64 [N mm^2].
[[nodiscard]] double bending_stiffness(const Filament& filament) noexcept;

/// Force against a free tip, along the filament, above which it bows out: pi^2 E I / (4 L^2) [N].
[[nodiscard]] double buckling_load(const Filament& filament) noexcept;

/// The same with a tip that grips the part and cannot slide: 20.19 E I / L^2 [N], x = tan x.
[[nodiscard]] double gripped_buckling_load(const Filament& filament) noexcept;

/// Lowest angular frequency [rad/s] at which a filament swings in the plane of rotation.
///
///     w^2 = 12.362 E I / (rho A L^4) + W^2 (1.571 (r / L) + 0.193)
///
/// W the brush's angular speed, r the radius where the filament is held. The second part is
/// Rayleigh's quotient (Southwell's sum, a lower bound) with the first mode of the resting
/// cantilever. Source: Southwell's coefficients from memory; the integrals are checked in
/// tests/verification/brush_test.cpp.
[[nodiscard]] double swing_frequency(const Filament& filament, double hub_radius,
                                     double angular_speed) noexcept;

}  // namespace drumlin::models
