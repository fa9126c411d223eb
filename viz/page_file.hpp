#pragma once

#include <filesystem>
#include <string_view>

namespace drumlin::viz {

/// Throws std::runtime_error with a clear sentence if a page cannot be written there: something is
/// there and may not be replaced, or the folder is not there. Called before a long run.
void expect_page_writable(const std::filesystem::path& file, bool overwrite);

/// Writes a page. It appears whole or not at all: under a hidden name first, then renamed.
///
/// @throws std::runtime_error; then nothing has changed.
void write_page(const std::filesystem::path& file, std::string_view html, bool overwrite);

}  // namespace drumlin::viz
