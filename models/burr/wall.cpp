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

double section_area(const WallBurr& burr) noexcept {
  if (burr.taper <= 0.0) return burr.height * burr.root;
  // A trapezium, or what a lean that uses up the root leaves of it.
  const double lean = std::tan(burr.taper);
  const double full = std::min(burr.height, burr.root / lean);
  return full * (burr.root - 0.5 * full * lean);
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
