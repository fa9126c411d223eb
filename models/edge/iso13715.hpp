#pragma once

#include <array>
#include <string_view>

namespace drumlin::models {

/// Signed size of an edge as ISO 13715 states it [mm]: how far material stands beyond the ideal
/// corner (+, burr or passing), or how much of either face is missing next to it (-, undercut).
///
/// The standard leaves the shape within that size open: a chamfer and a rounding of the same extent
/// have the same size.
///
/// @param face_extent   of the worn zone along the face [mm], >= 0.
/// @param flank_extent  of the worn zone along the flank [mm], >= 0.
/// @return              minus the larger of both: the zone in which the state of the edge lies.
///
/// Source: ISO 13715:2017, edges of undefined shape (from memory, signs confirmed in print).
[[nodiscard]] double undercut_size(double face_extent, double flank_extent) noexcept;

/// Preferred sizes of ISO 13715:2017 [mm], without sign (annex, from memory). Up to 0.05 the edge
/// counts as sharp, whichever the sign.
inline constexpr std::array<double, 7> preferred_sizes{0.02, 0.05, 0.1, 0.3, 0.5, 1.0, 2.5};
inline constexpr double sharp_limit = 0.05;

/// The smallest preferred size that holds a signed edge size, with its sign: "-0.3", "+0.1"; an
/// ideal corner counts as undercut, "-0.02". Empty where it is beyond the largest, 2.5.
///
/// A size on a border belongs to the smaller class.
[[nodiscard]] std::string_view size_class(double edge_size) noexcept;

/// What there is to measure at a corner of 90 degrees rounded with a radius r, tangent to both
/// faces: the exact values for checks of a reading.
struct RoundedCorner {
  double extent;         ///< along either face [mm]: r
  double corner_to_arc;  ///< from the ideal corner on the diagonal [mm]: (sqrt 2 - 1) r
  double middle_depth;   ///< of the arc's middle under either face [mm]: (1 - 1 / sqrt 2) r
  double missing_area;   ///< of the section [mm^2]: (1 - pi / 4) r^2
};
[[nodiscard]] RoundedCorner rounded_corner(double radius) noexcept;

}  // namespace drumlin::models
