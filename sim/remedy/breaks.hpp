#pragma once

#include <vector>

#include "sim/remedy/axis.hpp"
#include "sim/remedy/trials.hpp"
#include "sim/remedy_result.hpp"
#include "sim/verdict_result.hpp"

namespace drumlin::sim {

/// Of each knob and way, where the first limit is lost that is met as the case stands.
[[nodiscard]] std::vector<Break> first_breaks(Trials& trials, const std::vector<Axis>& axes,
                                              const Verdict& verdict);

}  // namespace drumlin::sim
