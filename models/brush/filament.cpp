#include "models/brush/filament.hpp"

#include <cmath>
#include <numbers>

namespace drumlin::models {

double section_area(const Filament& filament) noexcept {
  return 0.25 * std::numbers::pi * filament.diameter * filament.diameter;
}

double bending_stiffness(const Filament& filament) noexcept {
  return filament.modulus * std::numbers::pi * std::pow(filament.diameter, 4) / 64.0;
}

double buckling_load(const Filament& filament) noexcept {
  const double wave = 0.5 * std::numbers::pi / filament.free_length;
  return bending_stiffness(filament) * wave * wave;
}

double gripped_buckling_load(const Filament& filament) noexcept {
  constexpr double root = 4.493409457909064;  // smallest x > 0 with x = tan x
  return bending_stiffness(filament) * root * root / (filament.free_length * filament.free_length);
}

double swing_frequency(const Filament& filament, double hub_radius, double angular_speed) noexcept {
  constexpr double root = 1.8751040687119611;  // cos x cosh x = -1, first mode of a cantilever
  const double L = filament.free_length;
  const double at_rest = std::pow(root / L, 4) * bending_stiffness(filament) /
                         (filament.density * section_area(filament));
  const double stiffening = 1.5709 * hub_radius / L + 0.1933;
  return std::sqrt(at_rest + angular_speed * angular_speed * stiffening);
}

}  // namespace drumlin::models
