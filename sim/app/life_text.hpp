#pragma once

#include <string>

#include "sim/app/text.hpp"
#include "sim/life_result.hpp"

namespace drumlin::app {

/// How long belts last and what the line makes on the way.
[[nodiscard]] std::string life_text(const sim::LifeStudy& study, const Style& style);

}  // namespace drumlin::app
