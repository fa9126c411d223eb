#pragma once

#include <string>

#include "sim/app/text.hpp"
#include "sim/result.hpp"

namespace drumlin::app {

/// The verdict at a glance: accepted, not accepted or not known, and the item that limits it.
[[nodiscard]] std::string verdict_line(const sim::Result& result, const Style& style);

/// Every item of the verdict with value, band, limit and margin, in the customer's own units.
[[nodiscard]] std::string verdict_table(const sim::Verdict& verdict, const Style& style);

}  // namespace drumlin::app
