#pragma once

#include <string>

#include "sim/app/text.hpp"
#include "sim/remedy_result.hpp"

namespace drumlin::app {

/// What would have to change, in at most six points; empty where there is nothing to say.
[[nodiscard]] std::string remedy_text(const sim::RemedyStudy& study, const Style& style);

}  // namespace drumlin::app
