#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace drumlin::viz {

/// What computing some rows took, and where: whatever differs between two runs of one study is kept
/// in a file of its own.
struct RowTimes {
  std::uint64_t chunk = 0;
  std::uint64_t first_row = 0;
  std::uint64_t rows = 0;
  double rows_s = 0;  ///< sum over the rows
  std::uint64_t slowest_row = 0;
  double slowest_s = 0;
  std::string computed_by;  ///< machine and process or rank, such as "node7:2"
  unsigned threads = 0;
};

/// Adds a line to `times.csv` in the folder; the first one writes the heading.
/// @throws std::runtime_error.
void add_times(const std::filesystem::path& folder, const RowTimes& times);

/// Name of the machine.
[[nodiscard]] std::string machine_name();

}  // namespace drumlin::viz
