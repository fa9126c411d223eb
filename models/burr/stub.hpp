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
};

constexpr auto Stub::keys() {
  return std::to_array<Key<Stub>>({
      {"protrusion", &Stub::protrusion, dimension::length, 1e-3, 20,
       "how far it sticks out of the edge"},
      {"height", &Stub::height, dimension::length, 0, 20, "height of its ridge above the face"},
      {"root", &Stub::root, dimension::length, 1e-3, 20, "thickness of the ridge at the face"},
  });
}

}  // namespace drumlin::models
