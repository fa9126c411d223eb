#pragma once

#include <span>

#include "sim/result.hpp"
#include "viz/canvas.hpp"
#include "viz/plot.hpp"

namespace drumlin::viz {

/// Fills the part down to the lower end of the plot: coating on top, metal below it; metal that
/// hangs over an opening down to its underside, as burr.
void fill_layers(Canvas& canvas, const Plot& plot, std::span<const double> x,
                 std::span<const double> surface, std::span<const double> coating,
                 std::span<const double> underside);

/// Fills what lies between an older profile and the present one.
void fill_worn(Canvas& canvas, const Plot& plot, std::span<const double> x,
               std::span<const double> before, std::span<const double> before_underside,
               std::span<const double> after, Colour colour);

/// The outline of a burr as it came, dashed in the burr's colour; nothing at an edge without one.
void draw_burr_before(Canvas& canvas, const Plot& plot, const sim::SectionRecord& section,
                      const sim::SectionEdge& edge);

}  // namespace drumlin::viz
