#pragma once

#include <string>

#include "sim/study_analysis_result.hpp"

namespace drumlin::viz {

/// What a study says, as analysis.json: the same bytes for the same table, no times, no machine.
/// Columns go by their names; every number is in the unit that stands beside it.
[[nodiscard]] std::string analysis_json(const sim::StudyAnalysis& study);

}  // namespace drumlin::viz
