#pragma once

#include <string_view>

#include "cases/case.hpp"

namespace drumlin::sim {

/// The case file's own words for choices, as results and messages use them.
[[nodiscard]] constexpr std::string_view to_text(cases::Side side) noexcept {
  switch (side) {
    case cases::Side::leading:
      return "leading";
    case cases::Side::trailing:
      return "trailing";
    default:
      return "side";
  }
}

[[nodiscard]] constexpr std::string_view to_text(cases::FeatureKind kind) noexcept {
  switch (kind) {
    case cases::FeatureKind::outer_edge:
      return "outer-edge";
    case cases::FeatureKind::hole:
      return "hole";
    case cases::FeatureKind::slot:
      return "slot";
    default:
      return "stub";
  }
}

[[nodiscard]] constexpr std::string_view to_text(cases::Direction direction) noexcept {
  return direction == cases::Direction::with_feed ? "with-feed" : "against-feed";
}

[[nodiscard]] constexpr std::string_view to_text(cases::BrushArrangement arrangement) noexcept {
  switch (arrangement) {
    case cases::BrushArrangement::counter_rotating:
      return "counter-rotating";
    case cases::BrushArrangement::disc:
      return "disc";
    case cases::BrushArrangement::planetary:
      return "planetary";
    default:
      return "roller";
  }
}

[[nodiscard]] constexpr std::string_view to_text(cases::BurrSide side) noexcept {
  return side == cases::BurrSide::up ? "up" : "down";
}

}  // namespace drumlin::sim
