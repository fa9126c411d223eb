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

std::size_t cell_at(const StripEdge& edge, std::size_t steps_in) {
  return edge.metal > 0 ? edge.cell + steps_in : edge.cell - steps_in;
}

std::size_t readable_cells(const Strip& strip) {
  return static_cast<std::size_t>(readable / strip.spacing);
}

/// Coating thinner than this counts as bare [mm]: a hundredth of the thinnest coating class, well
/// above rounding.
constexpr double bare_below = 5e-5;

}  // namespace

EdgeRadius edge_radius(const EdgeProfile& profile, double readable_extent) {
  const auto z = profile.height;
  const double drop = std::max(0.5 * z[1] - 1.5 * z[0], 0.0);
  // Worn: lower than a tenth of what the edge line lost, or 2 um, whichever is more.
  const double worn = std::max(0.1 * drop, 2e-3);
  std::size_t last = 0;
  while (last + 1 < z.size() && z[last + 1] < -worn)
    ++last;
  const double extent = static_cast<double>(last + 1) * profile.spacing;
  const double zone = std::min(std::max({2.0 * extent, 2.0 * drop, 0.05}), readable_extent);

  // Up the flank, over the edge line and along the face.
  std::vector<Point> points;
  const auto flank = static_cast<std::size_t>(std::max((zone - drop) / profile.spacing, 0.0));
  for (std::size_t i = flank + 1; i-- > 0;) {
    points.push_back({0.0, -drop - static_cast<double>(i) * profile.spacing});
  }
  for (std::size_t i = 0; i < z.size(); ++i) {
    const double u = (static_cast<double>(i) + 0.5) * profile.spacing;
    if (u > zone) break;
    points.push_back({u, z[i]});
  }

  const auto mean_square = [&](double r) {
    double sum = 0.0;
    double weight = 0.0;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
      const double length =
          std::hypot(points[i + 1].u - points[i].u, points[i + 1].z - points[i].z);
      const double d = distance(points[i], r);
      sum += length * d * d;
      weight += length;
    }
    return sum / weight;
  };
  // Half the digits are what a minimum can give; 1e-6 of a millimetre is plenty.
  const auto best = boost::math::tools::brent_find_minima(mean_square, 0.0, zone, 26);
  return {best.first, std::sqrt(best.second)};
}

double coating_left(const Strip& strip, const StripEdge& edge, double beyond) {
  const auto from =
      std::max(static_cast<std::size_t>(std::ceil(beyond / strip.spacing - 1e-9)), edge.reach);
  double least = strip.coating[cell_at(edge, from)];
  for (std::size_t i = from; i < readable_cells(strip); ++i) {
    least = std::min(least, strip.coating[cell_at(edge, i)]);
  }
  return least;
}

EdgeShape edge_shape(const Strip& strip, const StripEdge& edge, double face_removed, bool coated) {
  const std::size_t count = readable_cells(strip);
  std::vector<double> profile(count);
  for (std::size_t i = 0; i < count; ++i) {
    profile[i] = strip.height[cell_at(edge, i)] + face_removed;
  }
  EdgeShape shape;
  if (edge.reach > 0) {
    shape.burr_height = *std::max_element(
        profile.begin(), profile.begin() + static_cast<std::ptrdiff_t>(edge.reach));
  }
  // To the edge line itself, half a cell beyond the outermost cell's middle.
  shape.drop = 0.5 * profile[1] - 1.5 * profile[0];
  // As far as a millimetre, or more where the edge lost much: the circle then lies well inside.
  if (shape.drop >= 0.0) {
    shape.rounding = edge_radius({strip.spacing, profile}, 1.0 + 4.0 * shape.drop);
  }
  if (coated) {
    shape.coating_left = coating_left(strip, edge, 0.0);
    std::size_t bare = 0;
    while (bare < count && strip.coating[cell_at(edge, bare)] < bare_below)
      ++bare;
    if (bare < count) shape.bare_length = static_cast<double>(bare) * strip.spacing;
  }
  return shape;
}

}  // namespace drumlin::sim::line
