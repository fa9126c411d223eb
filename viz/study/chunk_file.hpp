#pragma once

#include <filesystem>
#include <vector>

#include "sim/study_result.hpp"

namespace drumlin::viz {

/// Writes the columns of a chunk into an HDF5 file that appears whole or not at all.
/// @throws std::runtime_error if it cannot be written, on a full disk for instance.
void write_chunk(const std::filesystem::path& path, const sim::StudyHeader& header,
                 const sim::StudyChunk& chunk);

/// Reads it back. Every block carries a checksum (Fletcher), so that damage does not pass for data.
/// @throws std::runtime_error naming the file if it is damaged or belongs to another study.
[[nodiscard]] sim::StudyChunk read_chunk(const std::filesystem::path& path,
                                         const sim::StudyHeader& header, std::uint64_t number);

/// Longest word of each column of a chunk's file [byte], 0 where it holds numbers; no row is read.
/// @throws std::runtime_error.
[[nodiscard]] std::vector<std::size_t> kept_word_widths(const std::filesystem::path& path,
                                                        const sim::StudyHeader& header);

/// What a row of such a chunk takes on the disk [byte], measured on a file that is thrown away.
/// @throws std::runtime_error.
[[nodiscard]] double bytes_per_row(const sim::StudyHeader& header, const sim::StudyChunk& chunk);

}  // namespace drumlin::viz
