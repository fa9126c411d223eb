#pragma once

#include <string>

#include "sim/line/surface.hpp"

/// What sections across ends and across sides of the part are cut alike by.
namespace drumlin::sim::line {

/// Beyond a burr's root cells stay a unit wide this far [mm], then grow by this share of the
/// distance.
inline constexpr double fine_margin = 0.05;
inline constexpr double cell_growth = 0.25;

/// One edge of the part as it lies on the conveyor.
struct CutEdge {
  std::string name;  ///< empty for an edge nobody asked about
  models::AnyBurr burr = models::NoBurr{};
  double stretch = 1;  ///< lengths in the section over lengths across the edge
};

/// Burr metal on the face, in the section [mm].
[[nodiscard]] double footprint(const CutEdge& edge);

/// How far a lip hangs over the opening from the start, in the section [mm].
[[nodiscard]] double lip_length(const CutEdge& edge);

/// Width of a section's finest cells [mm], which divides the burr's root evenly, a lip's thickness.
[[nodiscard]] double cell_width(const CutEdge& edge, const Fineness& fineness);

/// Gives every cell of a strip the unworn face's layers, and metal all along.
void lay_face(Strip& strip, const PlainFace& unworn);

/// An edge with its burr set upon the strip, metal towards +x or -x (`metal`) of a line [units].
///
/// @param specific_energy  of the base metal [MPa].
[[nodiscard]] StripEdge set_edge(Strip& strip, const CutEdge& cut, double specific_energy, int line,
                                 int metal);

}  // namespace drumlin::sim::line
