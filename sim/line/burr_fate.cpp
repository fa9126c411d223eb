#include "sim/line/burr_fate.hpp"

#include <algorithm>
#include <cmath>

namespace drumlin::sim::line {
namespace {

/// Burr metal thinner than this counts as gone [mm]: a micrometre, less than grains leave behind.
constexpr double gone_below = 1e-3;

/// How far metal hangs over the opening beyond the edge line, across the edge [mm].
double overhang(const Strip& strip, const StripEdge& edge) {
  double farthest = 0.0;
  for (std::size_t k = 0;; ++k) {
    const std::size_t cell = edge.metal > 0 ? edge.cell - 1 - k : edge.cell + 1 + k;
    if (strip.lip[cell] == 0) break;
    if (strip.burr[cell] < gone_below) continue;
    const double far = std::abs(strip.x(cell) - strip.line(edge)) + 0.5 * strip.width(cell);
    farthest = far / edge.stretch;
  }
  if (!edge.lip) return farthest;
  // Cells tell where it ends to their own width; the plate itself does so exactly.
  return std::min(farthest, models::overhang(*edge.lip));
}

double highest_burr(const Strip& strip, const StripEdge& edge, std::size_t cells) {
  double highest = 0.0;
  for (std::size_t i = 0; i < cells; ++i)
    highest = std::max(highest, strip.burr[Strip::inward(edge, i)]);
  return highest;
}

std::string outcome_of(const StripEdge& edge, const BurrFate& fate, double standing) {
  if (!edge.struck && edge.peak_pressure <= 0.0) return "untouched";
  if (edge.broken_off) return "broken off";
  if (edge.lip && fate.secondary_burr.value_or(0.0) > 0.0) return "folded beyond the edge";
  if (standing < gone_below) return "ground off";
  return edge.laid > 0 ? "folded onto the face" : "stands";
}

}  // namespace

BurrFate burr_fate(const Strip& strip, const StripEdge& edge, double face_removed) {
  BurrFate fate;
  if (std::holds_alternative<models::NoBurr>(edge.burr)) return fate;
  fate.secondary_burr = overhang(strip, edge);
  if (edge.lip) {
    const std::size_t foot = edge.metal > 0 ? edge.cell - 1 : edge.cell + 1;
    if (strip.lip[foot] != 0)
      fate.lip_thickness = strip.burr[foot] * std::min(std::sin(edge.lip->turn) + 1e-12, 1.0);
  }
  if (edge.fold_start) {
    fate.fold_start = *edge.fold_start + face_removed;
    fate.fold_stop = edge.fold_stop + face_removed;
  }
  if (const auto* stub = std::get_if<models::Stub>(&edge.burr)) fate.protrusion = stub->protrusion;
  const std::size_t covered = std::max(edge.reach, edge.laid);
  if (edge.laid > 0) {
    double height = -1e9;
    for (std::size_t i = 0; i < covered; ++i)
      height = std::max(height, strip.height[Strip::inward(edge, i)] + face_removed);
    fate.height = height;
  }
  fate.outcome = outcome_of(edge, fate, highest_burr(strip, edge, covered));
  return fate;
}

}  // namespace drumlin::sim::line
