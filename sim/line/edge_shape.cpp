#include "sim/line/edge_shape.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <boost/math/tools/minima.hpp>

#include "sim/line/surface.hpp"

namespace drumlin::sim::line {
namespace {

struct Point {
  double u;  ///< from the edge line into the metal [mm]
  double z;  ///< over the worn face [mm]
};

/// Distance of a point from a corner rounded with radius r, positive outside the metal.
double distance(const Point& point, double r) {
  if (point.u < r && point.z > -r) return std::hypot(point.u - r, point.z + r) - r;
  return point.u >= r ? point.z : -point.u;
}

/// Cells of an edge that are fully worn and may be read, counted inwards.
std::size_t readable_cells(const Strip& strip, const StripEdge& edge) {
  std::size_t count = 0;
  while (std::abs(strip.x(Strip::inward(edge, count)) - strip.line(edge)) < readable)
    ++count;
  return count;
}

/// Near and far bound of a cell, as distances from the edge line.
double near_bound(const Strip& strip, const StripEdge& edge, std::size_t steps_in) {
  const std::size_t cell = Strip::inward(edge, steps_in);
  return std::abs(strip.x(cell) - strip.line(edge)) - 0.5 * strip.width(cell);
}

/// Height at the edge line itself, half a cell beyond the outermost cell's middle.
double at_line(const EdgeProfile& profile) {
  const auto u = profile.distance;
  const auto z = profile.height;
  return z[0] - (z[1] - z[0]) / (u[1] - u[0]) * u[0];
}

/// Coating thinner than this counts as bare [mm]: a hundredth of the thinnest coating class, well
/// above rounding.
constexpr double bare_below = 5e-5;

}  // namespace

EdgeRadius edge_radius(const EdgeProfile& profile, double readable_extent) {
  const auto u = profile.distance;
  const auto z = profile.height;
  const double drop = std::max(-at_line(profile), 0.0);
  // Worn: lower than a tenth of what the edge line lost, or 2 um, whichever is more.
  const double worn = std::max(0.1 * drop, 2e-3);
  std::size_t last = 0;
  while (last + 1 < z.size() && z[last + 1] < -worn)
    ++last;
  const double extent = last + 1 < u.size() ? 0.5 * (u[last] + u[last + 1]) : u[last];
  const double zone = std::min(std::max({2.0 * extent, 2.0 * drop, 0.05}), readable_extent);

  // Up the flank, over the edge line and along the face.
  const double spacing = 2.0 * u[0];
  std::vector<Point> points;
  const auto flank = static_cast<std::size_t>(std::max((zone - drop) / spacing, 0.0));
  for (std::size_t i = flank + 1; i-- > 0;) {
    points.push_back({0.0, -drop - static_cast<double>(i) * spacing});
  }
  for (std::size_t i = 0; i < z.size() && u[i] <= zone; ++i)
    points.push_back({u[i], z[i]});

  const auto mean_square = [&](double r) {
    double sum = 0.0;
    double weight = 0.0;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
      const double length =
          std::hypot(points[i + 1].u - points[i].u, points[i + 1].z - points[i].z);
      const double here = distance(points[i], r);
      const double next = distance(points[i + 1], r);
      sum += length * 0.5 * (here * here + next * next);
      weight += length;
    }
    return sum / weight;
  };
  // Half the digits are what a minimum can give; 1e-6 of a millimetre is plenty.
  const auto best = boost::math::tools::brent_find_minima(mean_square, 0.0, zone, 26);
  return {best.first, std::sqrt(best.second)};
}

double coating_left(const Strip& strip, const StripEdge& edge, double beyond) {
  std::size_t from = edge.reach;
  while (near_bound(strip, edge, from) < beyond - 1e-9)
    ++from;
  double least = strip.coating[Strip::inward(edge, from)];
  for (std::size_t i = from; i < readable_cells(strip, edge); ++i)
    least = std::min(least, strip.coating[Strip::inward(edge, i)]);
  return least;
}

EdgeShape edge_shape(const Strip& strip, const StripEdge& edge, double face_removed, bool coated) {
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
  shape.drop = -at_line(profile);
  // As far as a millimetre, or more where the edge lost much: the circle then lies well inside.
  if (shape.drop >= 0.0) shape.rounding = edge_radius(profile, 1.0 + 4.0 * shape.drop);
  if (coated) {
    shape.coating_left = coating_left(strip, edge, 0.0);
    std::size_t bare = 0;
    while (bare < count && strip.coating[Strip::inward(edge, bare)] < bare_below)
      ++bare;
    if (bare < count) shape.bare_length = near_bound(strip, edge, bare);
  }
  return shape;
}

}  // namespace drumlin::sim::line
