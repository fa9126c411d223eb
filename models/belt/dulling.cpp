#include "models/belt/dulling.hpp"

#include <algorithm>
#include <cmath>

namespace drumlin::models {

double Dulling::sharpness(double life_share) const noexcept {
  const double x = std::clamp(life_share, 0.0, 1.0);
  // g_inf from g(1) = w; the difference of two decays keeps g(0) = 1 and g(1) = w exact.
  const double end = std::exp(-1.0 / run_in);
  const double fallen = (1.0 - std::exp(-x / run_in)) / (1.0 - end);
  return 1.0 - (1.0 - worn_share) * fallen;
}

double dull_friction_share(double sharpness) noexcept {
  return std::sqrt(sharpness);
}

double loading_share(double clogged, double loading_volume, double grain_diameter) noexcept {
  constexpr double diameters = 4.0;
  return 1.0 - clogged * (1.0 - std::exp(-loading_volume / (diameters * grain_diameter)));
}

}  // namespace drumlin::models
