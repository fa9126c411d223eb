#pragma once

#include <string>

#include "sim/result.hpp"
#include "viz/moment_view.hpp"
#include "viz/plot.hpp"

/// What a picture of one moment says in numbers and words.
namespace drumlin::viz {

/// Where the belt presses: first and last display point with pressure; the drum's axis without any.
[[nodiscard]] Range contact(const sim::SectionRecord& section, const sim::Frame& frame);

/// Highest pressure away from every edge, and where.
struct FacePressure {
  double value = 0;  ///< [MPa]
  double x = 0;      ///< [mm]
};

[[nodiscard]] FacePressure face_pressure(const sim::SectionRecord& section,
                                         const sim::Frame& frame);

/// Highest pressure anywhere [MPa].
[[nodiscard]] double highest_pressure(const sim::Frame& frame);

/// Highest pressure inside a stretch [MPa].
[[nodiscard]] double highest_pressure(const sim::SectionRecord& section, const sim::Frame& frame,
                                      const Range& stretch);

/// One sentence on what the frame shows.
[[nodiscard]] std::string moment_why(const sim::Result& result, const sim::SectionRecord& section,
                                     const sim::Frame& frame);

/// What carries the pressure of an edge at a moment: "burr" while one stands or hangs there.
[[nodiscard]] const char* burr_or_edge(const sim::SectionRecord& section, const sim::Frame& frame,
                                       const sim::SectionEdge& edge);

}  // namespace drumlin::viz
