#include "models/elastomer/waves.hpp"

#include <cmath>

namespace drumlin::models {

double shear_wave_speed(const BondedLayer& cover, double density) noexcept {
  return std::sqrt(cover.modulus / (2.0 * (1.0 + cover.poisson_ratio) * density));
}

double rayleigh_wave_speed(const BondedLayer& cover, double density) noexcept {
  const double nu = cover.poisson_ratio;
  const double k = (1.0 - 2.0 * nu) / (2.0 * (1.0 - nu));
  const auto secular = [&](double z) {
    const double a = 2.0 - z;
    return a * a - 4.0 * std::sqrt((1.0 - z) * (1.0 - z * k));
  };
  // One root lies in (0, 1) besides z = 0, where the function starts downward (0 <= nu < 0.5 puts
  // it above 0.76). 60 halvings reach the last bit.
  double low = 0.5;
  double high = 1.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (secular(middle) < 0.0 ? low : high) = middle;
  }
  return std::sqrt(0.5 * (low + high)) * shear_wave_speed(cover, density);
}

}  // namespace drumlin::models
