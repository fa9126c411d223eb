#pragma once

#include <optional>
#include <string>

#include "sim/line/strip.hpp"

namespace drumlin::sim::line {

/// What became of an edge's burr; lengths in mm, heights above the worn face.
struct BurrFate {
  std::string outcome;                   ///< see FeatureResult; empty without a burr
  std::optional<double> secondary_burr;  ///< overhang beyond the edge line
  std::optional<double> lip_thickness;   ///< of what hangs over, at its foot
  std::optional<double> fold_start;
  std::optional<double> fold_stop;
  std::optional<double> height;  ///< highest point of what lies on the face, folded
};

/// How far a stub still sticks out of the edge [mm]; none for other burrs. Belts wear it from
/// above: seen from there it gets shorter only where a column is ground through the whole sheet.
[[nodiscard]] std::optional<double> protrusion_left(const Strip& strip, const StripEdge& edge,
                                                    double sheet_thickness);

/// @param face_removed  depth the plain face lost [mm].
[[nodiscard]] BurrFate burr_fate(const Strip& strip, const StripEdge& edge, double face_removed);

}  // namespace drumlin::sim::line
