#pragma once

#include <vector>

#include <vtkPolyData.h>
#include <vtkSmartPointer.h>

#include "sim/result.hpp"
#include "viz/section_view.hpp"

namespace drumlin::viz {

/// What of a section a series shows, and how.
struct SeriesView {
  std::vector<Range> windows;  ///< [mm] along x; each is cut out on its own
  double depth = 0;            ///< [mm] of metal shown below z = 0
  double least_spacing = 0;    ///< [mm] display points closer than this are thinned out
  double stretch = 1;          ///< factor on heights
  bool whole_drum = false;     ///< the drum's full circle, else the strip of cover over the part
};

/// When a frame was taken [s]; the way from station to station is not part of either.
struct FrameTime {
  double whole = 0;       ///< counted on through all passages
  double of_passage = 0;  ///< since the drum came into reach in this pass and station
};

/// Kinds of cells, the values of the cell array "layer [1]".
enum class Layer { substrate = 0, coating = 1, cover = 2, belt = 3, before = 4, burr = 5 };

/// One moment as cells in the plane y = 0 [mm]: metal, coating and cover as strips, belt and
/// original profile as lines, burr as strips of its own. Point arrays: pressure, coating left, worn
/// away (NaN where there is no such thing); cell array: layer; field data: stretch, drum, load,
/// time, pass, station and what every array means.
[[nodiscard]] vtkSmartPointer<vtkPolyData> frame_shapes(const sim::SectionRecord& section,
                                                        const sim::Frame& frame,
                                                        const sim::DrumShape& drum,
                                                        const SeriesView& view,
                                                        const FrameTime& time);

}  // namespace drumlin::viz
