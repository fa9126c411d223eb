#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

/// What a study (a sweep over a case's keys) gives: one table. Rows are known by their number,
/// which says all about them: who computes them, in which order and on how many machines does not
/// matter.
namespace drumlin::sim {

/// One column of the table. Numbers are stored in the column's own unit.
struct StudyColumn {
  enum class Kind { number, text };
  std::string name;     ///< unique; the unit is part of an output's name, such as "removal_um"
  std::string unit;     ///< "1" for pure numbers, "text" for words
  std::string meaning;  ///< one sentence
  std::string role = "output";  ///< or "factor", "status"
  Kind kind = Kind::number;
};

/// All that is the same for every row.
struct StudyHeader {
  std::string identity;  ///< hash over everything that the rows depend on
  std::string version;   ///< of drumlin
  std::string model;     ///< "fast", "line"
  std::string case_text;
  std::string case_sha256;
  std::string study_text;
  std::string study_sha256;
  /// How the numbers were made and how far they go: options of the model, its error, keys of the
  /// case without effect, values that the library gave.
  std::vector<std::string> notes;
  std::uint64_t seed = 0;
  std::uint64_t rows = 0;            ///< of the whole study
  std::uint64_t rows_per_chunk = 0;  ///< > 0; the last chunk may be shorter
  std::vector<StudyColumn> columns;

  [[nodiscard]] std::uint64_t chunks() const {
    return (rows + rows_per_chunk - 1) / rows_per_chunk;
  }
  [[nodiscard]] std::uint64_t first_row(std::uint64_t chunk) const {
    return chunk * rows_per_chunk;
  }
  [[nodiscard]] std::uint64_t rows_of(std::uint64_t chunk) const {
    const std::uint64_t left = rows - first_row(chunk);
    return left < rows_per_chunk ? left : rows_per_chunk;
  }
};

/// Values of one column over the rows of a chunk: numbers (NaN: the model gave none) or words.
using StudyValues = std::variant<std::vector<double>, std::vector<std::string>>;

/// Neighbouring rows, all columns in the header's order, each as long as the chunk.
struct StudyChunk {
  std::uint64_t number = 0;  ///< from 0
  std::vector<StudyValues> columns;
};

}  // namespace drumlin::sim
