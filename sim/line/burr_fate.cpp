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
  double next = 0.0;  // middle of the first cell beyond
  for (std::size_t k = 0;; ++k) {
    const std::size_t cell = Strip::beyond(edge, k);
    const double middle = std::abs(strip.x(cell) - strip.line(edge)) / edge.stretch;
    if (strip.lip[cell] == 0 || strip.burr[cell] < gone_below) {
      next = middle;
      break;
    }
    farthest = middle + 0.5 * strip.width(cell) / edge.stretch;
  }
  if (!edge.lip) return farthest;
  // Cells tell where it ends to their own width; the plate does so exactly, where its tip is left.
  const double whole = models::overhang(*edge.lip);
  return farthest > 0.0 && next > whole ? whole : std::min(farthest, whole);
}

double highest_burr(const Strip& strip, const StripEdge& edge, std::size_t cells) {
  double highest = 0.0;
  for (std::size_t i = 0; i < cells; ++i)
    highest = std::max(highest, strip.burr[Strip::inward(edge, i)]);
  return highest;
}

std::string outcome_of(const StripEdge& edge, const BurrFate& fate, double standing) {
  if (edge.broken_off) return "broken off";
  if (!edge.struck && edge.peak_pressure <= 0.0 && edge.peak_force <= 0.0) return "untouched";
  if (edge.lip && fate.secondary_burr.value_or(0.0) > 0.0) return "folded beyond the edge";
  if (standing < gone_below) return "ground off";
  return edge.laid > 0 ? "folded onto the face" : "stands";
}

}  // namespace

std::optional<double> protrusion_left(const Strip& strip, const StripEdge& edge,
                                      double sheet_thickness) {
  const auto* stub = std::get_if<models::Stub>(&edge.burr);
  if (stub == nullptr) return std::nullopt;
  double gone = 0.0;
  for (std::size_t i = 0; gone < stub->protrusion; ++i) {
    const std::size_t cell = Strip::inward(edge, i);
    if (strip.height[cell] > -sheet_thickness) break;
    gone += strip.width(cell) / edge.stretch;
  }
  return std::max(stub->protrusion - gone, 0.0);
}

BurrFate burr_fate(const Strip& strip, const StripEdge& edge, double face_removed) {
  BurrFate fate;
  if (std::holds_alternative<models::NoBurr>(edge.burr)) return fate;
  fate.secondary_burr = overhang(strip, edge);
  if (edge.lip) {
    const std::size_t foot = Strip::beyond(edge, 0);
    if (strip.lip[foot] != 0)
      fate.lip_thickness = strip.burr[foot] * std::min(std::sin(edge.lip->turn) + 1e-12, 1.0);
  }
  if (edge.fold_start) {
    fate.fold_start = *edge.fold_start;
    fate.fold_stop = edge.fold_stop;
  }
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
