#pragma once

#include <string>
#include <vector>

#include "sim/compare_result.hpp"
#include "sim/result.hpp"

namespace drumlin::viz {

/// A key of the case files with its value in each of them; empty where a file does not have it.
struct InputDifference {
  std::string key;
  std::vector<std::string> values;
};

/// All that a comparison shows.
struct ComparedCases {
  std::vector<sim::Result> results;
  sim::Comparison comparison;  ///< of the same cases in the same order
  std::vector<InputDifference> inputs;
};

/// One page with the cases side by side on the same scales. Questions come before their answers.
/// @param answers  print the answers too: the trainer's copy. Without, the printed page has blanks
///                 to fill in; on the screen answers open when asked for either way.
[[nodiscard]] std::string compare_page(const ComparedCases& cases, bool answers);

}  // namespace drumlin::viz
