#pragma once

#include <functional>
#include <string>

#include <nlohmann/json.hpp>

#include "sim/result.hpp"

namespace drumlin::viz {

/// Everything that summary.json says: keys in the order of the contract, units in the key names, no
/// key where there is no value.
///
/// @param remark  told of numbers that are not finite and were left out.
[[nodiscard]] nlohmann::ordered_json summary_json(
    const sim::Result& result, const std::function<void(const std::string&)>& remark);

}  // namespace drumlin::viz
