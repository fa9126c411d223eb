#pragma once

#include <string>
#include <vector>

#include "sim/app/text.hpp"
#include "sim/setup.hpp"

namespace drumlin::app {

/// A case as it was understood, for `drumlin check`: what was given, what follows from it (modulus
/// from hardness, removal coefficients, speeds), what the library supplied and why, what was given
/// but has no effect, and what to beware of.
[[nodiscard]] std::string check_text(const sim::Setup& setup,
                                     const std::vector<std::string>& cautions, const Style& style);

}  // namespace drumlin::app
