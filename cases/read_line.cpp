#include <algorithm>
#include <utility>

#include "cases/reader_parts.hpp"
#include "cases/schema_station.hpp"

namespace drumlin::cases {
namespace {

KnockOffStation read_knock_off(const Section& section) {
  KnockOffStation station;
  read_fields<KnockOffStation>(section, knock_off_fields, station);
  return station;
}

Station read_station(const Section& section, std::string_view kind, const Reading& reading,
                     const Part& part) {
  if (kind == "knock-off") return read_knock_off(section);
  if (kind == "flip") {
    section.refuse_unknown({&station_kind_info, 1});
    return FlipStation{};
  }
  return read_belt_station(section, reading, part);
}

}  // namespace

std::vector<Station> read_stations(const Section& top, const Reading& reading, const Part& part) {
  std::vector<Station> stations;
  const auto list = top.open_list("station");
  const Node* node = top.find("station");
  if (top.lacks("station") ||
      (node != nullptr && node->kind == Node::Kind::list && node->items.empty()))
    top.problem_at_value("station", "no station; give at least one [[station]]");
  bool every_kind_is_known = true;
  for (const Section& section : list) {
    const auto kind = read_choice(section, station_kind_info);
    every_kind_is_known = every_kind_is_known && kind;
    // A station of an unknown kind has keys of its own; one without a kind, most likely a belt's.
    if (!kind && section.given("kind")) continue;
    const std::string_view name = kind ? station_kinds[*kind].name : "belt";
    if (name == "brush") {
      for (BrushStation& brush : read_brushes(section, reading))
        stations.emplace_back(std::move(brush));
      continue;
    }
    stations.push_back(read_station(section, name, reading, part));
  }
  const bool only_flips = std::all_of(stations.begin(), stations.end(), [](const Station& station) {
    return std::holds_alternative<FlipStation>(station);
  });
  if (every_kind_is_known && !stations.empty() && only_flips)
    top.problem_at_value("station",
                         "a line without a tool: its stations only turn the part over; give at "
                         "least one [[station]] of kind \"belt\"");
  return stations;
}

}  // namespace drumlin::cases
