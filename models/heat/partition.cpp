#include "models/heat/partition.hpp"

#include <algorithm>
#include <cmath>

namespace drumlin::models {

double share_to_work(const ThermalMetal& work, double grain_conductivity, double flat_radius,
                     double speed) noexcept {
  return 1.0 / (1.0 + grain_conductivity / (effusivity(work) * std::sqrt(flat_radius * speed)));
}

double share_to_chips(const ThermalMetal& work, double fraction, double to_melting,
                      double specific_energy) noexcept {
  return std::min(1.0,
                  fraction * heat_capacity(work) * std::max(to_melting, 0.0) / specific_energy);
}

double share_under_fluid(double dry_share, double work_film, double fluid_film) noexcept {
  return dry_share * work_film / (work_film + fluid_film);
}

}  // namespace drumlin::models
