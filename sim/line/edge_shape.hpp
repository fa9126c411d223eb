#pragma once

#include <optional>
#include <span>

#include "sim/line/strip.hpp"

namespace drumlin::sim::line {

/// Height of a profile over the worn face at distances from the edge line [mm]; the flank is the
/// upright below distance 0.
struct EdgeProfile {
  std::span<const double> distance;  ///< of each point from the edge line [mm], rising
  std::span<const double> height;    ///< [mm]
};

/// Rounded corner that lies closest to an edge.
struct EdgeRadius {
  double radius = 0;  ///< [mm]
  double misfit = 0;  ///< rms distance of the profile from it [mm]
};

/// Radius of the circle, tangent to face and flank, whose rounded corner lies closest to the
/// profile (least squares over face, worn part and flank).
///
/// The zone that counts reaches as far as the edge is worn, along face and flank alike, but no
/// further than `readable_extent` (a face dished over millimetres is not an edge). An exact arc
/// gives back its radius; a shallow bevel that leaves a sharp corner at the flank gives a small
/// radius and a misfit, not the large radius that a free circle through the bevel would claim. ISO
/// 13715 leaves the shape inside an edge size open; this is a definition of ours.
[[nodiscard]] EdgeRadius edge_radius(const EdgeProfile& profile, double readable_extent);

/// What is measured at one edge of a worn strip; lengths in mm.
struct EdgeShape {
  std::optional<double> burr_height;  ///< only where a burr stood
  double drop = 0;
  std::optional<EdgeRadius> rounding;  ///< none while a burr stands on the edge line
  std::optional<double> coating_left;  ///< least beyond the burr's root; only on coated parts
  std::optional<double> bare_length;   ///< to where coating begins; none if it does not
};

/// @param face_removed  depth the plain face lost [mm]; heights count from there.
/// @param coated        whether the part had a coating to start with.
[[nodiscard]] EdgeShape edge_shape(const Strip& strip, const StripEdge& edge, double face_removed,
                                   bool coated);

/// Least coating left [mm] at distances from `beyond` to the readable end of the strip; the burr's
/// root, bare from the start, does not count.
[[nodiscard]] double coating_left(const Strip& strip, const StripEdge& edge, double beyond);

}  // namespace drumlin::sim::line
