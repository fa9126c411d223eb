#pragma once

#include <array>
#include <string_view>

#include "models/key.hpp"

namespace drumlin::models {

/// What is left of a micro-joint once the part has been broken out of its nest: a short tab that
/// sticks out of the cut edge in the plane of the sheet, and the ridge that its fracture threw up
/// above the face.
struct Stub {
  static constexpr std::string_view name = "stub";

  double protrusion = 0;  ///< beyond the edge line, in the plane of the sheet [mm], > 0
  double height = 0;      ///< of the ridge above the face [mm], >= 0
  double root = 0;        ///< thickness of the ridge where it meets the face [mm], > 0

  static constexpr auto keys();

  [[nodiscard]] bool operator==(const Stub&) const = default;
};

constexpr auto Stub::keys() {
  return std::to_array<Key<Stub>>({
      {"protrusion", &Stub::protrusion, dimension::length, 1e-3, 20,
       "how far it sticks out of the edge"},
      {"height", &Stub::height, dimension::length, 0, 20, "height of its ridge above the face"},
      {"root", &Stub::root, dimension::length, 1e-3, 20, "thickness of the ridge at the face"},
  });
}

/// How much of the tab its ridge covers, from the tab's end inwards [mm].
[[nodiscard]] constexpr double footprint(const Stub& stub) noexcept {
  return stub.height > 0.0 ? stub.root : 0.0;
}
[[nodiscard]] constexpr double height(const Stub& stub) noexcept {
  return stub.height;
}
/// Height of the ridge [mm] at a distance from the tab's end.
[[nodiscard]] constexpr double profile(const Stub& stub, double distance) noexcept {
  return distance >= 0.0 && distance <= stub.root ? stub.height : 0.0;
}
/// Area of the ridge's cross-section from the tab's end to a distance within its root [mm^2].
[[nodiscard]] constexpr double area_to(const Stub& stub, double distance) noexcept {
  return stub.height * distance;
}
[[nodiscard]] constexpr bool drawn_from_sheet(const Stub&) noexcept {
  return true;
}

}  // namespace drumlin::models
