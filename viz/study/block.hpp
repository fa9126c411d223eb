#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "sim/study_result.hpp"

/// Blocks of a table as HDF5's own filters make them: bytes of equal rank beside each other
/// (shuffle), deflated, a checksum of Fletcher (1982) behind them. Made here because the library
/// serves one thread at a time, and packing is most of what it takes to write a table.
namespace drumlin::viz {

/// Compression: higher ones take twice the time for some per cent.
inline constexpr unsigned deflate_level = 1;

/// Values of one column over a stretch of rows, as they lie in a file.
struct Block {
  std::vector<char> bytes;
  std::size_t width = 0;  ///< of a value [byte]: 8 for a number, the longest word's for words
};

/// @param values  not more than `rows`; the rest of the block is filled with zeros.
/// @param width   of words [byte], longer ones are cut; 0: the longest word, at least 1.
/// Many threads may pack at once. @throws std::runtime_error if there is no memory for it.
[[nodiscard]] Block packed(const sim::StudyValues& values, std::size_t rows, std::size_t width = 0);

/// Whether a block is what its checksum says.
[[nodiscard]] bool is_whole(std::span<const char> block) noexcept;

}  // namespace drumlin::viz
