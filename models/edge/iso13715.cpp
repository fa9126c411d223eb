#include "models/edge/iso13715.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace drumlin::models {
namespace {

constexpr std::array<std::string_view, preferred_sizes.size()> positive{
    "+0.02", "+0.05", "+0.1", "+0.3", "+0.5", "+1", "+2.5"};
constexpr std::array<std::string_view, preferred_sizes.size()> negative{
    "-0.02", "-0.05", "-0.1", "-0.3", "-0.5", "-1", "-2.5"};

/// A nanometre: sizes are computed, and one that lies on a border up to rounding belongs to it.
constexpr double rounding = 1e-6;

}  // namespace

double undercut_size(double face_extent, double flank_extent) noexcept {
  return -std::max(face_extent, flank_extent);
}

std::string_view size_class(double edge_size) noexcept {
  const double magnitude = std::abs(edge_size);
  for (std::size_t i = 0; i < preferred_sizes.size(); ++i) {
    if (magnitude <= preferred_sizes[i] + rounding)
      return edge_size > 0.0 ? positive[i] : negative[i];
  }
  return {};
}

RoundedCorner rounded_corner(double radius) noexcept {
  return {.extent = radius,
          .corner_to_arc = (std::numbers::sqrt2 - 1.0) * radius,
          .middle_depth = (1.0 - 1.0 / std::numbers::sqrt2) * radius,
          .missing_area = (1.0 - 0.25 * std::numbers::pi) * radius * radius};
}

}  // namespace drumlin::models
