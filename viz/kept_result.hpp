#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "sim/result.hpp"

/// A folder of results, read again.
namespace drumlin::viz {

/// The case that a folder keeps.
struct KeptCase {
  std::string text;     ///< the case file, byte for byte
  std::string sha256;   ///< of the text, as the folder states it
  std::string file;     ///< where the case file lay, as it was named when the folder was made
  std::string version;  ///< of the program that made the folder
};

/// Reads results.h5 and looks whether summary.json belongs to it.
/// @throws std::runtime_error naming the file and what is wrong with it.
[[nodiscard]] KeptCase kept_case(const std::filesystem::path& dir);

/// Where summary.json of a folder and a result computed again part, value by value: "face /
/// removal_um was 11.7 and is 11.9". The run time is left out. Empty: nothing moved.
/// @throws std::runtime_error naming the file and what is wrong with it.
[[nodiscard]] std::vector<std::string> moved_values(const std::filesystem::path& dir,
                                                    const sim::Result& result);

}  // namespace drumlin::viz
