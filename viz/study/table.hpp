#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "sim/study_result.hpp"
#include "viz/hdf5_tree.hpp"
#include "viz/study/block.hpp"

namespace drumlin::viz {

/// Rows in a block of a study's table: those of a chunk, or all where there are fewer.
[[nodiscard]] std::uint64_t rows_per_block(const sim::StudyHeader& header);

/// What a dataset of a table's values is made with: blocks of such a shape, their filters, no
/// times.
[[nodiscard]] Handle block_list(std::span<const hsize_t> shape);

/// Words of a fixed length [byte], UTF-8, padded with zeros.
[[nodiscard]] Handle word_type(std::size_t width);

/// Numbers of 64 bits, little-endian.
[[nodiscard]] Handle number_type();

/// The columns of a study as 1-D datasets below one group, filled block by block from the first row
/// on. Every block is compressed and carries a checksum.
class TableWriter {
 public:
  /// @param widths  [byte] of the longest word of each column; not looked at where the column holds
  ///                numbers.
  TableWriter(hid_t group, const sim::StudyHeader& header, std::span<const std::size_t> widths);

  /// Writes the next rows: a block for every column, as long as the table's and of its width.
  /// @throws std::runtime_error.
  void append(const std::vector<Block>& blocks);

 private:
  std::vector<Handle> columns_;
  hsize_t rows_per_block_;
  hsize_t written_ = 0;
};

/// Reads neighbouring rows of one column. @throws std::runtime_error.
[[nodiscard]] sim::StudyValues read_rows(hid_t group, const sim::StudyColumn& column,
                                         std::uint64_t first, std::uint64_t count);

}  // namespace drumlin::viz
