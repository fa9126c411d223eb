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

std::size_t beyond(const StripEdge& edge, std::size_t steps_out) noexcept {
  return edge.metal > 0 ? edge.cell - 1 - steps_out : edge.cell + 1 + steps_out;
}

std::size_t lip_cells(const Strip& strip, const StripEdge& edge) noexcept {
  std::size_t count = 0;
  while (strip.lip[beyond(edge, count)] != 0)
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
    double force = 0.0;
    const std::size_t zone = zone_cells(strip, edge);
    for (std::size_t i = 0; i < zone; ++i) {
      const std::size_t cell = Strip::inward(edge, i);
      if (cell < first || cell >= first + pressure.size()) continue;
      peak = std::max(peak, pressure[cell - first]);
      force += pressure[cell - first] * strip.width(cell);
    }
    edge.peak_pressure = std::max(edge.peak_pressure, peak);
    if (edge.reach > 0) edge.peak_force = std::max(edge.peak_force, force);
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
