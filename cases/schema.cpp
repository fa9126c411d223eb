#include "cases/schema.hpp"

#include "cases/schema_part.hpp"
#include "cases/schema_rest.hpp"
#include "cases/schema_station.hpp"

namespace drumlin::cases {

std::vector<SectionInfo> case_sections() {
  std::vector<KeyInfo> burr = infos(wall_burr_fields);
  burr.insert(burr.begin(),
              {.name = "kind", .kind = KeyKind::choice, .required = true, .choices = burr_kinds});
  std::vector<KeyInfo> station = infos(station_fields);
  station.front() = {
      .name = "kind", .kind = KeyKind::choice, .required = true, .choices = station_kinds};
  std::vector<KeyInfo> belt = infos(belt_fields);
  for (KeyInfo& key : belt)
    if (key.name == removal_coefficient.name) key = removal_coefficient;
  std::vector<KeyInfo> setting = infos(interference_fields);
  setting.push_back(line_load_fields.front().info);
  std::vector<KeyInfo> conveyor = infos(conveyor_fields);
  for (KeyInfo& key : conveyor)
    if (key.name == lanes_info.name) key = lanes_info;
  std::vector<KeyInfo> accept(accept_keys.begin(), accept_keys.end());
  std::vector<KeyInfo> accept_feature = infos(accept_feature_fields);
  accept_feature.insert(accept_feature.end(), accept.begin(), accept.end());
  accept.push_back({.name = "feature", .meaning = "limits for some features only"});
  return {
      {"", infos(top_fields)},
      {"part", infos(part_fields)},
      {"part.coating", infos(coating_fields)},
      {"part.feature", infos(feature_fields)},
      {"part.feature.burr", burr},
      {"station", station},
      {"station.drum", infos(drum_fields)},
      {"station.drum.relaxation", infos(relaxation_fields)},
      {"station.drum.relaxation.terms", infos(relaxation_term_fields)},
      {"station.belt", belt},
      {"station.setting", setting},
      {"conveyor", conveyor},
      {"conveyor.grip", infos(grip_fields)},
      {"cost", infos(cost_fields)},
      {"environment", infos(environment_fields)},
      {"accept", accept},
      {"accept.feature", accept_feature},
      {"numerics", infos(numerics_fields)},
  };
}

}  // namespace drumlin::cases
