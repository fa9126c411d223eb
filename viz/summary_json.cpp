#include <cmath>
#include <fstream>
#include <stdexcept>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "viz/output.hpp"
#include "viz/quantities.hpp"

namespace drumlin::viz {
namespace {

using Json = nlohmann::ordered_json;

/// Builds summary.json: keys in the order of the contract, units in the key names, no key where
/// there is no value.
class Summary {
 public:
  Summary(const sim::Result& result, Output& out) : result_(result), out_(out) {}

  [[nodiscard]] Json whole();

 private:
  void put(Json& object, std::string_view key, std::optional<double> value);
  template <class Owner, std::size_t n>
  void put_quantities(Json& object, const Owner& owner,
                      const std::array<QuantityKey<Owner>, n>& keys);
  [[nodiscard]] Json face(const sim::FaceResult& face);
  [[nodiscard]] Json features(const std::vector<sim::FeatureResult>& features);
  [[nodiscard]] Json stations();
  [[nodiscard]] Json verdict();
  [[nodiscard]] Json influences();
  [[nodiscard]] Json provenance() const;

  const sim::Result& result_;
  Output& out_;
};

void put_text(Json& object, const char* key, const std::string& text) {
  if (!text.empty()) object[key] = text;
}

void Summary::put(Json& object, std::string_view key, std::optional<double> value) {
  if (!value) return;
  if (std::isfinite(*value))
    object[std::string(key)] = *value;
  else
    out_.remark(fmt::format("summary.json: {} is not a finite number and was left out", key));
}

template <class Owner, std::size_t n>
void Summary::put_quantities(Json& object, const Owner& owner,
                             const std::array<QuantityKey<Owner>, n>& keys) {
  Json bands = {{"calibrated", result_.calibrated}};
  for (const QuantityKey<Owner>& key : keys) {
    const sim::Quantity& quantity = owner.*key.member;
    if (!quantity) continue;
    put(object, key.key, key.scale(quantity->value));
    if (!quantity->low || !quantity->high) continue;
    const double low = key.scale(*quantity->low);
    const double high = key.scale(*quantity->high);
    if (std::isfinite(low) && std::isfinite(high)) bands[std::string(key.key)] = {low, high};
  }
  if (bands.size() > 1) object["bands"] = std::move(bands);
}

Json Summary::face(const sim::FaceResult& face) {
  Json object = Json::object();
  put_quantities(object, face, face_quantities);
  return object;
}

Json Summary::features(const std::vector<sim::FeatureResult>& features) {
  Json list = Json::array();
  for (const sim::FeatureResult& feature : features) {
    Json object = {{"name", feature.name}};
    put_text(object, "feature", feature.feature);
    put_text(object, "kind", feature.kind);
    put_text(object, "side", feature.side);
    put_text(object, "burr", feature.burr);
    put_quantities(object, feature, feature_quantities);
    put_text(object, "section", feature.section);
    put_text(object, "note", feature.note);
    list.push_back(std::move(object));
  }
  return list;
}

Json Summary::stations() {
  Json list = Json::array();
  for (const sim::StationResult& station : result_.stations) {
    Json object = {{"kind", station.kind}};
    put_text(object, "description", station.description);
    put_quantities(object, station, station_quantities);
    object["after"]["face"] = face(station.after.face);
    object["after"]["features"] = features(station.after.features);
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
  root["verdict"] = verdict();
  root["influences"] = influences();
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

void write_summary_json(const sim::Result& result, Output& out) {
  std::ofstream file(out.place("summary.json"), std::ios::binary);
  // Bytes that are no UTF-8 (a file name, say) are replaced rather than ending the run.
  file << Summary(result, out).whole().dump(2, ' ', false, Json::error_handler_t::replace) << '\n';
  file.close();
  if (!file) throw std::runtime_error("the file could not be written to its end");
}

}  // namespace drumlin::viz
