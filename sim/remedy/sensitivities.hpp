#pragma once

#include <vector>

#include "sim/remedy/axis.hpp"

namespace drumlin::sim {

/// What each knob moves of each limit's value and of each main quantity, per small step.
///
/// Numbers: central difference over one per cent either way, taken again over half a per cent;
/// where the two differ by more than a tenth the entry is marked as not smooth. One-sided where one
/// side is refused. Whole numbers and choices: the change by one step.
[[nodiscard]] std::vector<Sensitivity> sensitivities(Trials& trials, const std::vector<Axis>& axes);

}  // namespace drumlin::sim
