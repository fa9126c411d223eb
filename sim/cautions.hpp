#pragma once

#include <string>
#include <vector>

#include "sim/setup.hpp"

namespace drumlin::sim {

/// Cautions for people's safety that a case calls for: the standing text first, then what this
/// metal, line and order of work add. Short, and deferring to the machine's manual, local codes and
/// qualified people.
[[nodiscard]] std::vector<std::string> cautions(const cases::Case& scenario);

/// Those that come before anything else that is shown of a case; none for most lines.
[[nodiscard]] std::vector<std::string> pressing_cautions(const cases::Case& scenario);

}  // namespace drumlin::sim
