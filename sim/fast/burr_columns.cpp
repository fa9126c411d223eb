#include "sim/fast/burr_columns.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <variant>

namespace drumlin::sim::fast {
namespace {

using models::Bead;
using models::NoBurr;
using models::RolledBurr;
using models::Stub;
using models::WallBurr;

double footprint_of(const NoBurr& /*none*/) noexcept {
  return 0.0;
}
double footprint_of(const WallBurr& wall) noexcept {
  return wall.root;
}
double footprint_of(const RolledBurr& rolled) noexcept {
  return rolled.thickness;
}
double footprint_of(const Bead& bead) noexcept {
  return bead.width;
}
double footprint_of(const Stub& stub) noexcept {
  return stub.root;
}

/// Area of the profile from the edge line to a distance within the footprint [mm^2].
double area_to(const NoBurr& /*none*/, double /*distance*/) noexcept {
  return 0.0;
}

double area_to(const WallBurr& wall, double distance) noexcept {
  if (wall.taper <= 0.0) return wall.height * distance;
  // min(h, (root - d) / tan taper): flat up to `level`, then straight down to the root's end.
  const double slope = 1.0 / std::tan(wall.taper);
  const double level = std::clamp(wall.root - wall.height / slope, 0.0, distance);
  const double mean = wall.root - 0.5 * (level + distance);
  return wall.height * level + (distance - level) * mean * slope;
}

/// The lip's upper half over the face: its hinge lies half a thickness inside the edge line.
double area_to(const RolledBurr& rolled, double distance) noexcept {
  return 0.5 * rolled.thickness * std::min(distance, 0.5 * rolled.thickness);
}

double area_to(const Bead& bead, double distance) noexcept {
  // z = sqrt(rho^2 - s^2) - (rho - h), s counted from the bead's middle.
  const double half = 0.5 * bead.width;
  const double rho = 0.5 * (half * half + bead.height * bead.height) / bead.height;
  const auto primitive = [&](double s) {
    const double c = std::sqrt(std::max(rho * rho - s * s, 0.0));
    return 0.5 * (s * c + rho * rho * std::asin(std::clamp(s / rho, -1.0, 1.0))) -
           (rho - bead.height) * s;
  };
  return primitive(distance - half) - primitive(-half);
}

double area_to(const Stub& stub, double distance) noexcept {
  return stub.height * distance;
}

}  // namespace

double footprint(const models::AnyBurr& burr) {
  return std::visit([](const auto& kind) { return footprint_of(kind); }, burr);
}

double mean_height(const models::AnyBurr& burr, double from, double to) {
  const double end = footprint(burr);
  const double a = std::clamp(from, 0.0, end);
  const double b = std::clamp(to, 0.0, end);
  if (b <= a) return 0.0;
  const double area =
      std::visit([&](const auto& kind) { return area_to(kind, b) - area_to(kind, a); }, burr);
  return area / (to - from);
}

double shift_of(const models::AnyBurr& burr) {
  const auto* stub = std::get_if<Stub>(&burr);
  return stub != nullptr ? stub->protrusion : 0.0;
}

models::Lip flat_lip(double overhang, double thickness) {
  return {
      .length = overhang + 0.5 * thickness, .thickness = thickness, .turn = 0.5 * std::numbers::pi};
}

double overhang(const models::Lip& lip) {
  return std::max(models::reach(lip) - 0.5 * lip.thickness, 0.0);
}

}  // namespace drumlin::sim::fast
