#pragma once

#include "sim/brush/brush_tool.hpp"
#include "sim/fast/part.hpp"

namespace drumlin::sim::fast {

/// A brush over one face, as line::pass_brush but on the fast model's few columns.
///
/// @param thickness  of the sheet [mm]: no edge gets rounder.
void pass_brush(const BrushSetup& station, BrushTool& tool, double thickness, Face& face);

}  // namespace drumlin::sim::fast
