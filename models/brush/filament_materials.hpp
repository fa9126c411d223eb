#pragma once

#include <array>
#include <string_view>

namespace drumlin::models {

/// What a filament is made of: a value to start from, its band, and where it is from.
struct FilamentMaterial {
  std::string_view name;
  double modulus;       ///< Young's modulus [MPa]
  double modulus_low;   ///< [MPa]
  double modulus_high;  ///< [MPa]
  double density;       ///< [t/mm^3]
  double friction;      ///< of the tips on steel [-]
  double slowest;       ///< tip speed in use [mm/s]
  double fastest;       ///< [mm/s]
  std::string_view source;
};

/// Friction and speeds: common practice, no source. Nylon: the band spans dry, conditioned and
/// warm filaments; its modulus falls to a third near 60 degrees C.
inline constexpr auto filament_materials = std::to_array<FilamentMaterial>({
    {"steel", 205e3, 200e3, 210e3, 7.85e-9, 0.25, 10e3, 35e3,
     "modulus and density from memory; 33 m/s for dense short trims from a machinery handbook"},
    {"stainless", 193e3, 185e3, 200e3, 7.9e-9, 0.25, 10e3, 35e3, "from memory"},
    {"brass", 105e3, 100e3, 110e3, 8.5e-9, 0.25, 10e3, 25e3, "from memory"},
    {"abrasive nylon", 3500, 2000, 5000, 1.25e-9, 0.35, 5e3, 18e3,
     "density from a table of brush filaments; modulus of PA6.12 with silicon carbide from memory; "
     "smears above 18 m/s when dry: common practice, no source"},
});

/// Removal coefficient of brushes on steel [1/MPa] to start from, and the factor within which it is
/// known. Common practice, no source: set so that abrasive nylon rounds an edge by the 0.05 to 0.2
/// mm per pass at 1 to 2 m/min that the trade counts on. To be calibrated on samples.
inline constexpr double brush_removal_coefficient = 1e-6;
inline constexpr double brush_removal_band = 4.0;

}  // namespace drumlin::models
