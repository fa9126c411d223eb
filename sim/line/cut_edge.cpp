#include "sim/line/cut_edge.hpp"

#include <algorithm>
#include <cmath>

namespace drumlin::sim::line {

double footprint(const CutEdge& edge) {
  return edge.stretch * models::footprint_of(edge.burr);
}

double lip_length(const CutEdge& edge) {
  const auto* rolled = std::get_if<models::RolledBurr>(&edge.burr);
  return rolled != nullptr ? edge.stretch * rolled->overhang : 0.0;
}

double cell_width(const CutEdge& edge, const Fineness& fineness) {
  // A lip bends over its thickness as a wall does over its root.
  const auto* rolled = std::get_if<models::RolledBurr>(&edge.burr);
  const double root = rolled != nullptr ? edge.stretch * rolled->thickness : footprint(edge);
  if (root <= 0.0) return fineness.resolution;
  const double cells = std::ceil(root / fineness.resolution - 1e-9);
  return root / std::max(static_cast<double>(fineness.root_cells), cells);
}

void lay_face(Strip& strip, const PlainFace& unworn) {
  const std::size_t n = strip.cells.size();
  strip.height.assign(n, 0.0);
  strip.burr.assign(n, 0.0);
  strip.top.assign(n, unworn.top);
  strip.coating.assign(n, unworn.coating);
  strip.metal.assign(n, 1);
  strip.lip.assign(n, 0);
}

StripEdge set_edge(Strip& strip, const CutEdge& cut, double specific_energy, int line, int metal) {
  StripEdge edge;
  edge.name = cut.name;
  edge.cell = strip.cells.cell_of(metal > 0 ? line : line - 1);
  edge.metal = metal;
  edge.burr = cut.burr;
  edge.stretch = cut.stretch;
  edge.ease = models::ease_of(cut.burr, specific_energy);
  edge.reach = static_cast<std::size_t>(std::lround(footprint(cut) / strip.cells.unit));
  for (std::size_t i = 0; i < edge.reach; ++i) {
    const std::size_t at = Strip::inward(edge, i);
    const double away = (static_cast<double>(i) + 0.5) * strip.cells.unit / cut.stretch;
    strip.height[at] = strip.burr[at] = models::profile_of(cut.burr, away);
    if (models::is_drawn_from_sheet(cut.burr)) strip.coating[at] = strip.top[at] = 0.0;
  }
  return edge;
}

}  // namespace drumlin::sim::line
