#include "models/burr/wall.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drumlin::models {

double profile(const WallBurr& burr, double distance) noexcept {
  if (distance < 0.0 || distance > burr.root) return 0.0;
  if (burr.taper <= 0.0) return burr.height;
  return std::min(burr.height, (burr.root - distance) / std::tan(burr.taper));
}

double plastic_moment(const WallBurr& burr) noexcept {
  return 2.0 * std::numbers::inv_sqrt3 * burr.flow_stress * burr.root * burr.root / 4.0;
}

double folding_force(const WallBurr& burr, double friction) noexcept {
  return plastic_moment(burr) / (friction * burr.height);
}

}  // namespace drumlin::models
