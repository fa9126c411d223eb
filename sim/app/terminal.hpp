#pragma once

#include "sim/app/text.hpp"

namespace drumlin::app {

/// How to write on stdout: colour only on a terminal, and not where NO_COLOR is set.
[[nodiscard]] Style stdout_style();

/// Whether a person watches stderr, so that a progress line makes sense.
[[nodiscard]] bool stderr_is_terminal();

}  // namespace drumlin::app
