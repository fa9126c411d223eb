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

double area_to(const WallBurr& burr, double distance) noexcept {
  if (burr.taper <= 0.0) return burr.height * distance;
  // min(h, (root - d) / tan taper): flat up to `level`, then straight down to the root's end.
  const double slope = 1.0 / std::tan(burr.taper);
  const double level = std::clamp(burr.root - burr.height / slope, 0.0, distance);
  const double mean = burr.root - 0.5 * (level + distance);
  return burr.height * level + (distance - level) * mean * slope;
}

WeakestSection weakest_section(const WallBurr& burr, double height) noexcept {
  if (burr.taper <= 0.0) return {0.0, burr.root};
  const double lean = std::tan(burr.taper);
  const double z = std::clamp(2.0 * height - burr.root / lean, 0.0, height);
  return {z, std::max(burr.root - z * lean, 0.0)};
}

double plastic_moment(const WallBurr& burr) noexcept {
  return plastic_moment(burr.flow_stress, burr.root);
}

double folding_force(const WallBurr& burr, double friction) noexcept {
  return plastic_moment(burr) / (friction * burr.height);
}

}  // namespace drumlin::models
