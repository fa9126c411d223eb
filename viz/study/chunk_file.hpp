#pragma once

#include <string>

#include "sim/study_result.hpp"

/// The file of one chunk: an HDF5 file with one dataset `numbers`, a line for every column of
/// numbers, and one for every column of words. Its blocks are those of the packed study.
namespace drumlin::viz {

/// All bytes of a chunk's file. Many threads may ask at once, as long as no other one uses HDF5.
/// @throws std::runtime_error.
[[nodiscard]] std::string chunk_file(const sim::StudyHeader& header, const sim::StudyChunk& chunk);

/// What a row of such a chunk takes on the disk [byte]. @throws std::runtime_error.
[[nodiscard]] double bytes_per_row(const sim::StudyHeader& header, const sim::StudyChunk& chunk);

}  // namespace drumlin::viz
