#include "viz/hdf5_line.hpp"

#include <cmath>
#include <string>

#include <fmt/format.h>

#include "viz/line_quantities.hpp"

namespace drumlin::viz {
namespace {

void write(const H5Group& group, std::string_view name, const sim::Quantity& quantity,
           const Scale& scale, const Label& label) {
  if (!quantity || !std::isfinite(quantity->value)) return;
  const auto end = [&](std::optional<double> inner) {
    return inner ? std::optional<double>(scale(*inner)) : std::nullopt;
  };
  group.scalar(name, scale(quantity->value), label, end(quantity->low), end(quantity->high));
}

template <class Owner, std::size_t n>
void write_all(const H5Group& group, const Owner& owner,
               const std::array<QuantityKey<Owner>, n>& keys) {
  for (const auto& key : keys)
    write(group, key.key, owner.*key.member, key.scale, {key.unit, key.meaning});
}

void write_station(const H5Group& group, const sim::StationEconomy& station) {
  group.attribute("kind", station.kind);
  group.attribute("direction", station.direction);
  group.scalar("station", station.station, {"1", "index of the station"});
  group.scalar("covered_width_mm", station.covered_width,
               {"mm", "width of parts under the tool while every lane is"});
  if (station.belt_area)
    group.scalar("belt_area_m2", *station.belt_area * 1e-6, {"m^2", "area of the belt"});
  write_all(group, station, station_economy_quantities);
}

void write_cost(const H5Group& group, const sim::CostPerPart& cost) {
  group.attribute("currency", cost.currency);
  const std::string unit = cost.currency + "/part";
  const std::string per_part = fmt::format("_{}_per_part", cost.currency);
  for (const sim::CostItem& item : cost.items)
    write(group, item.cause + per_part, item.per_part, as_is, {unit, item.how});
  write(group, "sum" + per_part, cost.sum, as_is, {unit, "of what has its price"});
  write(group, fmt::format("sum_{}_per_m", cost.currency), cost.per_length, Scale{.factor = 1e3},
        {cost.currency + "/m", "per length of part"});
  const H5Group savings = group.group("savings");
  for (std::size_t i = 0; i < cost.savings.size(); ++i)
    savings.scalar(fmt::format("{}", i), cost.savings[i].per_part, {unit, cost.savings[i].what});
}

void write_economy(const H5Group& group, const sim::LineEconomy& line) {
  constexpr double hour = 3600.0;
  group.scalar("throughput_per_h", line.throughput * hour, {"1/h", "parts that leave the line"});
  group.scalar("throughput_m_per_min", line.part_speed * 0.06,
               {"m/min", "length of parts that leaves the line"});
  group.scalar("lanes", line.lanes, {"1", "parts side by side"});
  group.scalar("grip_friction", line.grip_friction, {"1", "friction of parts on the conveyor"});
  group.scalar("bed_pressure_kPa", mpa_to_kpa(line.bed_pressure), {"kPa", "weight and suction"});
  group.scalar("part_length_mm", line.part_length,
               {"mm", "of a part along the feed: its area over its width under a tool"});
  write_all(group, line, line_quantities);
  const H5Group stations = group.group("stations");
  for (std::size_t i = 0; i < line.stations.size(); ++i)
    write_station(stations.group(fmt::format("{}", i)), line.stations[i]);
  if (line.cost) write_cost(group.group("cost"), *line.cost);
  group.texts("missing", line.missing, "what a cost needs that the case does not give");
  group.texts("notes", line.notes, "what is assumed");
  group.texts("forced", line.forced, "speed limits that the case overrides");
}

void write_wet_dry(const H5Group& group, const sim::WetDryStudy& study) {
  group.attribute("model", study.model);
  if (!study.currency.empty()) group.attribute("currency", study.currency);
  for (const sim::CoolingColumn& column : study.columns) {
    const H5Group entry = group.group(column.cooling);
    if (column.friction > 0.0)
      entry.scalar("friction", column.friction, {"1", "of the first belt on the part"});
    entry.scalar("grip_friction", column.grip_friction, {"1", "of parts on the conveyor"});
    for (const CoolingKey& key : cooling_keys)
      if (const auto& value = column.*key.member)
        entry.scalar(key.key, key.scale(*value), {key.unit, key.meaning});
    if (column.cost)
      entry.scalar(fmt::format("sum_{}_per_part", study.currency), *column.cost,
                   {study.currency + "/part", "of what has its price"});
    if (column.accepted)
      entry.scalar("accepted", *column.accepted ? 1 : 0,
                   {"1", "whether the limits that the model judges hold"});
  }
  group.texts("notes", study.notes, "what is and what is not in these numbers");
}

}  // namespace

void write_line(const H5Group& root, const sim::Result& result) {
  if (result.line_economy) write_economy(root.group("line"), *result.line_economy);
  if (result.wet_dry) write_wet_dry(root.group("wet_dry"), *result.wet_dry);
}

}  // namespace drumlin::viz
