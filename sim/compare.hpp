#pragma once

#include <span>
#include <string>

#include "sim/compare_result.hpp"
#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// The facts of one case that a comparison argues with.
[[nodiscard]] CaseFacts facts_of(const Setup& setup, const Result& result, char letter);

/// Says what sets the cases apart and why. Every sentence is read off the numbers: what a law or a
/// setting does not bear out is not said, and where the usual story fails, that is said.
/// @param cases  at least two.
[[nodiscard]] Comparison compare(std::vector<CaseFacts> cases);

}  // namespace drumlin::sim
