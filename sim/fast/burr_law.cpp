#include "sim/fast/burr_law.hpp"

#include <cmath>
#include <numbers>

#include <boost/math/special_functions/lambert_w.hpp>

namespace drumlin::sim::fast {
namespace {

/// h = (2 p c / E*)(ln(b c) - 1): with y = ln(b c) - 1, y e^y = b h E* / (2 e p).
BurrContact lifted(const BurrGround& ground, double height, double b) {
  const double lift = height * ground.plane_strain_modulus / (2.0 * ground.pressure);
  const double y = boost::math::lambert_w0(b * lift / std::numbers::e);
  const double half_gap = std::exp(y + 1.0) / b;
  return {half_gap, std::numbers::pi * ground.pressure * half_gap};
}

}  // namespace

BurrContact burr_on_cover(const BurrGround& ground, double height, double root) {
  return lifted(ground, height, 8.0 / root);
}

BurrContact burr_under_belt(const BurrGround& ground, double height, double bending) {
  const double reach = 0.56 * std::cbrt(2.0 * bending / ground.plane_strain_modulus);
  return lifted(ground, height, 2.0 / reach);
}

}  // namespace drumlin::sim::fast
