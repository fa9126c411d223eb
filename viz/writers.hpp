#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "sim/result.hpp"

namespace drumlin::viz {

struct WriteOptions {
  bool overwrite = false;  ///< replace the folder if it is there
  bool pictures = true;    ///< draw pictures: SVG, and PNG where rendering is possible
};

/// What was written and what could not be.
struct WriteReport {
  std::vector<std::string> files;    ///< relative to the folder
  std::vector<std::string> remarks;  ///< such as "no PNG pictures: no off-screen OpenGL here"
};

/// Throws std::runtime_error with a clear sentence if `dir` cannot become the output folder: it
/// exists and may not be replaced, or its parent cannot be written. Called before a long run.
void expect_writable(const std::filesystem::path& dir, bool overwrite);

/// Writes every file of a result below `dir`. The folder appears whole or not at all, also when the
/// process is killed on the way; an older folder is lost only when the new one has taken its place.
///
/// @throws std::runtime_error if a file cannot be written; then nothing has changed.
WriteReport write(const sim::Result& result, const std::filesystem::path& dir,
                  const WriteOptions& options);

}  // namespace drumlin::viz
