#include "viz/compare_table.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "viz/cells.hpp"
#include "viz/quantities.hpp"
#include "viz/section_view.hpp"

namespace drumlin::viz {
namespace {

bool differ(const std::vector<sim::Quantity>& values) {
  constexpr double arithmetic = 0.005;
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  double size = 0;
  for (const sim::Quantity& value : values) {
    if (!value) return true;
    low = std::min(low, value->value);
    high = std::max(high, value->value);
    size = std::max(size, std::abs(value->value));
  }
  return high - low > arithmetic * size;
}

bool overlap(const std::vector<sim::Quantity>& values) {
  double highest_low = -std::numeric_limits<double>::infinity();
  double lowest_high = -highest_low;
  for (const sim::Quantity& value : values) {
    if (!value || !value->low || !value->high) return false;
    highest_low = std::max(highest_low, std::min(*value->low, *value->high));
    lowest_high = std::min(lowest_high, std::max(*value->low, *value->high));
  }
  return highest_low <= lowest_high;
}

sim::Quantity scaled(const sim::Quantity& value, const Scale& scale) {
  if (!value) return value;
  sim::Banded out{scale(value->value), {}, {}};
  if (value->low) out.low = scale(*value->low);
  if (value->high) out.high = scale(*value->high);
  return out;
}

template <class Owner, std::size_t n>
void collect(const std::string& place, const std::vector<const Owner*>& owners,
             const std::array<QuantityKey<Owner>, n>& keys, std::vector<ComparedQuantity>& out) {
  for (const QuantityKey<Owner>& key : keys) {
    ComparedQuantity row{place,
                         spoken_key(key.key, key.unit),
                         std::string(key.unit),
                         std::string(key.meaning),
                         {},
                         false,
                         false};
    for (const Owner* owner : owners)
      row.values.push_back(owner == nullptr ? sim::Quantity{}
                                            : scaled(owner->*key.member, key.scale));
    if (std::none_of(row.values.begin(), row.values.end(),
                     [](const sim::Quantity& value) { return value.has_value(); }))
      continue;
    row.differs = differ(row.values);
    row.bands_overlap = overlap(row.values);
    out.push_back(std::move(row));
  }
}

/// Names of features, in order of appearance, that all results have, or that not all have.
std::vector<std::string> feature_names(const std::vector<sim::Result>& results, bool in_all) {
  std::vector<std::string> names;
  for (const sim::Result& result : results)
    for (const sim::FeatureResult& feature : result.part.features) {
      const bool everywhere = std::all_of(
          results.begin(), results.end(),
          [&](const sim::Result& other) { return feature_named(other, feature.name) != nullptr; });
      if (everywhere == in_all &&
          std::find(names.begin(), names.end(), feature.name) == names.end())
        names.push_back(feature.name);
    }
  return names;
}

}  // namespace

std::vector<std::string> features_of_some(const std::vector<sim::Result>& results) {
  return feature_names(results, false);
}

std::vector<ComparedQuantity> compared_quantities(const std::vector<sim::Result>& results) {
  std::vector<ComparedQuantity> rows;
  std::vector<const sim::FaceResult*> faces;
  for (const sim::Result& result : results)
    faces.push_back(&result.part.face);
  collect("face", faces, face_quantities, rows);
  for (const std::string& name : feature_names(results, true)) {
    std::vector<const sim::FeatureResult*> features;
    for (const sim::Result& result : results)
      features.push_back(feature_named(result, name));
    collect(name, features, feature_quantities, rows);
  }
  std::size_t most = 0;
  for (const sim::Result& result : results)
    most = std::max(most, result.stations.size());
  for (std::size_t i = 0; i < most; ++i) {
    std::vector<const sim::StationResult*> stations;
    for (const sim::Result& result : results)
      stations.push_back(i < result.stations.size() ? &result.stations[i] : nullptr);
    collect(fmt::format("station {}", i + 1), stations, station_quantities, rows);
  }
  return rows;
}

}  // namespace drumlin::viz
