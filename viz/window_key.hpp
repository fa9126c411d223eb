#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "sim/window_result.hpp"
#include "viz/canvas.hpp"
#include "viz/hatch.hpp"

/// What the marks of a window's map mean.
namespace drumlin::viz {

/// Dashes of the contours, lowest probability first [pixel].
inline constexpr auto contour_dashes = std::to_array<double>({5, 11, 20, 34});

/// Limits that have a part of the map to themselves, the largest first, by their number.
[[nodiscard]] std::vector<std::size_t> limits_on_map(const sim::Window& window);

/// Hatch of what is not accepted; limits beyond those with one of their own share the last.
[[nodiscard]] const Hatch& region_hatch(const sim::Window& window, int kind);

void draw_cross(Canvas& canvas, Point middle, double arm);
void draw_diamond(Canvas& canvas, Point middle, double arm);

/// Entries of the key.
[[nodiscard]] std::size_t window_key_entries(const sim::Window& window);

/// Draws the key from the top of a box downwards.
void draw_window_key(Canvas& canvas, const sim::Window& window, const Box& area);

}  // namespace drumlin::viz
