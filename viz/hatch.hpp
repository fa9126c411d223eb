#pragma once

#include <functional>

#include "viz/canvas.hpp"
#include "viz/pens.hpp"

namespace drumlin::viz {

/// Parallel lines that fill a region, told apart by direction, spacing and dash as well as colour.
struct Hatch {
  Colour colour;
  double angle = 45;     ///< [degree], anticlockwise from the horizontal
  double spacing = 18;   ///< [pixel]
  double dash = 0;       ///< [pixel], as in Stroke
  double width = 3;      ///< [pixel]
  bool crossed = false;  ///< a second set, across the first
};

/// Hatch of the i-th region.
[[nodiscard]] const Hatch& hatch(std::size_t i);
inline constexpr std::size_t hatches = 5;
/// Of what is not known, and of what could not be computed.
[[nodiscard]] const Hatch& unknown_hatch();
[[nodiscard]] const Hatch& blank_hatch();

/// Hatches that part of a box in which `inside` holds.
void fill_with(Canvas& canvas, const Box& box, const Hatch& with,
               const std::function<bool(Point)>& inside);

/// Fills that part of a box in which `inside` holds with a colour, row by row.
void fill_with(Canvas& canvas, const Box& box, Colour colour,
               const std::function<bool(Point)>& inside);

}  // namespace drumlin::viz
