#pragma once

#include <functional>
#include <optional>
#include <span>

#include "sim/window_result.hpp"

namespace drumlin::sim {

/// How far a place is from a border and from the map's rim, as the half-width of the square about
/// it that just touches one of them (the largest norm of the difference), in shares of the ranges.
[[nodiscard]] double square_reach(const MapPlace& place, std::span<const WindowLine> border);

/// The widest square that is accepted all over: `widest_box` of the cells to begin with, then moved
/// and grown until it touches the border itself.
///
/// @return none where no cell is accepted all over.
[[nodiscard]] std::optional<RobustBox> robust_box(const AdaptiveMap& map,
                                                  std::span<const WindowLine> border);

/// Fills in what holds the box on each side and how far the border is from its middle.
void hold_box(RobustBox& box, std::span<const WindowLine> border, double tolerance);

}  // namespace drumlin::sim
