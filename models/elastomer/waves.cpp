#include "models/elastomer/waves.hpp"

#include <cmath>

namespace drumlin::models {

double shear_wave_speed(const BondedLayer& cover, double density) noexcept {
  return std::sqrt(cover.modulus / (2.0 * (1.0 + cover.poisson_ratio) * density));
}

double rayleigh_wave_speed(const BondedLayer& cover, double density) noexcept {
  const double nu = cover.poisson_ratio;
  const double k = (1.0 - 2.0 * nu) / (2.0 * (1.0 - nu));
  // Rayleigh's equation without its square roots: ((z - 8) z + 24 - 16 k) z - 16 (1 - k) = 0. The
  // left side rises concavely up to its one root below 1, which lies above 0.76 for
  // 0 <= nu < 0.5: from there Newton's steps stay below the root and close in on it.
  const double linear = 24.0 - 16.0 * k;
  double z = 0.76;
  for (int i = 0; i < 7; ++i)
    z -= (((z - 8.0) * z + linear) * z - 16.0 * (1.0 - k)) / ((3.0 * z - 16.0) * z + linear);
  return std::sqrt(z) * shear_wave_speed(cover, density);
}

}  // namespace drumlin::models
