#pragma once

#include <array>
#include <numbers>
#include <string_view>

#include "models/dimension.hpp"

/// Symbols, factors and names behind cases/units.hpp. Inch, pound, foot: exact by definition
/// (1959); standard gravity 9.80665 m/s^2 for the pound-force.
namespace drumlin::cases::units {

struct TableRow {
  std::string_view symbol;
  double factor;
  models::Dimension dimension;
};

namespace dim = models::dimension;

inline constexpr models::Dimension mass{.mass = 1};
inline constexpr models::Dimension frequency{.time = -1};
inline constexpr models::Dimension energy{.length = 2, .mass = 1, .time = -2};
inline constexpr models::Dimension power{.length = 2, .mass = 1, .time = -3};

inline constexpr auto table = std::to_array<TableRow>({
    {"mm", 1, dim::length},
    {"um", 1e-3, dim::length},
    {"nm", 1e-6, dim::length},
    {"cm", 10, dim::length},
    {"m", 1e3, dim::length},
    {"km", 1e6, dim::length},
    {"in", 25.4, dim::length},
    {"inch", 25.4, dim::length},
    {"mil", 0.0254, dim::length},
    {"thou", 0.0254, dim::length},
    {"ft", 304.8, dim::length},
    {"s", 1, dim::time},
    {"ms", 1e-3, dim::time},
    {"min", 60, dim::time},
    {"h", 3600, dim::time},
    {"kg", 1e-3, mass},
    {"g", 1e-6, mass},
    {"mg", 1e-9, mass},
    {"t", 1, mass},
    {"lb", 0.45359237e-3, mass},
    {"oz", 28.349523125e-6, mass},
    {"N", 1, dim::force},
    {"mN", 1e-3, dim::force},
    {"kN", 1e3, dim::force},
    {"lbf", 4.4482216152605, dim::force},
    {"MPa", 1, dim::pressure},
    {"kPa", 1e-3, dim::pressure},
    {"Pa", 1e-6, dim::pressure},
    {"GPa", 1e3, dim::pressure},
    {"bar", 0.1, dim::pressure},
    {"mbar", 1e-4, dim::pressure},
    {"psi", 4.4482216152605 / (25.4 * 25.4), dim::pressure},
    {"J", 1e3, energy},
    {"mJ", 1, energy},
    {"kJ", 1e6, energy},
    {"Wh", 3.6e6, energy},
    {"kWh", 3.6e9, energy},
    {"W", 1e3, power},
    {"mW", 1, power},
    {"kW", 1e6, power},
    {"K", 1, dim::temperature},
    {"degC", 1, dim::temperature},
    {"rad", 1, dim::angle},
    {"deg", std::numbers::pi / 180, dim::angle},
    {"Hz", 1, frequency},
    {"kHz", 1e3, frequency},
    {"rpm", 1.0 / 60, frequency},
    {"Shore A", 1, dim::hardness},
    {"parts", 1, dim::parts},
    {"part", 1, dim::parts},
    {"EUR", 1, dim::money},
    {"ct", 0.01, dim::money},
    {"USD", 1, dim::money},
    {"GBP", 1, dim::money},
    {"%", 0.01, dim::number},
});

/// 0 degC in K (exact by definition).
inline constexpr double celsius_zero = 273.15;

struct NamedDimension {
  models::Dimension dimension;
  std::string_view name;
  std::string_view example;
};

inline constexpr auto named = std::to_array<NamedDimension>({
    {dim::number, "a pure number", "0.5"},
    {dim::length, "a length", "1.5 mm"},
    {dim::area, "an area", "20 m2"},
    {dim::time, "a time", "10 s"},
    {dim::speed, "a speed", "8 m/s"},
    {dim::angle, "an angle", "5 deg"},
    {dim::temperature, "a temperature", "60 degC"},
    {dim::per_temperature, "a thermal expansion", "2e-4 1/K"},
    {dim::money, "a sum of money", "1.20 EUR"},
    {dim::hardness, "a hardness", "40 Shore A"},
    {dim::parts, "a number of parts", "8000 parts"},
    {dim::force, "a force", "10 N"},
    {dim::pressure, "a pressure", "0.5 MPa"},
    {dim::per_pressure, "a removal coefficient", "4e-5 1/MPa"},
    {dim::line_load, "a line load", "0.5 N/mm"},
    {dim::bending_stiffness, "a bending stiffness", "0.5 N mm"},
    {dim::compliance, "a compliance", "1e-3 mm/MPa"},
    {dim::density, "a density", "1100 kg/m3"},
    {dim::area_density, "a mass per area", "200 g/m2"},
    {mass, "a mass", "1 kg"},
    {frequency, "a frequency", "10 Hz"},
    {power, "a power", "5 kW"},
    {{.length = 1, .mass = 1, .time = -3}, "a power per width", "10 W/mm"},
    {dim::conductivity, "a thermal conductivity", "50 W/m/K"},
    {dim::specific_heat, "a specific heat", "480 J/kg/K"},
    {{.length = 3}, "a volume", "10 mm3"},
    {{.time = -1, .money = 1}, "a cost per time", "90 EUR/h"},
    {{.length = -2, .mass = -1, .time = 2, .money = 1}, "a cost per energy", "0.25 EUR/kWh"},
    {{.money = 1, .parts = -1}, "a cost per part", "1.20 EUR/part"},
    {{.length = -2, .money = 1}, "a cost per area", "40 EUR/m2"},
});

}  // namespace drumlin::cases::units
