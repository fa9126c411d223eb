#include "viz/life_json.hpp"

#include <cmath>

#include "viz/json_values.hpp"

namespace drumlin::viz {
namespace {

void put(Json& object, const char* key, const sim::Quantity& quantity, const Scale& scale) {
  if (!quantity || !std::isfinite(quantity->value)) return;
  object[key] = scale(quantity->value);
  Json band;
  put_band(band, key, quantity, scale);
  if (!band.empty()) object["bands"].update(band);
}

Json belt_json(const sim::BeltLife& belt) {
  Json object = {{"station", belt.station}};
  put(object, "parts", belt.parts, as_is);
  put(object, "running_h", belt.time, s_to_h);
  put(object, "sheet_m", belt.length, mm_to_m);
  object["worn_share"] = belt.worn_share;
  object["origin"] = belt.origin;
  return object;
}

Json feature_json(const sim::FeatureResult& feature) {
  Json object = {{"name", feature.name}};
  put(object, "burr_height_um", feature.burr_height, mm_to_um);
  put(object, "secondary_burr_um", feature.secondary_burr, mm_to_um);
  put(object, "edge_radius_um", feature.edge_radius, mm_to_um);
  put(object, "edge_drop_um", feature.edge_drop, mm_to_um);
  put(object, "coating_left_um", feature.coating_left, mm_to_um);
  return object;
}

Json point_json(const sim::LifePoint& point) {
  Json object = {{"when", point.when},
                 {"parts", point.parts},
                 {"running_h", s_to_h(point.time)},
                 {"sharpness", point.sharpness},
                 {"power_W_per_mm", mw_to_w(point.power)}};
  Json& face = object["face"] = Json::object();
  put(face, "removal_um", point.part.face.removal, mm_to_um);
  put(face, "coating_left_um", point.part.face.coating_left, mm_to_um);
  put(face, "roughness_um", point.part.face.roughness, mm_to_um);
  put(face, "temperature_C", point.part.face.temperature, kelvin_to_celsius);
  object["features"] = Json::array();
  for (const sim::FeatureResult& feature : point.part.features)
    object["features"].push_back(feature_json(feature));
  object["verdict"] = {{"accepted", point.verdict.accepted}, {"state", point.verdict.state}};
  if (!point.verdict.decided_by.empty()) object["verdict"]["decided_by"] = point.verdict.decided_by;
  return object;
}

}  // namespace

nlohmann::ordered_json life_json(const sim::LifeStudy& study) {
  Json object = {{"model", study.model}};
  object["belts"] = Json::array();
  for (const sim::BeltLife& belt : study.belts)
    object["belts"].push_back(belt_json(belt));
  object["points"] = Json::array();
  for (const sim::LifePoint& point : study.points)
    object["points"].push_back(point_json(point));
  put(object, "limit_lost_after_parts", study.lost_after, as_is);
  if (!study.lost.empty()) object["limit_lost"] = study.lost;
  object["feed_m_per_min"] = mm_per_s_to_m_per_min(study.feed);
  if (study.feed_for_equal_removal)
    object["feed_for_equal_removal_m_per_min"] =
        mm_per_s_to_m_per_min(*study.feed_for_equal_removal);
  return object;
}

}  // namespace drumlin::viz
