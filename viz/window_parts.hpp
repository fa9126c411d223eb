#pragma once

#include <string>

#include "sim/window_result.hpp"
#include "viz/output.hpp"

/// The files of a window, one writer each.
namespace drumlin::viz {

[[nodiscard]] std::string window_json(const sim::Window& window);
[[nodiscard]] std::string window_page(const sim::Window& window);
void write_window_hdf5(const sim::Window& window, Output& out);
void write_window_vtk(const sim::Window& window, Output& out);

}  // namespace drumlin::viz
