#pragma once

#include "sim/brush/brush_tool.hpp"
#include "sim/line/surface.hpp"

namespace drumlin::sim::line {

/// A brush over one face: burrs and lips struck and worn, edges across the feed rounded, every
/// layer of the face rubbed. Edges along the feed are rubbed as the face is.
///
/// @param thickness  of the sheet [mm]: no edge gets rounder.
void pass_brush(const BrushSetup& station, BrushTool& tool, double thickness, Surface& surface);

}  // namespace drumlin::sim::line
