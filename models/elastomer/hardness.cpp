#include "models/elastomer/hardness.hpp"

#include <algorithm>
#include <cmath>

#include <boost/math/special_functions/erf.hpp>

namespace drumlin::models {

double gent_modulus(double shore_a) noexcept {
  return 0.0981 * (56.0 + 7.62336 * shore_a) / (0.137505 * (254.0 - 2.54 * shore_a));
}

double qi_modulus(double shore_a) noexcept {
  return std::pow(10.0, 0.0235 * shore_a - 0.6403);
}

double bs903_modulus(double shore_a) noexcept {
  const double root = boost::math::erf_inv(shore_a / 100.0) / 3.186e-4;
  return 1e-6 * root * root;
}

ModulusBand published_modulus_band(double shore_a) noexcept {
  const double gent = gent_modulus(shore_a);
  const double bs903 = bs903_modulus(shore_a);
  ModulusBand band{std::min(0.7 * gent, bs903), std::max(1.3 * gent, bs903)};
  if (shore_a >= 20.0 && shore_a <= 80.0) {
    band.low = std::min(band.low, qi_modulus(shore_a));
    band.high = std::max(band.high, qi_modulus(shore_a));
  }
  return band;
}

}  // namespace drumlin::models
