#pragma once

#include <string>
#include <vector>

#include "cases/case.hpp"

namespace drumlin::sim {

/// A belt's removal law with its own numbers and their bands, in words; K and p_th excepted, which
/// every law has.
[[nodiscard]] std::string removal_law_text(const cases::Belt& belt);

/// What the removal laws of a line leave open, one note per law in use.
[[nodiscard]] std::vector<std::string> removal_notes(const cases::Case& scenario);

}  // namespace drumlin::sim
