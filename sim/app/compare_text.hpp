#pragma once

#include <string>

#include "sim/app/text.hpp"
#include "viz/compare_page.hpp"

namespace drumlin::app {

/// A comparison for a terminal: what is held, what differs in the files and in the outcome, and
/// why.
[[nodiscard]] std::string compare_text(const viz::ComparedCases& cases, const Style& style);

}  // namespace drumlin::app
