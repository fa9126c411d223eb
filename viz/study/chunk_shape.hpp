#pragma once

#include <algorithm>
#include <cstdint>

#include "sim/study_result.hpp"

/// How the columns of a study lie in the file of a chunk.
namespace drumlin::viz {

/// Dataset with a line for every column of numbers.
inline constexpr const char* numbers_name = "numbers";

[[nodiscard]] inline bool holds_words(const sim::StudyColumn& column) {
  return column.kind == sim::StudyColumn::Kind::text;
}

[[nodiscard]] inline std::uint64_t columns_of_numbers(const sim::StudyHeader& header) {
  return static_cast<std::uint64_t>(
      std::count_if(header.columns.begin(), header.columns.end(),
                    [](const sim::StudyColumn& column) { return !holds_words(column); }));
}

}  // namespace drumlin::viz
