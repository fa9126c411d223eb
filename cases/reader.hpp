#pragma once

#include <filesystem>
#include <string_view>

#include "cases/case.hpp"
#include "cases/problem.hpp"

namespace drumlin::cases {

/// Reads and checks a case file.
///
/// @return  the case in the inner unit set, defaults filled in, every range checked.
/// @throws  CaseError with every problem of the file (not only the first).
[[nodiscard]] Case read(const std::filesystem::path& file);

/// The same from text; `file` names it in messages and says where the user's own materials lie.
[[nodiscard]] Case parse(std::string_view text, const std::filesystem::path& file);

}  // namespace drumlin::cases
