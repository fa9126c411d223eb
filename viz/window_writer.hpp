#pragma once

#include <filesystem>

#include "sim/window_result.hpp"
#include "viz/writers.hpp"

namespace drumlin::viz {

/// Writes every file of a window below `dir`, which appears whole or not at all, as the folder of a
/// run does: window.json, window.h5, window.vtu with its lines and its probability, window.svg and
/// window.png, window.html.
///
/// @throws std::runtime_error if a file cannot be written; then nothing has changed.
WriteReport write_window(const sim::Window& window, const std::filesystem::path& dir,
                         const WriteOptions& options);

}  // namespace drumlin::viz
