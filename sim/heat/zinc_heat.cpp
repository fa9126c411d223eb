#include "sim/heat/zinc_heat.hpp"

#include <algorithm>

#include "models/heat/limits.hpp"

namespace drumlin::sim {

std::optional<ZincHeat> zinc_heat(const Setup& setup, const Result& result) {
  const auto& coating = setup.scenario.part.coating;
  if (!coating || coating->material.family != "zinc" || !coating->material.melting_point)
    return std::nullopt;
  ZincHeat zinc;
  const auto look = [&](const Quantity& q, std::size_t station, const std::string& where) {
    if (!q) return;
    zinc.hottest_high = std::max(zinc.hottest_high, q->high.value_or(q->value));
    if (q->value <= zinc.hottest) return;
    zinc.hottest = q->value;
    zinc.where = where;
    zinc.station = station;
  };
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    const StationResult& station = result.stations[i];
    look(station.after.face.temperature, i, "face");
    if (station.after.reverse) look(station.after.reverse->face.temperature, i, "other face");
    if (!station.heat) continue;
    for (const EdgeHeat& edge : station.heat->edges)
      look(edge.beside, i, "face beside " + edge.name);
  }
  if (zinc.where.empty()) return std::nullopt;
  zinc.melting_point = coating->material.melting_point->value;
  zinc.melts = zinc.hottest >= zinc.melting_point;
  zinc.may_melt = zinc.hottest_high >= zinc.melting_point;
  zinc.may_boil = zinc.hottest_high >= models::zinc_boils;
  return zinc;
}

}  // namespace drumlin::sim
