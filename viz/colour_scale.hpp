#pragma once

#include <string>
#include <vector>

#include "viz/canvas.hpp"

namespace drumlin::viz {

/// Colours for the values of a map, from light to dark in one hue: lightness only falls, so that a
/// grey print keeps the order and no kind of colour blindness loses it, and equal steps of the
/// value look equally large (CIEDE2000).
class ColourScale {
 public:
  /// @param hue  whose hue in CIE L*a*b* all colours have.
  explicit ColourScale(Colour hue);

  /// @param share  0: lightest, 1: darkest; held between them.
  [[nodiscard]] Colour at(double share) const;

 private:
  std::vector<Colour> colours_;
};

/// Scale in the hue of the coating.
[[nodiscard]] const ColourScale& coating_scale();

struct Tick {
  double share = 0;  ///< of the scale
  std::string text;  ///< with its unit
};

/// Draws the scale as a bar with numbers below.
void draw_colour_bar(Canvas& canvas, const Box& bar, const ColourScale& scale,
                     const std::vector<Tick>& ticks);

}  // namespace drumlin::viz
