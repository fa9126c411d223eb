#pragma once

#include <vector>

#include "sim/study_analysis_result.hpp"
#include "viz/drawings.hpp"

/// Pictures of a finished study. They refer to the analysis, which has to outlive them.
namespace drumlin::viz {

/// The front over two aims at a time, with some of the other rows and the knee: one picture for two
/// aims, three for three; of more aims each against the first.
[[nodiscard]] std::vector<Drawing> front_drawings(const sim::StudyAnalysis& study);

/// Shares of the variance as bars, one picture per output.
[[nodiscard]] std::vector<Drawing> share_drawings(const sim::StudyAnalysis& study);

}  // namespace drumlin::viz
