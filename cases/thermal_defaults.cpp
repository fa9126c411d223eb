#include "cases/thermal_defaults.hpp"

#include <array>
#include <string_view>

#include <fmt/format.h>

namespace drumlin::cases {
namespace {

constexpr double celsius = 273.15;
constexpr double per_kg = 1e6;  // J/(kg K) in mJ/(t K)

struct Usual {
  std::string_view family;
  double conductivity, conductivity_low, conductivity_high;  // [W/(m K)]
  double heat, heat_low, heat_high;                          // [J/(kg K)]
  double melting, melting_low, melting_high;                 // [degC]
};

/// Handbook ranges of the families (from memory).
constexpr auto usual = std::to_array<Usual>({
    {"steel", 50, 40, 65, 480, 450, 500, 1500, 1420, 1535},
    {"stainless", 15, 13, 25, 500, 450, 520, 1420, 1375, 1510},
    {"aluminium", 140, 110, 230, 900, 880, 960, 600, 500, 660},
    {"zinc", 116, 90, 120, 390, 380, 420, 419.5, 340, 420},
});

}  // namespace

void add_thermal_defaults(Material& material) {
  for (const Usual& u : usual) {
    if (u.family != material.family) continue;
    const std::string source =
        fmt::format("usual in the family \"{}\", handbook range (from memory)", u.family);
    if (!material.conductivity)
      material.conductivity = {u.conductivity, u.conductivity_low, u.conductivity_high, source};
    if (!material.specific_heat)
      material.specific_heat = {u.heat * per_kg, u.heat_low * per_kg, u.heat_high * per_kg, source};
    if (!material.melting_point)
      material.melting_point = {u.melting + celsius, u.melting_low + celsius,
                                u.melting_high + celsius, source};
  }
}

}  // namespace drumlin::cases
