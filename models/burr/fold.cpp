#include "models/burr/fold.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace drumlin::models {

double plastic_moment(double flow_stress, double thickness) noexcept {
  return 2.0 * std::numbers::inv_sqrt3 * flow_stress * thickness * thickness / 4.0;
}

double grain_concentration(double grain_spacing, double arm, double width,
                           double thickness) noexcept {
  const double patch = std::max(width, thickness);
  return std::max(1.0, grain_spacing * grain_spacing / (patch * (2.0 * arm + patch)));
}

double reach(const Lip& lip) noexcept {
  // The farthest corner is at the tip or, on a lip that has hardly turned, at the foot.
  const double tip = lip.length * std::sin(lip.turn);
  return std::max(tip, 0.0) + 0.5 * lip.thickness * std::abs(std::cos(lip.turn));
}

double overhang(const Lip& lip) noexcept {
  return std::max(reach(lip) - 0.5 * lip.thickness, 0.0);
}

Lip flat_lip(double overhang, double thickness) noexcept {
  return {
      .length = overhang + 0.5 * thickness, .thickness = thickness, .turn = 0.5 * std::numbers::pi};
}

namespace {

/// Where an upright line at a distance from the hinge enters and leaves the plate.
struct Chord {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
};
Chord chord(const Lip& lip, double distance) noexcept {
  // Corners of the plate, as (distance, height): foot and tip of either side.
  const double s = std::sin(lip.turn);
  const double c = std::cos(lip.turn);
  const double half = 0.5 * lip.thickness;
  struct Corner {
    double x, z;
  };
  const Corner corners[4] = {{-half * c, half * s},
                             {lip.length * s - half * c, lip.length * c + half * s},
                             {lip.length * s + half * c, lip.length * c - half * s},
                             {half * c, -half * s}};
  Chord chord;
  for (int i = 0; i < 4; ++i) {
    const Corner& a = corners[i];
    const Corner& b = corners[(i + 1) % 4];
    if (distance < std::min(a.x, b.x) || distance > std::max(a.x, b.x)) continue;
    const double share = a.x == b.x ? 0.0 : (distance - a.x) / (b.x - a.x);
    const double z = a.z + share * (b.z - a.z);
    chord.high = std::max(chord.high, a.x == b.x ? std::max(a.z, b.z) : z);
    chord.low = std::min(chord.low, a.x == b.x ? std::min(a.z, b.z) : z);
  }
  return chord;
}

}  // namespace

double top(const Lip& lip, double distance) noexcept {
  return chord(lip, distance).high;
}

double upright_thickness(const Lip& lip, double distance) noexcept {
  const Chord through = chord(lip, distance);
  return std::max(through.high - through.low, 0.0);
}

}  // namespace drumlin::models
