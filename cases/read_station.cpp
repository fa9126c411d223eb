#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_station.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// Where the case is silent a value of the library is taken, and said so.
void from_library(const Section& section, std::string_view key, const Sourced& sourced,
                  std::string_view unit, double& value) {
  if (section.given(key)) return;
  value = sourced.value;
  section.note_default(key,
                       unit.empty() ? units::format_number(value) : units::format(value, unit, 6),
                       sourced.source);
}

/// The library's band, or the case's own number without one.
Sourced band(const Section& section, std::string_view key, const Sourced& sourced, double value) {
  return section.given(key) ? Sourced{value, value, value, "case"} : sourced;
}

Drum read_drum(const Section& station, const Reading& reading) {
  Drum drum;
  const auto section = station.open("drum");
  if (!section) {
    if (station.lacks("drum"))
      station.problem_at_value("drum",
                               "missing; expected drum = { radius = \"100 mm\", cover = \"15 mm\", "
                               "hardness = \"40 Shore A\" }");
    return drum;
  }
  read_fields<Drum>(*section, drum_fields, drum);
  if (const auto defaults = look_up(station, "drum", [&] { return reading.library.elastomer(); })) {
    from_library(*section, "poisson", defaults->poisson, "", drum.poisson_ratio);
    from_library(*section, "density", defaults->density, "kg/m3", drum.density);
  }
  if (section->given("hardness") && section->given("modulus"))
    section->problem_at_key("modulus", "give hardness or modulus, not both");
  else if (section->lacks("hardness") && section->lacks("modulus"))
    section->problem(R"(expected hardness, such as "40 Shore A", or modulus, such as "1.7 MPa")");
  if (drum.radius > 0 && drum.cover >= drum.radius)
    section->problem_at_value("cover", fmt::format("{} is not thinner than the drum's radius, {}",
                                                   units::format(drum.cover, "mm", 6),
                                                   units::format(drum.radius, "mm", 6)));
  return drum;
}

void read_removal_coefficient(const Section& section, Belt& belt) {
  const Node* node = section.find("removal_coefficient");
  if (node == nullptr) return;
  const std::string path = section.path("removal_coefficient");
  if (node->kind != Node::Kind::table) {
    belt.removal_coefficient = quantity_of(*node, removal_coefficient, path, section.findings());
    return;
  }
  const auto table = section.open("removal_coefficient");
  if (node->members.empty()) table->problem("is empty; expected one value per material");
  for (const Member& member : node->members)
    if (const auto value = quantity_of(member.value, removal_coefficient, table->path(member.key),
                                       section.findings()))
      belt.removal_coefficients[member.key] = *value;
}

/// Each material named in a table of removal coefficients must be on the part.
void check_materials(const Section& section, const Belt& belt, const Part& part) {
  if (part.material.name.empty()) return;
  for (const auto& [name, value] : belt.removal_coefficients) {
    if (name == part.material.name || (part.coating && name == part.coating->material.name))
      continue;
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
  read_fields<Belt>(*section, belt_fields, belt);
  read_grain(*section, reading, belt);
  read_backing(*section, reading, belt);
  read_removal_coefficient(*section, belt);
  belt.bending_stiffness_band =
      band(*section, "bending_stiffness", belt.backing.bending_stiffness, belt.bending_stiffness);
  belt.grain_compliance_band =
      band(*section, "grain_compliance", belt.grit.grain_compliance, belt.grain_compliance);
  belt.threshold_pressure_band = band(*section, "threshold_pressure",
                                      belt.abrasive.threshold_pressure, belt.threshold_pressure);
  return belt;
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
  if (drum.cover > 0 && depth.interference >= drum.cover)
    section->problem_at_value("interference",
                              fmt::format("{} is not less than the cover's thickness, {}",
                                          units::format(depth.interference, "mm", 6),
                                          units::format(drum.cover, "mm", 6)));
  if (by_load) return load;
  return depth;
}

void read_belt_age(const Section& station) {
  const Node* node = station.find("belt_age");
  if (node == nullptr) return;
  if (node->kind != Node::Kind::string) {
    station.problem_at_value("belt_age", fmt::format("expected parts, an area, a length or a time, "
                                                     "such as \"8000 parts\"; got {}",
                                                     kind_name(node->kind)));
    return;
  }
  namespace dimension = models::dimension;
  try {
    const auto age = units::parse(node->text);
    const auto allowed = {dimension::parts, dimension::area, dimension::length, dimension::time};
    if (std::find(allowed.begin(), allowed.end(), age.unit.dimension) == allowed.end())
      station.problem_at_value("belt_age",
                               fmt::format("{} is {}; expected parts, an area, a length or a time, "
                                           "such as \"8000 parts\"",
                                           in_quotes(node->text), units::name(age.unit.dimension)));
    else if (age.value < 0)
      station.problem_at_value("belt_age", fmt::format("{} is negative", in_quotes(node->text)));
    else if (age.value > 0)
      station.note_unused("belt_age", "the belt is taken as sharp; dulling is not followed yet");
  } catch (const units::UnitError& error) {
    station.problem_at_value("belt_age", error.what());
  }
}

}  // namespace

std::vector<Station> read_stations(const Section& top, const Reading& reading, const Part& part) {
  std::vector<Station> stations;
  const auto list = top.open_list("station");
  const Node* node = top.find("station");
  if (top.lacks("station") ||
      (node != nullptr && node->kind == Node::Kind::list && node->items.empty()))
    top.problem_at_value("station", "no station; give at least one [[station]]");
  const KeyInfo kind{
      .name = "kind", .kind = KeyKind::choice, .required = true, .choices = station_kinds};
  for (const Section& section : list) {
    // A station of another kind has keys of its own.
    if (section.given("kind") && !read_choice(section, kind)) continue;
    BeltStation station;
    read_fields<BeltStation>(section, station_fields, station);
    if (!section.given("kind")) static_cast<void>(read_choice(section, kind));
    station.drum = read_drum(section, reading);
    station.belt = read_belt(section, reading);
    if (!station.belt.removal_coefficients.empty())
      check_materials(*section.open("belt"), station.belt, part);
    station.setting = read_setting(section, station.drum);
    read_belt_age(section);
    stations.emplace_back(std::move(station));
  }
  return stations;
}

}  // namespace drumlin::cases
