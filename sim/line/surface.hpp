#pragma once

#include <optional>
#include <vector>

#include "sim/line/strip.hpp"
#include "sim/part_faces.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::line {

using sim::PlainFace;

/// One face of the part as the line model sees it: plain face, one strip per section through a
/// feature, and one per edge that lies along the feed.
struct Surface {
  PlainFace face;
  std::vector<Strip> strips;  ///< normal to the drum's axis
  std::vector<Strip> sides;   ///< along the drum's axis: x is the way across the edge
};

/// The part between two stations: the same object goes through all stations and passes.
struct PartSurface {
  Surface burrs;                   ///< the face that carries the burrs
  std::optional<Surface> reverse;  ///< the other, where a tool of the line meets it
  bool burrs_up = true;

  /// The face that lies up; throws std::bad_optional_access if that is a face nobody cut.
  [[nodiscard]] Surface& up() { return burrs_up ? burrs : reverse.value(); }
  [[nodiscard]] const Surface& up() const { return burrs_up ? burrs : reverse.value(); }
};

/// How finely strips are cut and passes are stepped.
struct Fineness {
  double resolution = 0.005;  ///< largest cell at edges [mm]
  int root_cells = 8;         ///< fewest cells on a burr's root
  int steps = 400;            ///< per passage over metal on both sides of an edge
  /// Fine cells at edges, nested into drum-scale ones, and strides that grow where little happens;
  /// else even cells and strides: the reference.
  bool nested = true;
};

/// Cells between two marks, a unit wide within `fine` of every line and wider by `growth` of what
/// lies beyond that, up to `widest`; lines fall on bounds.
///
/// @param lines  rising, between the marks; counted in units as everything here but `growth`.
[[nodiscard]] CellRow graded_cells(double unit, int from, int to, const std::vector<int>& lines,
                                   int fine, double growth, int widest);

/// Strips through every feature the line model can see, unworn. A side edge or a side rim lies
/// along the feed: no section normal to the drum shows it, so it gets no strip.
///
/// @param reach     half the contact patch of the widest drum [mm]; strips extend far enough for
/// it.
/// @param narrowest half that of the narrowest [mm], which the drum-scale cells must resolve.
/// @param face      which face of the part; only that of the burrs carries any.
[[nodiscard]] Surface unworn_surface(const cases::Part& part, const Fineness& fineness,
                                     double reach, double narrowest,
                                     FaceSide face = FaceSide::burrs);

/// Distance from an edge within which strips are fully worn and may be read [mm].
inline constexpr double readable = 10.0;

}  // namespace drumlin::sim::line
