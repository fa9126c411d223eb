#include "viz/study/times_file.hpp"

#include <array>
#include <chrono>
#include <fstream>
#include <stdexcept>

#include <fmt/chrono.h>
#include <fmt/format.h>
#include <unistd.h>

namespace drumlin::viz {

void add_times(const std::filesystem::path& folder, const RowTimes& times) {
  const std::filesystem::path path = folder / "times.csv";
  const bool begun = std::filesystem::exists(path);
  std::ofstream file(path, std::ios::app | std::ios::binary);
  if (!begun)
    file << "chunk,first_row,rows,rows_s,slowest_row,slowest_s,computed_by,threads,kept_utc\r\n";
  const auto now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  file << fmt::format("{},{},{},{:.6f},{},{:.6f},{},{},{:%Y-%m-%dT%H:%M:%SZ}\r\n", times.chunk,
                      times.first_row, times.rows, times.rows_s, times.slowest_row, times.slowest_s,
                      times.computed_by, times.threads, fmt::gmtime(now));
  file.close();
  if (!file) throw std::runtime_error(path.string() + ": could not be written");
}

std::string machine_name() {
  std::array<char, 256> name{};
  if (gethostname(name.data(), name.size() - 1) != 0) return "unknown";
  return name.data();
}

}  // namespace drumlin::viz
