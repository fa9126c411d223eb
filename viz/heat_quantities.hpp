#pragma once

#include "viz/quantities.hpp"

/// How the heat of a station and of its burrs leaves the program, as viz/quantities.hpp says it.
namespace drumlin::viz {

inline constexpr auto heat_quantities = std::to_array<QuantityKey<sim::StationHeat>>({
    {"power_in_W_per_mm", "W/mm", "power of the tool on the part, per width",
     &sim::StationHeat::power_in, mw_to_w},
    {"share_to_part", "1", "share of the power that the part takes up as heat",
     &sim::StationHeat::share_to_part, as_is},
    {"share_to_chips", "1", "share of the power that chips carry away",
     &sim::StationHeat::share_to_chips, as_is},
    {"share_to_rest", "1", "share of the power that goes into belt or brush, air and fluid",
     &sim::StationHeat::share_to_rest, as_is},
    {"into_part_W_per_mm", "W/mm", "heat into the part, per width", &sim::StationHeat::into_part,
     mw_to_w},
    {"into_chips_W_per_mm", "W/mm", "heat into chips, per width", &sim::StationHeat::into_chips,
     mw_to_w},
    {"into_rest_W_per_mm", "W/mm", "heat into belt or brush, air and fluid, per width",
     &sim::StationHeat::into_rest, mw_to_w},
    {"arrival_C", "degC", "mean temperature of the sheet as it comes", &sim::StationHeat::arrival,
     kelvin_to_celsius},
    {"flash_rise_K", "K", "warming of the hottest place of the face in the contact",
     &sim::StationHeat::flash_rise, as_is},
    {"mean_rise_K", "K", "warming of the sheet's mean", &sim::StationHeat::mean_rise, as_is},
    {"leaving_C", "degC", "mean temperature of the sheet as it goes", &sim::StationHeat::leaving,
     kelvin_to_celsius},
    {"contact_ms", "ms", "time that a place of the face is under the tool",
     &sim::StationHeat::contact_time, s_to_ms},
});

inline constexpr auto edge_heat_quantities = std::to_array<QuantityKey<sim::EdgeHeat>>({
    {"burr_C", "degC", "temperature of the burr's tip", &sim::EdgeHeat::burr, kelvin_to_celsius},
    {"beside_C", "degC", "temperature of the face at the burr's inner foot", &sim::EdgeHeat::beside,
     kelvin_to_celsius},
    {"contact_ms", "ms", "time for which the burr took up heat", &sim::EdgeHeat::contact_time,
     s_to_ms},
});

}  // namespace drumlin::viz
