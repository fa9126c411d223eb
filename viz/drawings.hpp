#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim/result.hpp"
#include "viz/canvas.hpp"

namespace drumlin::viz {

/// One line drawing of a result, for any canvas: a picture file, a page. It refers to the result,
/// which has to outlive it.
struct Drawing {
  std::string file;   ///< name of its picture file, without ending
  std::string what;   ///< what is shown, such as "hole-6, highest edge pressure"
  std::string setup;  ///< under which set-up
  std::string why;    ///< what to read off it, in a sentence or two
  /// Draws into a box of a canvas, which is at least 1000 pixels wide.
  std::function<void(Canvas&, const Box&)> paint;
};

/// Each kind of drawing, empty where the result gives nothing to draw.
[[nodiscard]] std::vector<Drawing> profile_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> pressure_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> moment_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> belt_speed_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> coating_map_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> fold_map_drawings(const sim::Result& result);
[[nodiscard]] std::vector<Drawing> part_as_it_is_drawings(const sim::Result& result);

/// All of them, in the order in which they are best looked at.
[[nodiscard]] std::vector<Drawing> all_drawings(const sim::Result& result);

}  // namespace drumlin::viz
