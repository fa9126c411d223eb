#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sim/result.hpp"

namespace drumlin::support {

/// Results with the shapes at which a drawing may fail: burrs from a feather of 0.02 mm to 5 mm, a
/// drum pressed 2 mm deep, long names, many stations and edges. Closed-form shapes like
/// `sample_result`; no number is a prediction.
[[nodiscard]] std::vector<std::pair<std::string, sim::Result>> extreme_results();

}  // namespace drumlin::support
