#pragma once

#include <cmath>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "viz/quantities.hpp"

/// How single numbers go into summary.json, whichever part of it they stand in.
namespace drumlin::viz {

using Json = nlohmann::ordered_json;

/// A number under its key; nothing where it is not finite.
inline void put_finite(Json& object, std::string_view key, double value) {
  if (std::isfinite(value)) object[std::string(key)] = value;
}

/// The band of a quantity under the quantity's key; nothing where it has none.
inline void put_band(Json& bands, std::string_view key, const sim::Quantity& quantity,
                     const Scale& scale) {
  if (!quantity || !quantity->low || !quantity->high) return;
  const double low = scale(*quantity->low);
  const double high = scale(*quantity->high);
  if (std::isfinite(low) && std::isfinite(high)) bands[std::string(key)] = {low, high};
}

}  // namespace drumlin::viz
