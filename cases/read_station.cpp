#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_station.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// What frame and bed of a machine give: rigid unless the case says otherwise.
const Sourced usual_frame{0, 0, 0.01, "common practice, no source"};

/// Each material named in a table of removal coefficients must be on the part.
void check_materials(const Section& section, const Belt& belt, const Part& part) {
  if (part.material.name.empty()) return;
  for (const auto& [name, value] : belt.removal_coefficients) {
    const bool layer = part.coating && name == part.coating->material.name;
    const bool top = part.coating && part.coating->top && name == part.coating->top->material.name;
    if (name == part.material.name || layer || top) continue;
    const auto table = section.open("removal_coefficient");
    table->note_unused(name, fmt::format("the part has no {}", in_quotes(name)));
  }
}

void read_grain(const Section& section, const Reading& reading, Belt& belt) {
  const std::string such_as = R"(grit with its grading, such as "P120" or "US 120")";
  const Node* node = section.find("grit");
  std::optional<std::string> name;
  if (node != nullptr && node->kind == Node::Kind::integer)
    name = fmt::format("{}", node->integer);
  else
    name = read_name(section, "grit", such_as);
  if (name)
    if (auto grit = look_up(section, "grit", [&] { return reading.library.grit(*name); })) {
      belt.grit = std::move(*grit);
      from_library(section, "grain_compliance", belt.grit.grain_compliance, "mm/MPa",
                   belt.grain_compliance);
      from_library(section, "grain_spacing", belt.grit.grain_spacing, "mm", belt.grain_spacing);
    }
  if (const auto abrasive = read_name(section, "abrasive", "an abrasive, such as \"alumina\""))
    if (auto found =
            look_up(section, "abrasive", [&] { return reading.library.abrasive(*abrasive); })) {
      belt.abrasive = std::move(*found);
      from_library(section, "threshold_pressure", belt.abrasive.threshold_pressure, "MPa",
                   belt.threshold_pressure);
    }
}

void read_backing(const Section& section, const Reading& reading, Belt& belt) {
  std::optional<std::string> name = "X";
  if (section.given("backing"))
    name = read_name(section, "backing", "a backing, such as \"X\"");
  else
    section.note_default("backing", "X", "drill cloth; common practice, no source");
  if (!name) return;
  const std::string_view at = section.given("backing") ? "backing" : "grit";
  if (auto backing = look_up(section, at, [&] { return reading.library.backing(*name); })) {
    belt.backing = std::move(*backing);
    from_library(section, "bending_stiffness", belt.backing.bending_stiffness, "N mm",
                 belt.bending_stiffness);
    from_library(section, "mass", belt.backing.mass, "kg/m2", belt.mass);
    if (!section.given("wet")) belt.wet = belt.backing.wet;
  }
}

Belt read_belt(const Section& station, const Reading& reading) {
  Belt belt;
  const auto section = station.open("belt");
  if (!section) {
    if (station.lacks("belt"))
      station.problem_at_value(
          "belt", R"(missing; expected belt = { grit = "P120", abrasive = "alumina" })");
    return belt;
  }
  section->refuse_unknown(belt_keys());
  read_each<Belt>(*section, belt_fields, belt);
  read_grain(*section, reading, belt);
  read_backing(*section, reading, belt);
  read_removal(*section, belt);
  belt.bending_stiffness_band =
      band(*section, "bending_stiffness", belt.backing.bending_stiffness, belt.bending_stiffness);
  belt.grain_compliance_band =
      band(*section, "grain_compliance", belt.grit.grain_compliance, belt.grain_compliance);
  belt.threshold_pressure_band = band(*section, "threshold_pressure",
                                      belt.abrasive.threshold_pressure, belt.threshold_pressure);
  belt.mass_band = band(*section, "mass", belt.backing.mass, belt.mass);
  belt.grain_spacing_band =
      band(*section, "grain_spacing", belt.grit.grain_spacing, belt.grain_spacing);
  return belt;
}

void check_depth(const Section& section, const InterferenceSetting& depth, const Drum& drum) {
  if (drum.cover > 0 && depth.interference >= drum.cover)
    section.problem_at_value("interference",
                             fmt::format("{} is not less than the cover's thickness, {}",
                                         units::format(depth.interference, "mm", 6),
                                         units::format(drum.cover, "mm", 6)));
}

Setting read_setting(const Section& station, const Drum& drum) {
  const auto section = station.open("setting");
  if (!section) {
    if (station.lacks("setting"))
      station.problem_at_value("setting",
                               "missing; expected setting = { interference = \"0.5 mm\" } or "
                               "{ line_load = \"0.5 N/mm\" }");
    return {};
  }
  auto keys = infos(interference_fields);
  keys.push_back(line_load_fields[0].info);
  section->refuse_unknown(keys);
  const bool by_depth = section->given("interference");
  const bool by_load = section->given("line_load");
  InterferenceSetting depth;
  LineLoadSetting load;
  read_field(*section, interference_fields[0], depth);
  read_field(*section, line_load_fields[0], load);
  if (by_depth && by_load)
    section->problem_at_key("line_load", "give interference or line_load, not both");
  else if (section->lacks("interference") && section->lacks("line_load"))
    section->problem(
        R"(expected interference, such as "0.5 mm", or line_load, such as "0.5 N/mm")");
  check_depth(*section, depth, drum);
  if (by_load) return load;
  return depth;
}

/// Keys of a drum and its belt that only motion gives an effect.
void note_keys_of_motion(const Section& section, const BeltStation& station) {
  constexpr std::string_view why = "numerics.cover_motion is static: nothing moves";
  const auto note = [](const std::optional<Section>& table, std::string_view key, bool says,
                       std::string_view reason) {
    if (table && says && table->given(key)) table->note_unused(key, reason);
  };
  const auto drum = section.open("drum");
  note(drum, "loss_factor", station.drum.loss_factor > 0, why);
  note(drum, "relaxation", true, why);
  note(drum, "cover_material", true,
       "numerics.cover_motion is static: of the measured relaxation only the softening with "
       "temperature is taken");
  note(section.open("belt"), "mass", station.belt.mass > 0, why);
}

}  // namespace

void note_idle_keys(const Section& top, const Case& scenario) {
  if (scenario.numerics.cover_motion != "static") return;
  const auto sections = top.open_list("station");
  for (std::size_t i = 0; i < scenario.stations.size(); ++i) {
    const std::size_t entry = index_in_file(scenario.stations, i);
    if (const auto* belt = std::get_if<BeltStation>(&scenario.stations[i]);
        belt != nullptr && entry < sections.size())
      note_keys_of_motion(sections[entry], *belt);
  }
}

BeltStation read_belt_station(const Section& section, const Reading& reading, const Part& part) {
  BeltStation station;
  read_fields<BeltStation>(section, station_fields, station);
  if (const Node* speed = section.find("speed")) station.speed_place = speed->place;
  station.frame_compliance_band =
      band(section, "frame_compliance", usual_frame, station.frame_compliance);
  if (section.given("kind") && section.lacks("drum") && section.lacks("belt")) {
    section.problem(
        "a station without a tool; expected drum = { radius = \"100 mm\", cover = \"15 mm\", "
        "hardness = \"40 Shore A\" } and belt = { grit = \"P120\", abrasive = \"alumina\" }, or "
        "another kind of station");
    return station;
  }
  station.drum = read_drum(section, reading);
  station.belt = read_belt(section, reading);
  if (!station.belt.removal_coefficients.empty())
    check_materials(*section.open("belt"), station.belt, part);
  station.setting = read_setting(section, station.drum);
  read_belt_wear(section, reading, station);
  return station;
}

void check_belt_stations(const Section& top, const Case& scenario) {
  const auto sections = top.open_list("station");
  for (std::size_t i = 0; i < scenario.stations.size(); ++i) {
    const auto* belt = std::get_if<BeltStation>(&scenario.stations[i]);
    if (belt == nullptr) continue;
    const Section& section = sections[index_in_file(scenario.stations, i)];
    check_drum(*section.open("drum"), belt->drum);
    if (const auto* depth = std::get_if<InterferenceSetting>(&belt->setting))
      check_depth(*section.open("setting"), *depth, belt->drum);
  }
}

}  // namespace drumlin::cases
