#pragma once

#include <array>

#include "sim/line_economy_result.hpp"
#include "viz/quantities.hpp"

/// How the numbers of the line leave the program; money has the currency in its key.
namespace drumlin::viz {

inline constexpr Scale mw_to_kw{.factor = 1e-6};
inline constexpr Scale mj_to_kj{.factor = 1e-6};
inline constexpr Scale mpa_to_kpa{.factor = 1e3};

inline constexpr auto line_quantities = std::to_array<QuantityKey<sim::LineEconomy>>({
    {"power_kW", "kW", "of all tools while parts are under each", &sim::LineEconomy::power,
     mw_to_kw},
    {"mean_power_kW", "kW", "of all tools, gaps between parts counted",
     &sim::LineEconomy::mean_power, mw_to_kw},
    {"energy_kJ_per_part", "kJ", "that the tools put into a part and its passage",
     &sim::LineEconomy::energy, mj_to_kj},
    {"grip_margin_all_tools", "1", "grip margin of a part under all tools at once",
     &sim::LineEconomy::grip_margin_all, as_is},
});

inline constexpr auto station_economy_quantities = std::to_array<QuantityKey<sim::StationEconomy>>({
    {"drag_N", "N", "force of the tool on one part, along the feed", &sim::StationEconomy::drag,
     as_is},
    {"cutting_power_kW", "kW", "drag of all lanes times speed", &sim::StationEconomy::cutting_power,
     mw_to_kw},
    {"rolling_power_kW", "kW", "that the cover turns into heat, all lanes",
     &sim::StationEconomy::rolling_power, mw_to_kw},
    {"power_kW", "kW", "both, while every lane is under the tool", &sim::StationEconomy::power,
     mw_to_kw},
    {"full_width_power_kW", "kW", "were the whole width of the belt covered",
     &sim::StationEconomy::full_width_power, mw_to_kw},
    {"tension_ratio", "1", "T1/T2 that the drag asks of the belt's tension at speed",
     &sim::StationEconomy::tension_ratio, as_is},
    {"grip_margin", "1", "holding force over the tool's push on the part",
     &sim::StationEconomy::grip_margin, as_is},
    {"turning_margin", "1", "the same for the turn of a part half under the tool",
     &sim::StationEconomy::turning_margin, as_is},
    {"smallest_part_mm", "mm", "shortest part along the feed that does not slip; 0: any holds",
     &sim::StationEconomy::smallest_length, as_is},
    {"holding_suction_kPa", "kPa", "suction that would hold this part",
     &sim::StationEconomy::holding_suction, mpa_to_kpa},
});

/// A number of the comparison of dry and wet.
struct CoolingKey {
  std::string_view key;
  std::string_view unit;
  std::string_view meaning;
  std::optional<double> sim::CoolingColumn::*member;
  Scale scale;
};
inline constexpr auto cooling_keys = std::to_array<CoolingKey>({
    {"removal_um", "um", "depth the far face lost", &sim::CoolingColumn::removal, mm_to_um},
    {"coating_left_um", "um", "coating left on the far face", &sim::CoolingColumn::coating_left,
     mm_to_um},
    {"burr_height_um", "um", "highest burr left", &sim::CoolingColumn::burr_height, mm_to_um},
    {"roughness_um", "um", "Ra of the face across the lay", &sim::CoolingColumn::roughness,
     mm_to_um},
    {"temperature_C", "degC", "highest temperature of the face", &sim::CoolingColumn::temperature,
     kelvin_to_celsius},
    {"belt_life_h", "h", "running until the first belt is done", &sim::CoolingColumn::belt_life,
     s_to_h},
    {"power_kW", "kW", "of all tools while parts are under each", &sim::CoolingColumn::power,
     mw_to_kw},
    {"grip_margin", "1", "least of the line", &sim::CoolingColumn::grip_margin, as_is},
    {"smallest_part_mm", "mm", "shortest part that no tool pushes away; 0: any holds",
     &sim::CoolingColumn::smallest_length, as_is},
});

}  // namespace drumlin::viz
