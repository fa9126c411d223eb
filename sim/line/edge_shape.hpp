#pragma once

#include <optional>

#include "sim/line/edge_profile.hpp"
#include "sim/line/strip.hpp"
#include "sim/result.hpp"

namespace drumlin::sim::line {

/// Coating thinner than this counts as bare [mm] where a case says nothing: a hundredth of the
/// thinnest coating class, well above rounding.
inline constexpr double usual_bare_below = 5e-5;

/// What is measured at one edge of a worn strip, on the part's own metal; lengths in mm.
///
/// Rounding, extents and smallest radius belong to a worn edge: there are none while a burr stands
/// on the edge line or hangs from it.
struct EdgeShape {
  std::optional<double> burr_height;  ///< only where a burr stood
  double drop = 0;
  std::optional<EdgeRadius> rounding;
  std::optional<EdgeExtents> extents;
  std::optional<double> minimum_radius;
  std::optional<double> coating_left;     ///< least beyond the burr's root; only on coated parts
  std::optional<double> bare_length;      ///< to where coating begins; none if it does not
  std::optional<CoatingProfile> coating;  ///< only on coated parts
};

/// @param face_removed  depth the plain face lost [mm]; heights count from there.
/// @param coated        whether the part had a coating to start with.
/// @param bare_below    coating thinner than this counts as bare [mm].
[[nodiscard]] EdgeShape edge_shape(const Strip& strip, const StripEdge& edge, double face_removed,
                                   bool coated, double bare_below = usual_bare_below);

/// Least coating left [mm] at distances from `beyond` to the readable end of the strip; the burr's
/// root, bare from the start, does not count.
[[nodiscard]] double coating_left(const Strip& strip, const StripEdge& edge, double beyond);

}  // namespace drumlin::sim::line
