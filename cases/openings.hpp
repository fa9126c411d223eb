#pragma once

#include <algorithm>
#include <cmath>
#include <optional>

#include "cases/case.hpp"

/// How much metal openings leave between them, where the case says where they lie. A hole is a
/// circle; of a slot only the length along the feed is known, so it counts as a line.
namespace drumlin::cases {

/// Whether a feature is an opening of which size and place are known.
[[nodiscard]] inline bool is_placed(const Feature& feature) {
  const bool opening = feature.kind == FeatureKind::hole || feature.kind == FeatureKind::slot;
  return opening && feature.size && feature.along && feature.across;
}

/// Half the length of the line that an opening is drawn around [mm].
[[nodiscard]] inline double half_line(const Feature& feature) {
  return feature.kind == FeatureKind::slot ? 0.5 * *feature.size : 0.0;
}

/// Radius around that line [mm].
[[nodiscard]] inline double radius_of(const Feature& feature) {
  return feature.kind == FeatureKind::hole ? 0.5 * *feature.size : 0.0;
}

/// Metal between two openings at its narrowest [mm]; 0 or less where they overlap, no value where
/// one of them has no place.
[[nodiscard]] inline std::optional<double> metal_between(const Feature& a, const Feature& b) {
  if (!is_placed(a) || !is_placed(b)) return std::nullopt;
  const double beside = std::abs(*a.across - *b.across);
  const double along = std::abs(*a.along - *b.along) - half_line(a) - half_line(b);
  return std::hypot(std::max(along, 0.0), beside) - radius_of(a) - radius_of(b);
}

/// Distance of two centres along the feed [mm] from which on the openings leave metal between them.
[[nodiscard]] inline double clear_along(const Feature& a, const Feature& b) {
  const double beside = *a.across - *b.across;
  const double reach = radius_of(a) + radius_of(b);
  return half_line(a) + half_line(b) + std::sqrt(std::max(reach * reach - beside * beside, 0.0));
}

}  // namespace drumlin::cases
