#pragma once

#include <string>
#include <vector>

#include "sim/study_analysis_result.hpp"

/// Sentences about a finished study: the same on the page, in analysis.json and on the terminal.
namespace drumlin::viz {

/// A column's value with its unit.
[[nodiscard]] std::string value_text(const sim::StudyAnalysis& study, std::size_t column,
                                     double value);

/// "front edge drop", without the unit that its name carries.
[[nodiscard]] std::string column_text(const sim::StudyColumn& column);

/// "12 of 500, 2.4 % (1.2 to 4.2 %)".
[[nodiscard]] std::string share_text(std::uint64_t hits, std::uint64_t rows,
                                     const sim::Proportion& share);

/// What the factors are at a point of the front.
[[nodiscard]] std::string settings_text(const sim::StudyAnalysis& study,
                                        const sim::FrontPoint& point);

/// How many rows the front has and of how many, and its knee with what is given up on each side.
[[nodiscard]] std::vector<std::string> front_sentences(const sim::StudyAnalysis& study,
                                                       const sim::Front& front,
                                                       const std::string& of_which);

/// Whether rows gather in a corner.
/// @param what  such as "failed" or "were not accepted".
[[nodiscard]] std::vector<std::string> corner_sentences(const sim::StudyAnalysis& study,
                                                        const std::vector<sim::Corner>& corners,
                                                        const std::string& what);

/// Which factor has most to do with each output.
[[nodiscard]] std::vector<std::string> share_sentences(const sim::StudyAnalysis& study);

/// The rows to look at again, and how.
[[nodiscard]] std::vector<std::string> odd_row_sentences(const sim::StudyAnalysis& study);

/// What a paper says of the study.
[[nodiscard]] std::string methods_paragraph(const sim::StudyAnalysis& study);

/// What the numbers do not hold.
[[nodiscard]] std::vector<std::string> how_sure(const sim::StudyAnalysis& study);

}  // namespace drumlin::viz
