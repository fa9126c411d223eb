#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "cases/study.hpp"
#include "sim/study_result.hpp"
#include "sim/sweep/row_runner.hpp"
#include "sim/sweep_result.hpp"

/// Rows of a study as the table that is kept: which columns it has, and its rows column by column.
namespace drumlin::sim {

/// Rows that are kept together: some tens of milliseconds to write, some hundred to compute, and
/// few enough files. A function of the study alone, so that whoever runs it makes the same chunks.
///
/// @param rows   of the study.
/// @param model  that computes them.
[[nodiscard]] std::uint64_t rows_per_chunk(std::uint64_t rows, const std::string& model);

/// Gives a text of fixed length that tells texts apart.
using Hash = std::function<std::string(const std::string&)>;

/// All that the table says of itself.
///
/// Its identity is a hash over all that rows depend on: the version, the texts of study, list and
/// case, the columns, and the numbers of one row to six digits, which stand for the materials and
/// for the machine's arithmetic.
[[nodiscard]] StudyHeader header_of(const cases::Study& study, const RowRunner& runner,
                                    const Hash& hash);

/// Rows of one chunk, column by column. Numbers of factors are in the unit that the study writes
/// them in, words as written.
[[nodiscard]] StudyChunk chunk_of(const cases::Study& study, const StudyHeader& header,
                                  std::uint64_t number, const std::vector<Row>& rows);

/// The rows of a chunk.
[[nodiscard]] RowRange range_of(const StudyHeader& header, std::uint64_t chunk);

}  // namespace drumlin::sim
