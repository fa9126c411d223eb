#pragma once

#include <vector>

#include "sim/result.hpp"

namespace drumlin::sim {

/// What a model found, in the result's terms: stations and part. Values only; bands, verdict and
/// advice come from elsewhere.
struct StatedAnswer {
  std::vector<StationResult> stations;
  PartState part;
};

}  // namespace drumlin::sim
