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

/// Least coating left [mm] at a named edge beyond a distance; no value on uncoated parts or where
/// no section shows the edge.
[[nodiscard]] std::optional<double> coating_beyond(const Setup& setup, const Surface& surface,
                                                   std::string_view edge_name, double beyond);

}  // namespace drumlin::sim::line
