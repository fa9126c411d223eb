#include "sim/line/edge_shape.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "sim/line/surface.hpp"

namespace drumlin::sim::line {
namespace {

/// Cells of an edge that are fully worn and may be read, counted inwards.
std::size_t readable_cells(const Strip& strip, const StripEdge& edge) {
  std::size_t count = 0;
  while (std::abs(strip.x(Strip::inward(edge, count)) - strip.line(edge)) < readable &&
         strip.metal[Strip::inward(edge, count)] != 0)
    ++count;
  return count;
}

/// Near and far bound of a cell, as distances from the edge line.
double near_bound(const Strip& strip, const StripEdge& edge, std::size_t steps_in) {
  const std::size_t cell = Strip::inward(edge, steps_in);
  return std::abs(strip.x(cell) - strip.line(edge)) - 0.5 * strip.width(cell);
}

/// What is left of the coating along the surface, from the edge line on.
CoatingProfile along_surface(const Strip& strip, const StripEdge& edge,
                             const EdgeProfile& profile) {
  CoatingProfile coating;
  double arc = 0.0;
  double u = 0.0;
  double z = -edge_drop(profile);
  for (std::size_t i = 0; i < profile.distance.size(); ++i) {
    arc += std::hypot(profile.distance[i] - u, profile.height[i] - z);
    u = profile.distance[i];
    z = profile.height[i];
    coating.arc.push_back(arc);
    coating.left.push_back(strip.coating[Strip::inward(edge, i)]);
  }
  return coating;
}

void read_coating(const Strip& strip, const StripEdge& edge, const EdgeProfile& profile,
                  double bare_below, EdgeShape& shape) {
  shape.coating_left = coating_left(strip, edge, 0.0);
  shape.coating = along_surface(strip, edge, profile);
  const std::size_t count = profile.distance.size();
  std::size_t bare = 0;
  while (bare < count && strip.coating[Strip::inward(edge, bare)] < bare_below)
    ++bare;
  if (bare < count) shape.bare_length = near_bound(strip, edge, bare);
}

}  // namespace

double coating_left(const Strip& strip, const StripEdge& edge, double beyond) {
  const std::size_t count = readable_cells(strip, edge);
  std::size_t from = std::min(edge.reach, count - 1);
  while (from + 1 < count && near_bound(strip, edge, from) < beyond - 1e-9)
    ++from;
  double least = strip.coating[Strip::inward(edge, from)];
  for (std::size_t i = from; i < count; ++i)
    least = std::min(least, strip.coating[Strip::inward(edge, i)]);
  return least;
}

EdgeShape edge_shape(const Strip& strip, const StripEdge& edge, double face_removed, bool coated,
                     double bare_below) {
  const std::size_t count = readable_cells(strip, edge);
  std::vector<double> height(count);
  std::vector<double> distance(count);
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t cell = Strip::inward(edge, i);
    height[i] = strip.height[cell] + face_removed;
    distance[i] = std::abs(strip.x(cell) - strip.line(edge));
  }
  const EdgeProfile profile{distance, height};
  EdgeShape shape;
  if (edge.reach > 0) {
    shape.burr_height =
        *std::max_element(height.begin(), height.begin() + static_cast<std::ptrdiff_t>(edge.reach));
  }
  shape.drop = edge_drop(profile);
  const bool hangs = edge.lip && !edge.broken_off;
  if (shape.drop >= 0.0 && !hangs) {
    // As far as a millimetre, or more where the edge lost much: the circle then lies well inside.
    shape.rounding = edge_radius(profile, 1.0 + 4.0 * shape.drop);
    shape.extents = edge_extents(profile);
    if (shape.extents) shape.minimum_radius = minimum_radius(profile, *shape.extents);
  }
  if (coated) read_coating(strip, edge, profile, bare_below, shape);
  return shape;
}

}  // namespace drumlin::sim::line
