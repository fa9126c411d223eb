#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "sim/study_analysis_result.hpp"
#include "viz/svg_canvas.hpp"

/// The sections of the page about a finished study.
namespace drumlin::viz {

inline std::string paragraph(const std::string& text) {
  return text.empty() ? "" : fmt::format("<p>{}</p>\n", escaped(text));
}

/// Rows of a status.
[[nodiscard]] inline std::uint64_t rows_that(const sim::StudyAnalysis& study,
                                             std::string_view status) {
  for (const sim::CountedText& one : study.statuses)
    if (one.text == status) return one.rows;
  return 0;
}

/// What became of the rows, and whether they gather in a corner.
[[nodiscard]] std::string study_rows_html(const sim::StudyAnalysis& study);
/// Percentiles of the main outputs, and how often each limit is met.
[[nodiscard]] std::string study_outputs_html(const sim::StudyAnalysis& study);
/// The aims, the front and its knee.
[[nodiscard]] std::string study_front_html(const sim::StudyAnalysis& study);
/// Shares of the variance.
[[nodiscard]] std::string study_shares_html(const sim::StudyAnalysis& study);
/// Rows to look at again.
[[nodiscard]] std::string study_odd_rows_html(const sim::StudyAnalysis& study);

}  // namespace drumlin::viz
