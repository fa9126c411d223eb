#pragma once

#include <span>

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

}  // namespace drumlin::viz
