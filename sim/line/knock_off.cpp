#include "sim/line/knock_off.hpp"

#include <algorithm>

namespace drumlin::sim::line {
namespace {

void strike(const KnockOffSetup& tool, double face_removed, Strip& strip, StripEdge& edge) {
  const auto* bead = std::get_if<models::Bead>(&edge.burr);
  if (bead == nullptr || edge.broken_off) return;
  double above_face = 0.0;
  for (std::size_t i = 0; i < edge.reach; ++i) {
    const std::size_t cell = Strip::inward(edge, i);
    if (strip.burr[cell] > 0.0)
      above_face = std::max(above_face, strip.height[cell] + face_removed);
  }
  if (above_face <= tool.clearance) return;
  edge.struck = true;
  const double foot = strip.height[edge.cell] - strip.burr[edge.cell] + face_removed;
  if (tool.line_force >= models::breaking_strike(*bead, tool.clearance - foot))
    shed_burr(strip, edge);
}

}  // namespace

void knock_off(const KnockOffSetup& tool, Surface& surface) {
  for (auto* strips : {&surface.strips, &surface.sides}) {
    for (Strip& strip : *strips) {
      for (StripEdge& edge : strip.edges)
        strike(tool, surface.face.removed, strip, edge);
    }
  }
}

}  // namespace drumlin::sim::line
