#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "sim/study_result.hpp"
#include "viz/hdf5_tree.hpp"

namespace drumlin::viz {

/// The columns of a study as 1-D datasets below one group, filled chunk by chunk from the first row
/// on. Numbers are 64-bit little-endian; words are UTF-8 of fixed length, padded with zeros. Every
/// block is compressed and carries a checksum.
class TableWriter {
 public:
  /// @param rows          of the table.
  /// @param widths        [byte] of the longest word of each column; taken as at least 1, not
  ///                      looked at where the column holds numbers.
  TableWriter(hid_t group, const std::vector<sim::StudyColumn>& columns, std::uint64_t rows,
              std::uint64_t rows_per_block, std::span<const std::size_t> widths);

  /// Writes the next rows. @throws std::runtime_error.
  void append(const std::vector<sim::StudyValues>& columns);

  /// The same with the columns of another table as this one wrote them: blocks are taken over as
  /// they are, which is much faster than to compress them again, and gives the same bytes.
  ///
  /// @param from     group that holds the other table, one block long.
  /// @param columns  its values, written where a block cannot be taken over: the last one of a
  ///                 table may be shorter, words may have more room here.
  void append_block(hid_t from, const std::vector<sim::StudyValues>& columns);

 private:
  struct Column {
    std::string name;
    Handle type;
    Handle set;
    std::size_t width;
  };
  void write(const Column& column, const sim::StudyValues& values) const;
  [[nodiscard]] bool copy_block(hid_t from, const Column& column) const;

  std::vector<Column> columns_;
  std::uint64_t written_ = 0;
};

/// Reads neighbouring rows of one column. @throws std::runtime_error.
[[nodiscard]] sim::StudyValues read_rows(hid_t group, const sim::StudyColumn& column,
                                         std::uint64_t first, std::uint64_t count);

/// Rows that a column has. @throws std::runtime_error.
[[nodiscard]] std::uint64_t kept_rows(hid_t group, const sim::StudyColumn& column);

/// Room that a column's words have in a file [byte], 0 where it holds numbers.
[[nodiscard]] std::size_t kept_word_width(hid_t group, const sim::StudyColumn& column);

/// Longest word of each column [byte], 0 where it holds numbers.
[[nodiscard]] std::vector<std::size_t> word_widths(const std::vector<sim::StudyValues>& columns);

/// Number of rows of a column.
[[nodiscard]] std::size_t length(const sim::StudyValues& values);

}  // namespace drumlin::viz
