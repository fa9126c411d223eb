#pragma once

#include <optional>

#include "cases/case.hpp"
#include "models/heat/metal.hpp"

namespace drumlin::sim {

/// A metal that takes up heat, and where it begins to melt.
struct WarmMetal {
  models::ThermalMetal thermal;
  std::optional<double> melting_point;  ///< [K]
};

/// What heat of the part needs to be known: part, surroundings, way.
struct HeatSetup {
  std::optional<WarmMetal> part;  ///< absent: no temperatures are given
  /// What grains slide on: the layer over all others where its heat is known, else the part.
  std::optional<WarmMetal> skin;
  bool wet = false;
  double room = 0;             ///< [K] of air, fluid and incoming part
  double station_spacing = 0;  ///< [mm]
  double pass_interval = 0;    ///< [s]
  double film = 0;             ///< [mW/(mm^2 K)] by which one face cools on the way
  double contact_film = 0;     ///< [mW/(mm^2 K)] of fluid in the contact; 0 dry
  /// Band of the share of a station's power that goes into the part [-]: published, wide.
  double share_low = 0;
  double share_high = 0;
  std::optional<double> share;  ///< in place of what the laws give; for bands
};

[[nodiscard]] HeatSetup heat_setup(const cases::Case& scenario);

}  // namespace drumlin::sim
