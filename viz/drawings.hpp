#pragma once

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "sim/result.hpp"
#include "viz/canvas.hpp"

namespace drumlin::viz {

/// Least box into which every drawing paints well [pixel].
inline constexpr double least_drawing_width = 680;
inline constexpr double least_drawing_height = 600;
/// In boxes narrower than this [pixel] what stands beside a drawing (facts, keys, close-up) goes
/// below it, as far as there is height for it; `Drawing::height_for` gives the height for all of
/// it.
inline constexpr double narrow_drawing = 1100;

/// One line drawing of a result, for any canvas: a picture file, a page. It refers to the result,
/// which has to outlive it. Letters are 22 pixels high and more at every width.
struct Drawing {
  std::string file;   ///< name of its picture file, without ending
  std::string what;   ///< what is shown, such as "hole-6, highest edge pressure"
  std::string setup;  ///< under which set-up
  std::string why;    ///< what to read off it, in a sentence or two
  /// Draws into a box of a canvas, at least `least_drawing_width` by `least_drawing_height`.
  std::function<void(Canvas&, const Box&)> paint;
  /// Height of a box of that width in which nothing is left out and nothing is crowded [pixel].
  std::function<double(double width)> height = {};
  std::string shows = {};  ///< what is to be seen, for who cannot see it

  [[nodiscard]] double height_for(double width) const {
    return height ? height(width) : std::max(least_drawing_height, 0.58 * width);
  }
  /// Alternative text: what is to be seen, under which set-up, and what to read off it.
  [[nodiscard]] std::string description() const;
};

/// Each kind of drawing, empty where the result gives nothing to draw.
[[nodiscard]] std::vector<Drawing> profile_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> pressure_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> moment_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> belt_speed_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> coating_map_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> fold_map_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> remedies_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> part_as_it_is_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> scatter_limits_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> scatter_shares_drawings(const sim::Result& result);

/// All of them, in the order in which they are best looked at.
[[nodiscard]] std::vector<Drawing> all_drawings(const sim::Result& result);

}  // namespace drumlin::viz
