#include "viz/line_json.hpp"

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "viz/json_values.hpp"
#include "viz/line_quantities.hpp"

namespace drumlin::viz {
namespace {

/// A quantity under its key, and its band beside it.
void put(Json& object, Json& bands, const std::string& key, const sim::Quantity& quantity,
         const Scale& scale) {
  if (!quantity) return;
  put_finite(object, key, scale(quantity->value));
  put_band(bands, key, quantity, scale);
}

void close(Json& object, Json bands) {
  if (bands.size() > 1) object["bands"] = std::move(bands);
}

template <class Owner, std::size_t n>
void put_all(Json& object, const Owner& owner, const std::array<QuantityKey<Owner>, n>& keys,
             bool calibrated) {
  Json bands = {{"calibrated", calibrated}};
  for (const auto& key : keys)
    put(object, bands, std::string(key.key), owner.*key.member, key.scale);
  close(object, std::move(bands));
}

Json station_json(const sim::StationEconomy& station, bool calibrated) {
  Json object = {
      {"station", station.station}, {"kind", station.kind}, {"direction", station.direction}};
  put_finite(object, "covered_width_mm", station.covered_width);
  if (station.belt_area) put_finite(object, "belt_area_m2", *station.belt_area * 1e-6);
  put_all(object, station, station_economy_quantities, calibrated);
  return object;
}

Json cost_json(const sim::CostPerPart& cost, bool calibrated) {
  Json object = {{"currency", cost.currency}};
  Json bands = {{"calibrated", calibrated}};
  const std::string per_part = fmt::format("_{}_per_part", cost.currency);
  for (const sim::CostItem& item : cost.items)
    put(object, bands, item.cause + per_part, item.per_part, as_is);
  put(object, bands, "sum" + per_part, cost.sum, as_is);
  put(object, bands, fmt::format("sum_{}_per_m", cost.currency), cost.per_length,
      Scale{.factor = 1e3});
  close(object, std::move(bands));
  object["how"] = Json::object();
  for (const sim::CostItem& item : cost.items)
    object["how"][item.cause] = item.how;
  object["savings"] = Json::array();
  for (const sim::Saving& saving : cost.savings)
    object["savings"].push_back({{"what", saving.what}, {"saves" + per_part, saving.per_part}});
  return object;
}

}  // namespace

Json line_json(const sim::LineEconomy& line, bool calibrated) {
  Json object = Json::object();
  constexpr double hour = 3600.0;
  put_finite(object, "throughput_per_h", line.throughput * hour);
  put_finite(object, "throughput_m_per_min", line.part_speed * 0.06);
  object["lanes"] = line.lanes;
  put_finite(object, "grip_friction", line.grip_friction);
  put_finite(object, "bed_pressure_kPa", mpa_to_kpa(line.bed_pressure));
  put_finite(object, "part_length_mm", line.part_length);
  put_all(object, line, line_quantities, calibrated);
  object["stations"] = Json::array();
  for (const sim::StationEconomy& station : line.stations)
    object["stations"].push_back(station_json(station, calibrated));
  if (line.cost) object["cost"] = cost_json(*line.cost, calibrated);
  object["missing"] = line.missing;
  object["notes"] = line.notes;
  if (!line.forced.empty()) object["forced"] = line.forced;
  return object;
}

Json wet_dry_json(const sim::WetDryStudy& study) {
  Json object = {{"model", study.model}};
  if (!study.currency.empty()) object["currency"] = study.currency;
  for (const sim::CoolingColumn& column : study.columns) {
    Json entry = Json::object();
    if (column.friction > 0.0) put_finite(entry, "friction", column.friction);
    put_finite(entry, "grip_friction", column.grip_friction);
    for (const CoolingKey& key : cooling_keys)
      if (const auto& value = column.*key.member)
        put_finite(entry, std::string(key.key), key.scale(*value));
    if (column.cost)
      put_finite(entry, fmt::format("sum_{}_per_part", study.currency), *column.cost);
    if (column.accepted) entry["accepted"] = *column.accepted;
    object[column.cooling] = std::move(entry);
  }
  object["notes"] = study.notes;
  return object;
}

}  // namespace drumlin::viz
