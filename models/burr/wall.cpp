#include "models/burr/wall.hpp"

#include <algorithm>
#include <cmath>

#include "models/burr/fold.hpp"

namespace drumlin::models {

double profile(const WallBurr& burr, double distance) noexcept {
  if (distance < 0.0 || distance > burr.root) return 0.0;
  if (burr.taper <= 0.0) return burr.height;
  return std::min(burr.height, (burr.root - distance) / std::tan(burr.taper));
}

double plastic_moment(const WallBurr& burr) noexcept {
  return plastic_moment(burr.flow_stress, burr.root);
}

double folding_force(const WallBurr& burr, double friction) noexcept {
  return plastic_moment(burr) / (friction * burr.height);
}

}  // namespace drumlin::models
