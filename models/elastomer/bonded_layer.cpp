#include "models/elastomer/bonded_layer.hpp"

#include <cmath>

namespace drumlin::models {
namespace {

/// (sinh x - x) / x for x >= 0, without the cancellation of small x.
double sinh_excess(double x) noexcept {
  if (x > 1.0) return std::sinh(x) / x - 1.0;
  // Nine terms leave less than 1e-19 at x = 1.
  double term = 1.0;
  double sum = 0.0;
  for (int n = 1; n <= 9; ++n) {
    term *= x * x / ((2.0 * n) * (2.0 * n + 1.0));
    sum += term;
  }
  return sum;
}

}  // namespace

double plane_strain_modulus(const BondedLayer& layer) noexcept {
  return layer.modulus / (1.0 - layer.poisson_ratio * layer.poisson_ratio);
}

double constrained_modulus(const BondedLayer& layer) noexcept {
  const double nu = layer.poisson_ratio;
  return layer.modulus * (1.0 - nu) / ((1.0 + nu) * (1.0 - 2.0 * nu));
}

double surface_compliance(const BondedLayer& layer, double q) noexcept {
  const double t = layer.thickness;
  const double w = q * t;
  const double k = 3.0 - 4.0 * layer.poisson_ratio;
  const double half_space = 2.0 / plane_strain_modulus(layer);
  if (w < 1.0) {
    // The numerator over w as a sum of positive terms: 2k sinh 2w - 4w loses its digits when k is
    // close to 1 (nu close to 0.5) and w small.
    const double numerator = 4.0 * k * sinh_excess(2.0 * w) + 4.0 * (k - 1.0);
    const double denominator = 2.0 * k * std::cosh(2.0 * w) + 1.0 + k * k + 4.0 * w * w;
    return half_space * t * numerator / denominator;
  }
  // Scaled by exp(-2w), so that thick covers and short waves do not overflow.
  const double e = std::exp(-2.0 * w);
  const double numerator = k * (1.0 - e * e) - 4.0 * w * e;
  const double denominator = k * (1.0 + e * e) + (1.0 + k * k + 4.0 * w * w) * e;
  return half_space * numerator / (denominator * q);
}

}  // namespace drumlin::models
