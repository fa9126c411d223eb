#include "sim/line/knock_off.hpp"

#include <algorithm>

namespace drumlin::sim::line {
namespace {

void strike(const KnockOffSetup& tool, double face_removed, Strip& strip, StripEdge& edge) {
  const auto* bead = std::get_if<models::Bead>(&edge.burr);
  if (bead == nullptr || edge.broken_off) return;
  double height = 0.0;
  double above_face = 0.0;
  for (std::size_t i = 0; i < edge.reach; ++i) {
    const std::size_t cell = Strip::inward(edge, i);
    if (strip.burr[cell] <= 0.0) continue;
    height = std::max(height, strip.burr[cell]);
    above_face = std::max(above_face, strip.height[cell] + face_removed);
  }
  if (height <= 0.0 || above_face <= tool.clearance) return;
  edge.struck = true;
  if (tool.line_force >= models::breaking_strike(*bead, height)) shed_burr(strip, edge);
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
