#pragma once

#include "sim/result.hpp"
#include "viz/canvas.hpp"

namespace drumlin::viz {

struct Moment {
  const sim::Result& result;
  const sim::SectionRecord& section;
  const sim::Frame& frame;
  const sim::DrumShape& drum;
};

/// Draws drum, squashed cover, belt, part and pressure of one moment: the whole contact to the
/// left, a close-up at the busiest edge to the right.
void draw_moment(Canvas& canvas, const Box& area, const Moment& moment);

}  // namespace drumlin::viz
