#pragma once

#include <optional>
#include <span>

namespace drumlin::sim::line {

/// Height of a profile over the worn face at distances from the edge line [mm]; the flank is the
/// upright below distance 0.
struct EdgeProfile {
  std::span<const double> distance;  ///< of each point from the edge line [mm], rising
  std::span<const double> height;    ///< [mm]
};

/// How far the profile at the original edge line lies below the worn face [mm], carried on over
/// half a cell by a straight line.
[[nodiscard]] double edge_drop(const EdgeProfile& profile);

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

/// How far the worn zone of an edge reaches [mm]: ISO 13715's edge size lies within.
struct EdgeExtents {
  double face = 0;   ///< along the face, from the edge line
  double flank = 0;  ///< along the flank, from the worn face
};

/// Where the worn zone ends on face and flank, whatever the reading can tell apart.
///
/// Depth is read at three thresholds t, 2t and 4t (a twentieth of the drop, or 2 um, or an eighth
/// of a drop of less than 16 um), and the distance between them carried on to depth 0 by
///
///     u = e - k (z - z^2 / (2 d))^m,    1/2 <= m <= 1,
///
/// d the extent on the other face: exact with m = 1/2 for an arc tangent to both faces (e its
/// radius) and to 3 thousandths with m = 1 for a chamfer. A drop below 1 um counts as none.
///
/// @return  nothing where the worn zone goes on beyond the profile.
///
/// Source: models/theory/edge.md; a definition of ours, the standard names no way of measuring.
[[nodiscard]] std::optional<EdgeExtents> edge_extents(const EdgeProfile& profile);

/// Smallest radius of curvature of face, worn zone and flank [mm].
///
/// Told by circles through three points of the profile a chord s and 2 s apart: r = 2 r(s) -
/// r(2 s). An arc has r(s) = r(2 s) = r; a corner has r(s) in proportion to s and so r = 0, however
/// long the bevel that leads to it. Scale: s is four of the cells at the edge (20 um with cells of
/// 5 um) or a quarter of the smaller extent if that is more. What is rounded more finely than two s
/// counts as sharp.
[[nodiscard]] double minimum_radius(const EdgeProfile& profile, const EdgeExtents& extents);

}  // namespace drumlin::sim::line
