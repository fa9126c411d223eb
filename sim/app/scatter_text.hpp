#pragma once

#include <string>

#include "sim/app/text.hpp"

namespace drumlin::app {

/// How often the limits are met over the scatter that the case states, and which scatter decides.
[[nodiscard]] std::string scatter_text(const sim::ScatterStudy& scatter, const Style& style);

}  // namespace drumlin::app
