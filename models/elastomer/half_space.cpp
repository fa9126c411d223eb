#include "models/elastomer/half_space.hpp"

#include <algorithm>
#include <cmath>

namespace drumlin::models {

WorkingState working_state(const Cover& cover, double q) {
  const double static_modulus = cover.layer.modulus / (2.0 * (1.0 + cover.layer.poisson_ratio));
  if (cover.speed == 0.0) return {static_modulus, 0.0};
  // A drum that creeps is found as the durometer found it.
  const double omega =
      std::copysign(std::max(q * std::abs(cover.speed), 1.0 / durometer_time), cover.speed);
  const std::complex<double> modulus = static_modulus * modulus_ratio(cover.relaxation, omega);
  return {modulus, cover.density * cover.speed * cover.speed / modulus};
}

SymmetricCompliance<std::complex<double>> half_space(std::complex<double> inertia,
                                                     double poisson_ratio) {
  const std::complex<double> x = inertia;
  const double eta = (1.0 - 2.0 * poisson_ratio) / (2.0 * (1.0 - poisson_ratio));
  const std::complex<double> dilatation = std::sqrt(1.0 - eta * x);
  const std::complex<double> shear = std::sqrt(1.0 - x);
  // (beta_d beta_s - 1) / x, from (beta_d beta_s)^2 - 1.
  const std::complex<double> product = (eta * x - (1.0 + eta)) / (1.0 + dilatation * shear);
  const std::complex<double> secular = 4.0 * product + 4.0 - x;  // N / x
  return {dilatation / secular, (2.0 * product + 1.0) / secular, shear / secular};
}

}  // namespace drumlin::models
