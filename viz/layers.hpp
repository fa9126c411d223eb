#pragma once

#include <span>

#include "viz/canvas.hpp"
#include "viz/plot.hpp"

namespace drumlin::viz {

/// Fills the part down to the lower end of the plot: coating on top, metal below it.
void fill_layers(Canvas& canvas, const Plot& plot, std::span<const double> x,
                 std::span<const double> surface, std::span<const double> coating);

/// Fills what lies between an older profile and the present one.
void fill_worn(Canvas& canvas, const Plot& plot, std::span<const double> x,
               std::span<const double> before, std::span<const double> after, Colour colour);

}  // namespace drumlin::viz
