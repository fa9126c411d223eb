#include "models/burr/bead.hpp"

#include <algorithm>
#include <cmath>

namespace drumlin::models {
namespace {

/// Radius of the circle whose segment has the bead's width and height [mm].
double circle(const Bead& bead) {
  return (0.25 * bead.width * bead.width + bead.height * bead.height) / (2.0 * bead.height);
}

}  // namespace

double profile(const Bead& bead, double distance) noexcept {
  if (distance <= 0.0 || distance >= bead.width) return 0.0;
  const double r = circle(bead);
  const double off = distance - 0.5 * bead.width;
  return std::max(bead.height - r + std::sqrt(std::max(r * r - off * off, 0.0)), 0.0);
}

double section_area(const Bead& bead) noexcept {
  const double r = circle(bead);
  const double h = bead.height;
  return r * r * std::acos(1.0 - h / r) - (r - h) * std::sqrt(2.0 * r * h - h * h);
}

double breaking_force(const Bead& bead, double height, double friction) noexcept {
  const double w = bead.width;
  const double tension = 6.0 * friction * height / (w * w) - 1.0 / w;
  return bead.bond_strength / std::max(tension, friction / w);
}

double breaking_strike(const Bead& bead, double height) noexcept {
  const double w = bead.width;
  return bead.bond_strength / std::max(6.0 * height / (w * w), 1.0 / w);
}

}  // namespace drumlin::models
