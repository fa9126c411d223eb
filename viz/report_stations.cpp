#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/disc_quantities.hpp"
#include "viz/heat_quantities.hpp"
#include "viz/report_parts.hpp"
#include "viz/svg_canvas.hpp"

namespace drumlin::viz {
namespace {

std::string station_name(const sim::Result& result, std::size_t i) {
  return fmt::format("{} {}", i + 1, result.stations[i].kind);
}

std::string contact_table(const sim::Result& result) {
  std::vector<std::string> names;
  std::vector<const sim::StationResult*> stations;
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    names.push_back(station_name(result, i));
    stations.push_back(&result.stations[i]);
  }
  return side_by_side("Contact and tool, station by station", std::move(names), stations,
                      station_quantities);
}

std::string disc_table(const sim::Result& result) {
  Table table{"Motion of the discs", {"station", "quantity", "value", "meaning"}, {}};
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    if (!result.stations[i].disc) continue;
    for (const DiscKey& key : disc_quantities)
      table.rows.push_back(
          {{station_name(result, i), "", ""},
           {spoken_key(key.key, key.unit), "", ""},
           {with_unit(key.factor * ((*result.stations[i].disc).*key.member), key.unit), "", ""},
           {std::string(key.meaning), "", ""}});
  }
  return table.rows.empty() ? std::string() : table_html(table);
}

std::string heat_tables(const sim::Result& result) {
  std::vector<std::string> names;
  std::vector<const sim::StationHeat*> heats;
  std::string edges;
  for (std::size_t i = 0; i < result.stations.size(); ++i) {
    const auto& heat = result.stations[i].heat;
    if (!heat) continue;
    names.push_back(station_name(result, i));
    heats.push_back(&*heat);
    std::vector<std::string> edge_names;
    std::vector<const sim::EdgeHeat*> owners;
    for (const sim::EdgeHeat& edge : heat->edges) {
      if (!edge.burr) continue;
      edge_names.push_back(edge.name + (edge.melts ? " (reaches its melting point)" : ""));
      owners.push_back(&edge);
    }
    edges += side_by_side("Heat of the burrs at station " + station_name(result, i),
                          std::move(edge_names), owners, edge_heat_quantities);
  }
  if (heats.empty()) return "";
  return side_by_side("Heat: where the power goes", std::move(names), heats, heat_quantities) +
         (edges.empty() ? "" : fold_html("Heat of the burrs", edges));
}

}  // namespace

std::string report_stations(const sim::Result& result) {
  std::string body = "<ol>\n";
  for (const sim::StationResult& station : result.stations)
    body += fmt::format("<li>{}</li>\n", escaped(station.description));
  body += "</ol>\n";
  if (result.feed > 0)
    body += fmt::format("<p>Conveyor: {} m/min.</p>\n",
                        number_text(mm_per_s_to_m_per_min(result.feed)));
  body += contact_table(result) + disc_table(result) + heat_tables(result);
  return section_html("stations", "Stations: the set-up as it was understood", body);
}

}  // namespace drumlin::viz
