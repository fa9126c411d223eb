#include "sim/line/strip.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/line/wear_layers.hpp"

namespace drumlin::sim::line {
namespace {

/// Within this distance of an edge without a burr a pressure counts as the edge's [mm]: the length
/// over which a belt spreads a sharp load, (D c_g)^(1/4), is of this order.
constexpr double edge_zone = 0.15;

/// Cells whose pressure counts as the edge's.
std::size_t zone_cells(const Strip& strip, const StripEdge& edge) {
  if (edge.reach > 0) return edge.reach;
  std::size_t count = 0;
  while (std::abs(strip.x(Strip::inward(edge, count)) - strip.line(edge)) < edge_zone)
    ++count;
  return count;
}

}  // namespace

void shed_burr(Strip& strip, StripEdge& edge) {
  for (std::size_t i = 0; i < edge.reach; ++i) {
    const std::size_t cell = Strip::inward(edge, i);
    strip.height[cell] -= strip.burr[cell];
    strip.burr[cell] = 0.0;
  }
  edge.broken_off = true;
}

std::size_t lip_cells(const Strip& strip, const StripEdge& edge) noexcept {
  std::size_t count = 0;
  while (strip.lip[Strip::beyond(edge, count)] != 0)
    ++count;
  return count;
}

void clear_cell(Strip& strip, std::size_t cell) {
  strip.metal[cell] = strip.lip[cell] = 0;
  strip.height[cell] = strip.burr[cell] = 0.0;
}

double note_peaks(Strip& strip, std::size_t first, std::span<const double> pressure) {
  double highest = 0.0;
  for (StripEdge& edge : strip.edges) {
    double peak = 0.0;
    double force = 0.0;  // on burr metal, per length of edge
    const auto add = [&](std::size_t cell) {
      if (cell < first || cell >= first + pressure.size()) return;
      peak = std::max(peak, pressure[cell - first]);
      if (strip.burr[cell] > 0.0)
        force += pressure[cell - first] * strip.width(cell) / edge.stretch;
    };
    const std::size_t zone = zone_cells(strip, edge);
    for (std::size_t i = 0; i < zone; ++i)
      add(Strip::inward(edge, i));
    for (std::size_t i = 0; strip.lip[Strip::beyond(edge, i)] != 0; ++i)
      add(Strip::beyond(edge, i));
    edge.peak_pressure = std::max(edge.peak_pressure, peak);
    // What a burr bears once it has folded is the edge's, not what folded it.
    if (!edge.fold_start) edge.peak_force = std::max(edge.peak_force, force);
    highest = std::max(highest, peak);
  }
  return highest;
}

std::vector<std::uint8_t> burr_owners(const Strip& strip) {
  std::vector<std::uint8_t> owner(strip.size(), 0);
  for (std::size_t i = 0; i < strip.size(); ++i) {
    double nearest = std::numeric_limits<double>::infinity();
    for (std::size_t e = 0; e < strip.edges.size(); ++e) {
      const double away = std::abs(strip.x(i) - strip.line(strip.edges[e]));
      if (away >= nearest) continue;
      nearest = away;
      owner[i] = static_cast<std::uint8_t>(e + 1);
    }
  }
  return owner;
}

}  // namespace drumlin::sim::line
