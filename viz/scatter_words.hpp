#pragma once

#include <string>

#include "sim/scatter_result.hpp"

/// How shares of draws are said, on pages and on the terminal.
namespace drumlin::viz {

/// A share [-] in per cent, with as many decimals as tell it from nothing and from all.
[[nodiscard]] std::string percent_text(double share);

/// How often a limit is met [%]; where no draw failed, or every one, the end of the interval, which
/// is all that is known.
[[nodiscard]] std::string met_percent(const sim::Probability& met);

}  // namespace drumlin::viz
