#pragma once

#include <variant>

#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// Discs of a brush station; null at any other.
[[nodiscard]] inline const models::DiscBrush* discs_of(const StationSetup& station) {
  const auto* brush = std::get_if<BrushSetup>(&station);
  return brush == nullptr ? nullptr : std::get_if<models::DiscBrush>(&brush->brush);
}

/// Half the length along the feed over which a tool lies on the face [mm]: the nip's or the
/// roller's half-width, the radius of discs, which have no nip; 0 where nothing is stated.
[[nodiscard]] inline double half_length_of(const StationSetup& station,
                                           const StationResult& stated) {
  if (const auto* discs = discs_of(station)) return discs->radius;
  return stated.half_width ? stated.half_width->value : 0.0;
}

}  // namespace drumlin::sim
