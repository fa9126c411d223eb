#pragma once

#include "sim/result.hpp"
#include "viz/canvas.hpp"

namespace drumlin::viz {

/// Draws the cross-section beside an edge: metal and coating that are left, what was worn away,
/// the profile before, and dimension marks. The scale of heights is written on it.
void draw_profile(Canvas& canvas, const Box& area, const sim::Result& result,
                  const sim::SectionRecord& section, const sim::SectionEdge& edge);

}  // namespace drumlin::viz
