#pragma once

#include <string>
#include <vector>

#include "sim/setup.hpp"

namespace drumlin::sim {

/// What a set-up gives reason to warn of before anything is solved: burrs that no tool meets, beads
/// that tear belts, a last station that can leave a new lip, oxide that no tool of the line
/// reaches. `check` and `run` show the same.
[[nodiscard]] std::vector<std::string> early_warnings(const Setup& setup);

/// What turning the part does, in one sentence: which edges it feeds as which, and the width of
/// conveyor that it takes. Empty for a part that lies square as drawn.
[[nodiscard]] std::string turning_text(const cases::Part& part);

}  // namespace drumlin::sim
