#pragma once

#include <filesystem>
#include <string_view>

#include "cases/window_study.hpp"

namespace drumlin::cases {

/// Reads and checks the study of a process window and its case: exactly two factors with `from` and
/// `to`, any number with a distribution, and at least one limit in the case.
///
/// @throws CaseError with every problem of the study; with the case's, where that is wrong.
[[nodiscard]] WindowStudy read_window(const std::filesystem::path& file);

/// The same from text; `file` names it in messages and says where its case lies.
[[nodiscard]] WindowStudy parse_window(std::string_view text, const std::filesystem::path& file);

}  // namespace drumlin::cases
