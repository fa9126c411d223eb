#pragma once

#include <cstdint>
#include <filesystem>
#include <vector>

#include "sim/study_result.hpp"
#include "viz/hdf5_reader.hpp"
#include "viz/study/block.hpp"

namespace drumlin::viz {

/// A chunk that is kept, opened to be packed.
class KeptChunk {
 public:
  /// @throws std::runtime_error naming the file if it is damaged or belongs to another study.
  KeptChunk(const std::filesystem::path& path, const sim::StudyHeader& header,
            std::uint64_t number);

  /// Room of each column's words [byte], 0 where it holds numbers.
  [[nodiscard]] std::vector<std::size_t> word_widths() const;

  /// A block for every column, with words of these widths.
  /// @throws std::runtime_error naming the file where a checksum does not fit.
  [[nodiscard]] std::vector<Block> blocks(const std::vector<std::size_t>& widths) const;

 private:
  template <class Read>
  auto reading(const Read& read) const;
  [[nodiscard]] Block words(const sim::StudyColumn& column, std::size_t width) const;

  std::filesystem::path path_;
  const sim::StudyHeader& header_;
  std::uint64_t rows_;
  H5Reader file_;
};

}  // namespace drumlin::viz
