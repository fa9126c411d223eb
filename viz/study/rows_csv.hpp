#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "viz/study/study_file.hpp"

namespace drumlin::viz {

/// A column's name with its unit, as the first line of comma-separated values has it.
[[nodiscard]] std::string csv_heading(const sim::StudyColumn& column);

/// One value; empty where the model gave none.
[[nodiscard]] std::string csv_cell(const sim::StudyValues& values, std::size_t row);

/// Writes some rows of a study as CSV, as `write_study_csv` writes all.
/// @param rows     in the order in which they are to stand.
/// @param columns  in the order in which they are to stand.
/// @throws std::runtime_error; then nothing has changed.
void write_rows_csv(const StudyFile& study, const std::vector<std::uint64_t>& rows,
                    const std::vector<std::size_t>& columns, const std::filesystem::path& file);

}  // namespace drumlin::viz
