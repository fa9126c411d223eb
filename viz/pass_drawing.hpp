#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/result.hpp"

/// A pass over a section as a row of moments, all drawn in one fixed view: one scale of lengths,
/// one of heights, one axis of pressure, so that what moves between two moments moves in truth.
namespace drumlin::viz {

/// What never changes in a view, and what each moment puts between.
struct PassView {
  double width = 0;                  ///< [pixel]
  double height = 0;                 ///< [pixel]
  double heights = 1;                ///< how many times heights are drawn larger than lengths
  std::string under;                 ///< SVG shapes below every moment
  std::vector<std::string> moments;  ///< SVG shapes of each
  std::string over;                  ///< SVG shapes above every moment
};

struct PassDrawing {
  std::vector<std::size_t> frames;  ///< indices of the moments that are drawn
  PassView whole;                   ///< drum, cover and part over the whole way
  std::optional<PassView> close;    ///< at the edge that is pressed most; none without edges
  std::string edge;                 ///< name of that edge
};

/// @param frames  indices of the frames to draw, rising.
/// @param id      begins the name of everything that has to be unique in a page.
[[nodiscard]] PassDrawing pass_drawing(const sim::SectionRecord& section,
                                       const std::vector<sim::DrumShape>& drums,
                                       const std::vector<std::size_t>& frames,
                                       const std::string& id);

}  // namespace drumlin::viz
