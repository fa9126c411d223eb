#pragma once

#include "viz/canvas.hpp"
#include "viz/moment_view.hpp"

namespace drumlin::viz {

/// Draws drum, squashed cover, belt, part and pressure of one moment: the whole contact to the
/// left, a close-up at the busiest edge to the right.
void draw_moment(Canvas& canvas, const Box& area, const Moment& moment);

/// Draws one panel of a moment, section above and pressure below, on the scales of a view. The same
/// view in areas of the same size gives the same scales, whatever the moment.
void draw_moment(Canvas& canvas, const Box& area, const Moment& moment, const MomentView& view);

}  // namespace drumlin::viz
