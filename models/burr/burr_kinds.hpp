#pragma once

#include <variant>

#include "models/burr/bead.hpp"
#include "models/burr/rolled.hpp"
#include "models/burr/stub.hpp"
#include "models/burr/wall.hpp"

namespace drumlin::models {

/// An edge as cut clean: nothing stands on the face.
struct NoBurr {
  static constexpr std::string_view name = "none";
};
[[nodiscard]] constexpr double footprint(const NoBurr&) noexcept {
  return 0.0;
}
[[nodiscard]] constexpr double height(const NoBurr&) noexcept {
  return 0.0;
}
[[nodiscard]] constexpr double profile(const NoBurr&, double) noexcept {
  return 0.0;
}
[[nodiscard]] constexpr double section_area(const NoBurr&) noexcept {
  return 0.0;
}

/// Registration: a new burr kind adds its header above and its name here. Each has `footprint`,
/// `height`, `profile` and `section_area`.
using AnyBurr = std::variant<NoBurr, WallBurr, RolledBurr, Bead, Stub>;

/// How much metal a burr covers, from the edge line inwards [mm].
[[nodiscard]] inline double footprint_of(const AnyBurr& burr) noexcept {
  return std::visit([](const auto& kind) { return footprint(kind); }, burr);
}
/// Height above the face [mm].
[[nodiscard]] inline double height_of(const AnyBurr& burr) noexcept {
  return std::visit([](const auto& kind) { return height(kind); }, burr);
}
/// Height above the face [mm] at a distance from the edge line into the metal [mm].
[[nodiscard]] inline double profile_of(const AnyBurr& burr, double distance) noexcept {
  return std::visit([&](const auto& kind) { return profile(kind, distance); }, burr);
}
/// Area of the cross-section [mm^2].
[[nodiscard]] inline double section_area_of(const AnyBurr& burr) noexcept {
  return std::visit([](const auto& kind) { return section_area(kind); }, burr);
}

}  // namespace drumlin::models
