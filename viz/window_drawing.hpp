#pragma once

#include <string>

#include "sim/window_result.hpp"
#include "viz/drawings.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {

/// The map of a window. It refers to the window, which has to outlive it.
[[nodiscard]] Drawing window_drawing(const sim::Window& window);

/// What stands around it on a sheet of its own.
[[nodiscard]] SheetWords window_sheet(const sim::Window& window);

}  // namespace drumlin::viz
