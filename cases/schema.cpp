#include "cases/schema.hpp"

#include "cases/finishes.hpp"
#include "cases/schema_brush.hpp"
#include "cases/schema_cost.hpp"
#include "cases/schema_part.hpp"
#include "cases/schema_rest.hpp"
#include "cases/schema_station.hpp"

namespace drumlin::cases {

namespace {

/// A list of keys with some of them replaced by what is known of them elsewhere.
std::vector<KeyInfo> replaced(std::vector<KeyInfo> keys, const std::vector<KeyInfo>& by) {
  for (KeyInfo& key : keys)
    for (const KeyInfo& other : by)
      if (key.name == other.name) key = other;
  return keys;
}

/// One section per kind of burr, under "part.feature.burr:" and its name.
void add_burrs(std::vector<SectionInfo>& sections) {
  for (const BurrKind& kind : every_burr_kind()) {
    SectionInfo section{"part.feature.burr:" + std::string(kind.name), kind.keys};
    for (const BurrAlias& alias : burr_aliases)
      for (const KeyInfo& key : kind.keys)
        if (alias.kind == kind.name && alias.key == key.name) {
          section.keys.push_back(key);
          section.keys.back().name = alias.word;
        }
    section.keys.insert(section.keys.begin(), burr_kind_info);
    sections.push_back(std::move(section));
  }
}

/// Of both types of brush; their radius and abrasion are the same keys.
std::vector<KeyInfo> brush_keys() {
  std::vector<KeyInfo> keys =
      replaced(infos(brush_fields), {station_kind_info, brush_type_info, brush_arrangement_info});
  for (const auto& more : {infos(brush_speed_fields), infos(brush_wear_fields),
                           infos(filament_brush_fields), infos(abrasion_fields)})
    keys.insert(keys.end(), more.begin(), more.end());
  return keys;
}

/// Of the second roller of a pair.
std::vector<KeyInfo> second_roller_keys() {
  std::vector<KeyInfo> keys = infos(second_roller_fields);
  for (const KeyInfo& key : infos(brush_wear_fields))
    keys.push_back(key);
  return keys;
}

std::vector<KeyInfo> disc_keys() {
  std::vector<KeyInfo> keys = infos(disc_length_fields);
  keys.push_back(spindle_fields.front().info);
  return keys;
}

}  // namespace

std::vector<SectionInfo> case_sections() {
  std::vector<KeyInfo> setting = infos(interference_fields);
  setting.push_back(line_load_fields.front().info);
  std::vector<KeyInfo> accept(accept_keys.begin(), accept_keys.end());
  std::vector<KeyInfo> accept_feature = infos(accept_feature_fields);
  accept_feature.insert(accept_feature.end(), accept.begin(), accept.end());
  accept.push_back({.name = "feature", .meaning = "limits for some features only"});
  accept.push_back(finish_info);
  std::vector<SectionInfo> sections{
      {"", infos(top_fields)},
      {"part", infos(part_fields)},
      {"part.coating", replaced(infos(coating_fields), infos(oxide_fields))},
      {"part.coating.top", infos(top_layer_fields)},
      {"part.feature", infos(feature_fields)},
      {"station", replaced(infos(station_fields), {station_kind_info})},
      {"station.knock-off", replaced(infos(knock_off_fields), {station_kind_info})},
      {"station.brush", brush_keys()},
      {"station.brush.filament", replaced(infos(filament_fields), {filament_material_info})},
      {"station.brush.web", infos(web_fields)},
      {"station.brush.second", second_roller_keys()},
      {"station.brush.disc", disc_keys()},
      {"station.brush.carrier", infos(carrier_fields)},
      {"station.drum", infos(drum_fields)},
      {"station.drum.relaxation", infos(relaxation_fields)},
      {"station.drum.relaxation.terms", infos(relaxation_term_fields)},
      {"station.belt", belt_keys()},
      {"station.setting", setting},
      {"conveyor", infos(conveyor_fields)},
      {"conveyor.grip", infos(grip_fields)},
      {"cost", infos(cost_fields)},
      {"cost.belt", infos(tool_price_fields)},
      {"cost.brush", infos(tool_price_fields)},
      {"cost.rework", infos(rework_fields)},
      {"environment", infos(environment_fields)},
      {"accept", accept},
      {"accept.feature", accept_feature},
      {"numerics", infos(numerics_fields)},
      {"uncertainty", infos(uncertainty_fields)},
  };
  add_burrs(sections);
  return sections;
}

}  // namespace drumlin::cases
