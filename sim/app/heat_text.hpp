#pragma once

#include <string>

#include "sim/app/text.hpp"
#include "sim/result.hpp"

namespace drumlin::app {

/// Where the power of each station goes, how warm the sheet and its burrs get; empty where no
/// temperature is known.
[[nodiscard]] std::string heat_text(const sim::Result& result, const Style& style);

}  // namespace drumlin::app
