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
  double removal;       ///< removal coefficient on steel [1/MPa], known to `brush_removal_band`
  std::string_view source;
};

/// Friction, speeds and removal: common practice, no source. Removal is set so that a pass at 1 to
/// 2 m/min rounds an edge by what the trade counts on, abrasive nylon 0.05 to 0.2 mm, wires 0.02 to
/// 0.1 mm; to be calibrated on samples. Nylon: the band of the modulus spans dry, conditioned and
/// warm filaments; it falls to a third near 60 degrees C.
inline constexpr auto filament_materials = std::to_array<FilamentMaterial>({
    {"steel", 205e3, 200e3, 210e3, 7.85e-9, 0.25, 10e3, 35e3, 2.5e-7,
     "modulus and density from memory; 33 m/s for dense short trims from a machinery handbook"},
    {"stainless", 193e3, 185e3, 200e3, 7.9e-9, 0.25, 10e3, 35e3, 2.5e-7, "from memory"},
    {"brass", 105e3, 100e3, 110e3, 8.5e-9, 0.25, 10e3, 25e3, 2.5e-7, "from memory"},
    {"abrasive-nylon", 3500, 2000, 5000, 1.25e-9, 0.35, 5e3, 18e3, 1e-6,
     "density from a table of brush filaments; modulus of PA6.12 with silicon carbide from memory; "
     "smears above 18 m/s when dry: common practice, no source"},
});

/// Factor within which the removal coefficient of a brush is known; common practice, no source.
inline constexpr double brush_removal_band = 4.0;

}  // namespace drumlin::models
