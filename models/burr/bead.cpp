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

double area_to(const Bead& bead, double distance) noexcept {
  // z = sqrt(r^2 - s^2) - (r - h), s counted from the bead's middle.
  const double half = 0.5 * bead.width;
  const double r = circle(bead);
  const auto primitive = [&](double s) {
    const double c = std::sqrt(std::max(r * r - s * s, 0.0));
    return 0.5 * (s * c + r * r * std::asin(std::clamp(s / r, -1.0, 1.0))) - (r - bead.height) * s;
  };
  return primitive(distance - half) - primitive(-half);
}

double breaking_force(const Bead& bead, double height, double friction) noexcept {
  const double w = bead.width;
  const double tension = 6.0 * friction * height / (w * w) - 1.0 / w;
  return bead.bond_strength / std::max(tension, friction / w);
}

double breaking_strike(const Bead& bead, double arm) noexcept {
  const double w = bead.width;
  return bead.bond_strength / std::max(6.0 * arm / (w * w), 1.0 / w);
}

}  // namespace drumlin::models
