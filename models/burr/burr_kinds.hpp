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

  [[nodiscard]] bool operator==(const NoBurr&) const = default;
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
[[nodiscard]] constexpr double area_to(const NoBurr&, double) noexcept {
  return 0.0;
}
[[nodiscard]] constexpr bool drawn_from_sheet(const NoBurr&) noexcept {
  return false;
}

/// Registration: a new burr kind adds its header above and its name here. Each has `footprint`,
/// `height`, `profile`, `area_to` and `drawn_from_sheet`.
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
/// Area of the cross-section that stands on the metal [mm^2], up to a distance from the edge line
/// within the footprint [mm].
[[nodiscard]] inline double area_of(const AnyBurr& burr, double distance) noexcept {
  return std::visit([&](const auto& kind) { return area_to(kind, distance); }, burr);
}
/// All of it.
[[nodiscard]] inline double area_of(const AnyBurr& burr) noexcept {
  return area_of(burr, footprint_of(burr));
}
/// Whether it is metal of the sheet, so that no coating covers it nor the root it leaves.
[[nodiscard]] inline bool is_drawn_from_sheet(const AnyBurr& burr) noexcept {
  return std::visit([](const auto& kind) { return drawn_from_sheet(kind); }, burr);
}
/// How far it shifts the edge line out, in the plane of the sheet [mm]: a stub's protrusion.
[[nodiscard]] inline double protrusion_of(const AnyBurr& burr) noexcept {
  const auto* stub = std::get_if<Stub>(&burr);
  return stub != nullptr ? stub->protrusion : 0.0;
}
/// What a burr is on the face that does not carry it: nothing; a stub sticks out there, too.
[[nodiscard]] inline AnyBurr on_reverse(const AnyBurr& burr) noexcept {
  if (const auto* stub = std::get_if<Stub>(&burr))
    return Stub{.protrusion = stub->protrusion, .height = 0.0, .root = stub->root};
  return NoBurr{};
}
/// Flow stress of the root of a burr that can bend [MPa]; 0 of one that cannot.
[[nodiscard]] inline double flow_stress_of(const AnyBurr& burr) noexcept {
  return std::visit(
      [](const auto& kind) {
        if constexpr (requires { kind.flow_stress; })
          return kind.flow_stress;
        else
          return 0.0;
      },
      burr);
}
/// Removal coefficient of its metal over that of a base metal [-], from their specific energies.
[[nodiscard]] inline double ease_of(const AnyBurr& burr, double base_energy) noexcept {
  const auto* bead = std::get_if<Bead>(&burr);
  return bead != nullptr && base_energy > 0.0 ? base_energy / bead->specific_energy : 1.0;
}

}  // namespace drumlin::models
