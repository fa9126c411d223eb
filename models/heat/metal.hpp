#pragma once

#include <cmath>

namespace drumlin::models {

/// How a metal takes up and carries heat; taken as the same at every temperature.
struct ThermalMetal {
  double conductivity = 0;   ///< k [mW/(mm K)] = [W/(m K)], > 0
  double density = 0;        ///< rho [t/mm^3], > 0
  double specific_heat = 0;  ///< c [mJ/(t K)], > 0
};

/// Heat per volume and temperature, rho c [MPa/K].
[[nodiscard]] inline double heat_capacity(const ThermalMetal& metal) noexcept {
  return metal.density * metal.specific_heat;
}
/// alpha = k / (rho c) [mm^2/s].
[[nodiscard]] inline double diffusivity(const ThermalMetal& metal) noexcept {
  return metal.conductivity / heat_capacity(metal);
}
/// sqrt(k rho c) [mW s^(1/2) / (mm^2 K)]: how much heat a surface swallows at a given warming.
[[nodiscard]] inline double effusivity(const ThermalMetal& metal) noexcept {
  return std::sqrt(metal.conductivity * heat_capacity(metal));
}

}  // namespace drumlin::models
