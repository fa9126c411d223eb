#pragma once

#include <string>

#include "sim/study_analysis_result.hpp"

namespace drumlin::viz {

/// The page about a finished study: what was varied, what became of the rows, what they say, and
/// how sure that is.
[[nodiscard]] std::string study_page(const sim::StudyAnalysis& study);

}  // namespace drumlin::viz
