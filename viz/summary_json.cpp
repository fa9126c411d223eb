#include "viz/summary_json.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fstream>
#include <stdexcept>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "viz/disc_quantities.hpp"
#include "viz/heat_quantities.hpp"
#include "viz/json_values.hpp"
#include "viz/life_json.hpp"
#include "viz/line_json.hpp"
#include "viz/output.hpp"
#include "viz/remedy_json.hpp"
#include "viz/scatter_json.hpp"

namespace drumlin::viz {
namespace {

/// Builds summary.json: keys in the order of the contract, units in the key names, no key where
/// there is no value.
class Summary {
 public:
  using Remark = std::function<void(const std::string&)>;

  Summary(const sim::Result& result, const Remark& remark) : result_(result), remark_(remark) {}

  [[nodiscard]] Json whole();

 private:
  void put(Json& object, std::string_view key, std::optional<double> value);
  template <class Owner, std::size_t n>
  void put_quantities(Json& object, const Owner& owner,
                      const std::array<QuantityKey<Owner>, n>& keys);
  [[nodiscard]] Json face(const sim::FaceResult& face);
  [[nodiscard]] Json features(const std::vector<sim::FeatureResult>& features);
  [[nodiscard]] Json coating_profile(const sim::CoatingProfile& profile) const;
  [[nodiscard]] Json face_state(const sim::FaceState& state);
  [[nodiscard]] Json interference_study(const sim::InterferenceStudy& study);
  [[nodiscard]] Json fold_map(const sim::FoldMap& map);
  [[nodiscard]] Json heat(const sim::StationHeat& heat);
  [[nodiscard]] Json stations();
  [[nodiscard]] Json verdict();
  [[nodiscard]] Json influences();
  [[nodiscard]] Json provenance() const;

  const sim::Result& result_;
  const Remark& remark_;
};

void put_text(Json& object, const char* key, const std::string& text) {
  if (!text.empty()) object[key] = text;
}

void Summary::put(Json& object, std::string_view key, std::optional<double> value) {
  if (!value) return;
  if (std::isfinite(*value))
    object[std::string(key)] = *value;
  else
    remark_(fmt::format("summary.json: {} is not a finite number and was left out", key));
}

template <class Owner, std::size_t n>
void Summary::put_quantities(Json& object, const Owner& owner,
                             const std::array<QuantityKey<Owner>, n>& keys) {
  Json bands = {{"calibrated", result_.calibrated}};
  for (const QuantityKey<Owner>& key : keys) {
    const sim::Quantity& quantity = owner.*key.member;
    if (!quantity) continue;
    put(object, key.key, key.scale(quantity->value));
    put_band(bands, key.key, quantity, key.scale);
  }
  if (bands.size() > 1) object["bands"] = std::move(bands);
}

Json Summary::face(const sim::FaceResult& face) {
  Json object = Json::object();
  put_quantities(object, face, face_quantities);
  put_text(object, "lay", face.lay);
  return object;
}

Json Summary::features(const std::vector<sim::FeatureResult>& features) {
  Json list = Json::array();
  for (const sim::FeatureResult& feature : features) {
    Json object = {{"name", feature.name}};
    put_text(object, "feature", feature.feature);
    put_text(object, "kind", feature.kind);
    put_text(object, "side", feature.side);
    put_text(object, "fed_as", feature.fed_as);
    put_text(object, "burr", feature.burr);
    put_text(object, "outcome", feature.outcome);
    put_quantities(object, feature, feature_quantities);
    put_text(object, "size_class", feature.size_class);
    if (feature.coating) object["coating_profile"] = coating_profile(*feature.coating);
    for (const sim::CoatingBeyond& beyond : feature.coating_beyond) {
      if (!beyond.left) continue;
      Json entry = {{"distance_mm", beyond.distance}};
      put(entry, "coating_left_um", mm_to_um(beyond.left->value));
      object["coating_beyond"].push_back(std::move(entry));
    }
    put_text(object, "section", feature.section);
    put_text(object, "note", feature.note);
    list.push_back(std::move(object));
  }
  return list;
}

/// Coating over the way along the surface, some sixty points of it.
Json Summary::coating_profile(const sim::CoatingProfile& profile) const {
  constexpr std::size_t most = 60;
  const std::size_t stride = std::max<std::size_t>(1, (profile.arc.size() + most - 1) / most);
  Json arc = Json::array();
  Json left = Json::array();
  for (std::size_t i = 0; i < profile.arc.size(); i += stride) {
    if (!std::isfinite(profile.arc[i]) || !std::isfinite(profile.left[i])) continue;
    arc.push_back(mm_to_um(profile.arc[i]));
    left.push_back(mm_to_um(profile.left[i]));
  }
  return {{"arc_um", std::move(arc)}, {"left_um", std::move(left)}};
}

Json Summary::face_state(const sim::FaceState& state) {
  Json object = Json::object();
  object["face"] = face(state.face);
  object["features"] = features(state.features);
  return object;
}

Json Summary::interference_study(const sim::InterferenceStudy& study) {
  Json object = {{"model", study.model}};
  put(object, "removal_um", mm_to_um(study.removal));
  put(object, "removal_um_per_mm", mm_to_um(study.removal_per_mm));
  object["causes"] = Json::array();
  for (const sim::Disturbance& cause : study.disturbances) {
    Json entry = {{"name", cause.name}, {"key", cause.key}, {"given", cause.given}};
    put(entry, "interference_low_mm", cause.low);
    put(entry, "interference_high_mm", cause.high);
    put(entry, "removal_low_um", mm_to_um(cause.removal_low));
    put(entry, "removal_high_um", mm_to_um(cause.removal_high));
    if (cause.coating_low) put(entry, "coating_left_low_um", mm_to_um(*cause.coating_low));
    if (cause.coating_high) put(entry, "coating_left_high_um", mm_to_um(*cause.coating_high));
    if (cause.accepted) entry["accepted"] = *cause.accepted;
    object["causes"].push_back(std::move(entry));
  }
  put(object, "most_less_mm", study.most_less);
  put(object, "most_more_mm", study.most_more);
  put_text(object, "limited_less", study.limited_less);
  put_text(object, "limited_more", study.limited_more);
  return object;
}

Json Summary::fold_map(const sim::FoldMap& map) {
  Json object = {{"model", map.model}, {"station", map.station}, {"edge", map.edge}};
  const auto list = [](const std::vector<double>& values) {
    Json numbers = Json::array();
    for (const double value : values)
      numbers.push_back(mm_to_um(value));
    return numbers;
  };
  object["height_um"] = list(map.height);
  object["root_um"] = list(map.root);
  Json outcome = Json::array();
  for (const auto what : map.outcome) {
    outcome.push_back(what == sim::FoldMap::Outcome::ground_off ? "ground off"
                      : what == sim::FoldMap::Outcome::folds    ? "folds"
                                                                : "stands");
  }
  object["outcome"] = std::move(outcome);
  object["burr_left_um"] = list(map.burr_left);
  object["secondary_burr_um"] = list(map.secondary_burr);
  if (map.case_height) put(object, "case_height_um", mm_to_um(*map.case_height));
  if (map.case_root) put(object, "case_root_um", mm_to_um(*map.case_root));
  return object;
}

Json Summary::heat(const sim::StationHeat& heat) {
  Json object = Json::object();
  put_quantities(object, heat, heat_quantities);
  for (const sim::EdgeHeat& edge : heat.edges) {
    if (!edge.burr) continue;
    Json entry = {{"name", edge.name}};
    put_quantities(entry, edge, edge_heat_quantities);
    entry["reaches_melting_point"] = edge.melts;
    object["edges"].push_back(std::move(entry));
  }
  return object;
}

Json Summary::stations() {
  Json list = Json::array();
  for (const sim::StationResult& station : result_.stations) {
    Json object = {{"kind", station.kind}};
    put_text(object, "description", station.description);
    put_quantities(object, station, station_quantities);
    if (station.disc) {
      for (const DiscKey& key : disc_quantities)
        put(object["disc"], key.key, key.factor * ((*station.disc).*key.member));
    }
    if (station.heat) object["heat"] = heat(*station.heat);
    object["after"] = face_state(station.after);
    if (station.after.reverse) object["after"]["reverse"] = face_state(*station.after.reverse);
    list.push_back(std::move(object));
  }
  return list;
}

Json Summary::verdict() {
  const sim::Verdict& verdict = result_.verdict;
  Json object = {{"accepted", verdict.accepted}};
  put_text(object, "state", verdict.state);
  put_text(object, "decided_by", verdict.decided_by);
  object["items"] = Json::array();
  for (const sim::VerdictItem& item : verdict.items) {
    Json entry = {{"name", item.name}};
    put_text(entry, "quantity", item.quantity);
    if (item.value) put(entry, "value", item.value->value);
    put_text(entry, "unit", item.unit);
    put_text(entry, "limit", item.limit);
    put(entry, "limit_low", item.low);
    put(entry, "limit_high", item.high);
    put(entry, "margin", item.margin);
    if (item.accepted) entry["accepted"] = *item.accepted;
    if (item.value && item.value->low && item.value->high)
      entry["bands"] = {{"calibrated", result_.calibrated},
                        {"value", {*item.value->low, *item.value->high}}};
    object["items"].push_back(std::move(entry));
  }
  return object;
}

Json Summary::influences() {
  Json list = Json::array();
  for (const sim::Influence& influence : result_.influences) {
    Json object = {{"input", influence.input}};
    put_text(object, "meaning", influence.meaning);
    put(object, "low", influence.low);
    put(object, "high", influence.high);
    put_text(object, "unit", influence.unit);
    put_text(object, "output", influence.output);
    put(object, "output_low_um", mm_to_um(influence.output_low));
    put(object, "output_high_um", mm_to_um(influence.output_high));
    list.push_back(std::move(object));
  }
  return list;
}

Json Summary::provenance() const {
  const sim::Provenance& provenance = result_.provenance;
  Json object = {{"version", provenance.version}};
  put_text(object, "case_file", provenance.case_file);
  object["case_sha256"] = provenance.case_sha256;
  object["seed"] = provenance.seed;
  object["wall_s"] = provenance.wall_s;
  return object;
}

Json Summary::whole() {
  Json root = {{"title", result_.title}, {"model", result_.model}};
  root["options"] = result_.options;
  root["calibrated"] = result_.calibrated;
  put_text(root, "part_material", result_.part_material);
  if (result_.coating) {
    root["coating"] = {{"material", *result_.coating}};
    put(root["coating"], "thickness_um", mm_to_um(result_.coating_thickness));
  }
  root["stations"] = stations();
  root["face"] = face(result_.part.face);
  root["features"] = features(result_.part.features);
  if (result_.part.reverse) root["reverse"] = face_state(*result_.part.reverse);
  root["verdict"] = verdict();
  root["influences"] = influences();
  if (result_.interference_study)
    root["interference_study"] = interference_study(*result_.interference_study);
  if (result_.fold_map) root["fold_map"] = fold_map(*result_.fold_map);
  if (result_.life_study) root["life_study"] = life_json(*result_.life_study);
  if (result_.line_economy) root["line"] = line_json(*result_.line_economy, result_.calibrated);
  if (result_.wet_dry) root["wet_dry"] = wet_dry_json(*result_.wet_dry);
  if (result_.remedies) {
    root["remedies"] = remedies_json(*result_.remedies);
    root["sensitivities"] = sensitivities_json(*result_.remedies);
  }
  if (result_.scatter) root["uncertainty"] = scatter_json(*result_.scatter);
  root["warnings"] = result_.warnings;
  root["notes"] = result_.notes;
  root["cautions"] = result_.cautions;
  root["defaults"] = result_.defaults;
  root["unused_keys"] = result_.unused_keys;
  root["samples"] = result_.samples;
  root["provenance"] = provenance();
  return root;
}

}  // namespace

Json summary_json(const sim::Result& result,
                  const std::function<void(const std::string&)>& remark) {
  return Summary(result, remark).whole();
}

void write_summary_json(const sim::Result& result, Output& out) {
  const Json summary = summary_json(result, [&out](const std::string& text) { out.remark(text); });
  std::ofstream file(out.place("summary.json"), std::ios::binary);
  // Bytes that are no UTF-8 (a file name, say) are replaced rather than ending the run.
  file << summary.dump(2, ' ', false, Json::error_handler_t::replace) << '\n';
  file.close();
  if (!file) throw std::runtime_error("the file could not be written to its end");
}

}  // namespace drumlin::viz
