#pragma once

#include <string>

#include "sim/app/text.hpp"
#include "sim/window_result.hpp"

namespace drumlin::app {

/// What a person reads after a window is drawn: cautions that press, what the map says, how sure
/// that is, cautions.
[[nodiscard]] std::string window_text(const sim::Window& window, const Style& style);

}  // namespace drumlin::app
