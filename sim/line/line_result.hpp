#pragma once

#include "sim/line/line_model.hpp"
#include "sim/result.hpp"

namespace drumlin::sim::line {

/// Puts an answer of the line model into the result's terms: stations, faces, edges. Values only;
/// bands, verdict and advice come from elsewhere.
struct StatedAnswer {
  std::vector<StationResult> stations;
  PartState part;
};
[[nodiscard]] StatedAnswer state(const Setup& setup, const LineAnswer& answer);

}  // namespace drumlin::sim::line
