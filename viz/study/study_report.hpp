#pragma once

#include <filesystem>
#include <string>

#include "sim/study_analysis_result.hpp"
#include "viz/study/study_file.hpp"

namespace drumlin::viz {

/// Writes what a study says into its folder: analysis.json, study.html, front.csv where the study
/// has aims, and the page's pictures (SVG, and PNG where they can be drawn). What an earlier call
/// wrote is replaced, file by file.
///
/// @return why there are no PNG pictures; empty where there are.
/// @throws std::runtime_error if a file cannot be written.
std::string write_study_report(const sim::StudyAnalysis& analysis, const StudyFile& study,
                               const std::filesystem::path& folder);

}  // namespace drumlin::viz
