#include "sim/heat/heat_setup.hpp"

#include "models/heat/convection.hpp"

namespace drumlin::sim {
namespace {

// Share of the power that goes into the part: 60 to 85 % dry, 5 to 40 % well flooded (common
// practice, no source).
constexpr double dry_low = 0.60;
constexpr double dry_high = 0.85;
constexpr double wet_low = 0.05;
constexpr double wet_high = 0.40;

std::optional<WarmMetal> warm(const cases::Material& material) {
  if (!material.conductivity || !material.specific_heat) return std::nullopt;
  WarmMetal metal{.thermal = {.conductivity = material.conductivity->value,
                              .density = material.density.value,
                              .specific_heat = material.specific_heat->value},
                  .melting_point = {}};
  if (material.melting_point) metal.melting_point = material.melting_point->value;
  return metal;
}

}  // namespace

HeatSetup heat_setup(const cases::Case& scenario) {
  HeatSetup setup;
  setup.part = warm(scenario.part.material);
  setup.skin = setup.part;
  if (scenario.part.coating) {
    const cases::Coating& coating = *scenario.part.coating;
    if (const auto layer = warm(coating.material)) setup.skin = layer;
    if (coating.top)
      if (const auto layer = warm(coating.top->material)) setup.skin = layer;
  }
  setup.wet = scenario.cooling == cases::Cooling::wet;
  setup.room = scenario.room_temperature;
  setup.station_spacing = scenario.conveyor.station_spacing;
  setup.pass_interval = scenario.conveyor.pass_interval;
  setup.film = setup.wet ? models::flood_film.value : models::dry_film.value;
  setup.contact_film = setup.wet ? models::contact_film.value : 0.0;
  setup.share_low = setup.wet ? wet_low : dry_low;
  setup.share_high = setup.wet ? wet_high : dry_high;
  return setup;
}

}  // namespace drumlin::sim
