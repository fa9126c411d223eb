#include "sim/app/heat_text.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "sim/app/result_table.hpp"

namespace drumlin::app {
namespace {

using sim::Quantity;
using sim::StationHeat;
using sim::StationResult;

/// A number of a station's heat; absent where the station has none.
auto of(Quantity StationHeat::*member) {
  return [member](const StationResult& station) {
    return station.heat ? (*station.heat).*member : Quantity{};
  };
}

/// Temperatures in degC, as the table scales numbers but does not shift them.
auto celsius(Quantity StationHeat::*member) {
  return [member](const StationResult& station) {
    if (!station.heat || !((*station.heat).*member)) return Quantity{};
    Quantity q = (*station.heat).*member;
    q->value -= 273.15;
    if (q->low) *q->low -= 273.15;
    if (q->high) *q->high -= 273.15;
    return q;
  };
}

std::string burrs_text(const sim::Result& result, const Style& style) {
  std::string out;
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    if (!result.stations[i].heat) continue;
    for (const sim::EdgeHeat& edge : result.stations[i].heat->edges) {
      if (!edge.burr) continue;
      const auto degrees = [](const Quantity& q) {
        const std::string value = fixed(q->value - 273.15, 0);
        if (!q->low || !q->high) return value + " degC";
        return fmt::format("{} degC ({}..{})", value, fixed(*q->low - 273.15, 0),
                           fixed(*q->high - 273.15, 0));
      };
      out += wrapped(
          fmt::format("station {}: burr at {} {}{}, face beside it {}, in {} ms", i + 1, edge.name,
                      degrees(edge.burr), edge.melts ? ", its melting point" : "",
                      degrees(edge.beside), brief(1e3 * edge.contact_time->value, 2)),
          "  ", style);
    }
  }
  return out;
}

}  // namespace

std::string heat_text(const sim::Result& result, const Style& style) {
  const bool any = std::any_of(result.stations.begin(), result.stations.end(),
                               [](const StationResult& s) { return s.heat.has_value(); });
  if (!any) return "";
  const Table table = table_of<StationResult>(
      "station", result.stations,
      [&](std::size_t i) { return fmt::format("{} {}", i + 1, result.stations[i].kind); },
      {{"power", "W/mm", of(&StationHeat::power_in), 1e-3, 2},
       {"to part", "%", of(&StationHeat::share_to_part), 100, 0},
       {"to chips", "%", of(&StationHeat::share_to_chips), 100, 0},
       {"to the rest", "%", of(&StationHeat::share_to_rest), 100, 0},
       {"sheet comes", "degC", celsius(&StationHeat::arrival), 1, 0},
       {"face rises", "K", of(&StationHeat::flash_rise), 1, 1},
       {"sheet rises", "K", of(&StationHeat::mean_rise), 1, 1},
       {"sheet goes", "degC", celsius(&StationHeat::leaving), 1, 0}});
  return heading("Heat of the part; the rest: belt or brush, air, fluid", style) +
         to_text(table, style) + burrs_text(result, style);
}

}  // namespace drumlin::app
