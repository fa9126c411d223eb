#pragma once

#include "viz/canvas.hpp"
#include "viz/moment_view.hpp"

namespace drumlin::viz {

/// Draws drum, squashed cover, belt, part and pressure of one moment: the whole contact to the
/// left, a close-up at the busiest edge to the right; in a narrow area (`narrow_drawing`) below it,
/// where there is height for it.
void draw_moment(Canvas& canvas, const Box& area, const Moment& moment);

/// Height of an area of that width in which whole and close-up have room [pixel].
[[nodiscard]] double moment_height(const Moment& moment, double width);

/// Draws one panel of a moment, section above and pressure below, on the scales of a view. The same
/// view in areas of the same size gives the same scales, whatever the moment.
void draw_moment(Canvas& canvas, const Box& area, const Moment& moment, const MomentView& view);

}  // namespace drumlin::viz
