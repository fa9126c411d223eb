#pragma once

#include <vector>

#include "sim/line/strip.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::line {

/// Plain face far from every feature, as it wears.
struct PlainFace {
  double removed = 0;  ///< [mm]
  double coating = 0;  ///< left [mm]
};

/// The part as the line model sees it: its plain face and one strip per section through a feature.
/// The same surface goes through all stations and passes.
struct Surface {
  PlainFace face;
  std::vector<Strip> strips;
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
[[nodiscard]] Surface unworn_surface(const cases::Part& part, const Fineness& fineness,
                                     double reach, double narrowest);

/// Distance from an edge within which strips are fully worn and may be read [mm].
inline constexpr double readable = 10.0;

}  // namespace drumlin::sim::line
