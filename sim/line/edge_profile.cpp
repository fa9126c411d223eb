#include "sim/line/edge_profile.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

#include <boost/math/tools/minima.hpp>

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

/// Distance from the edge line at which the profile, followed from there, comes up to a depth; none
/// if it does not.
std::optional<double> comes_up_to(const EdgeProfile& profile, double depth) {
  const auto u = profile.distance;
  const auto z = profile.height;
  Point before{0.0, -edge_drop(profile)};
  if (before.z >= -depth) return 0.0;
  for (std::size_t i = 0; i < z.size(); ++i) {
    if (z[i] >= -depth)
      return before.u + (u[i] - before.u) * (-depth - before.z) / (z[i] - before.z);
    before = {u[i], z[i]};
  }
  return std::nullopt;
}

/// Depth of the profile at a distance from the edge line.
double depth_at(const EdgeProfile& profile, double at) {
  const auto u = profile.distance;
  const auto z = profile.height;
  std::size_t i = 1;
  while (i + 1 < u.size() && u[i] < at)
    ++i;
  return -(z[i - 1] + (z[i] - z[i - 1]) * (at - u[i - 1]) / (u[i] - u[i - 1]));
}

/// Three places read across a worn zone at offsets t, 2 t and 4 t from where it ends in the other
/// direction, carried on to offset 0.
///
/// @param other  extent of the zone in the direction of the offsets.
double carried_on(double t, const std::array<double, 3>& place, double other) {
  // A zone no longer than what is read across it tells nothing of its shape.
  if (4.0 * t >= other) return place[0];
  const auto effective = [&](double offset) { return offset - offset * offset / (2.0 * other); };
  const double near = place[0] - place[1];
  const double far = place[0] - place[2];
  if (!(near > 0.0) || !(far > 0.0)) return place[0];
  const double z1 = effective(t);
  const double z2 = effective(2.0 * t);
  const double z3 = effective(4.0 * t);
  const auto ratio = [&](double m) {
    const double first = std::pow(z1, m);
    return (std::pow(z3, m) - first) / (std::pow(z2, m) - first);
  };
  double low = 0.5;
  double high = 1.0;
  const double seen = far / near;
  if (seen <= ratio(low)) high = low;
  if (seen >= ratio(high)) low = high;
  // The ratio rises with the exponent; 30 halvings leave 1e-9 of it.
  for (int k = 0; k < 30; ++k) {
    const double middle = 0.5 * (low + high);
    (ratio(middle) < seen ? low : high) = middle;
  }
  const double m = 0.5 * (low + high);
  return place[0] + near * std::pow(z1, m) / (std::pow(z2, m) - std::pow(z1, m));
}

/// The worn section as one line: up the flank, over the edge and along the face.
std::vector<Point> outline(const EdgeProfile& profile, double flank_from, double flank_length,
                           double spacing, double face_length) {
  std::vector<Point> points;
  const auto count = static_cast<std::size_t>(std::max(flank_length / spacing, 0.0));
  for (std::size_t i = count + 1; i-- > 0;)
    points.push_back({0.0, -flank_from - static_cast<double>(i) * spacing});
  for (std::size_t i = 0; i < profile.height.size() && profile.distance[i] <= face_length; ++i)
    points.push_back({profile.distance[i], profile.height[i]});
  return points;
}

/// Radius of the circle through three points.
double circle(const Point& a, const Point& b, const Point& c) {
  const double ab = std::hypot(b.u - a.u, b.z - a.z);
  const double bc = std::hypot(c.u - b.u, c.z - b.z);
  const double ac = std::hypot(c.u - a.u, c.z - a.z);
  const double twice_area = std::abs((b.u - a.u) * (c.z - a.z) - (c.u - a.u) * (b.z - a.z));
  if (twice_area <= 1e-12 * ab * bc) return std::numeric_limits<double>::infinity();
  return ab * bc * ac / (2.0 * twice_area);
}

/// Smallest circle through points of a line a length `scale` apart along it.
double smallest_circle(const std::vector<Point>& line, double scale) {
  std::vector<double> arc(line.size(), 0.0);
  for (std::size_t i = 1; i < line.size(); ++i)
    arc[i] = arc[i - 1] + std::hypot(line[i].u - line[i - 1].u, line[i].z - line[i - 1].z);
  std::size_t k = 0;
  const auto at = [&](double s) {
    while (k > 0 && arc[k] > s)
      --k;
    while (k + 2 < arc.size() && arc[k + 1] < s)
      ++k;
    const double share = (s - arc[k]) / (arc[k + 1] - arc[k]);
    return Point{line[k].u + share * (line[k + 1].u - line[k].u),
                 line[k].z + share * (line[k + 1].z - line[k].z)};
  };
  double least = std::numeric_limits<double>::infinity();
  // An eighth of the scale is fine enough to find a corner's own circle to 1 %.
  for (double s = scale; s + scale < arc.back(); s += 0.125 * scale)
    least = std::min(least, circle(at(s - scale), at(s), at(s + scale)));
  return least;
}

}  // namespace

double edge_drop(const EdgeProfile& profile) {
  const auto u = profile.distance;
  const auto z = profile.height;
  return (z[1] - z[0]) / (u[1] - u[0]) * u[0] - z[0];
}

EdgeRadius edge_radius(const EdgeProfile& profile, double readable_extent) {
  const auto u = profile.distance;
  const auto z = profile.height;
  const double drop = std::max(edge_drop(profile), 0.0);
  // Worn: lower than a tenth of what the edge line lost, or 2 um, whichever is more.
  const double worn = std::max(0.1 * drop, 2e-3);
  std::size_t last = 0;
  while (last + 1 < z.size() && z[last + 1] < -worn)
    ++last;
  const double extent = last + 1 < u.size() ? 0.5 * (u[last] + u[last + 1]) : u[last];
  const double zone = std::min(std::max({2.0 * extent, 2.0 * drop, 0.05}), readable_extent);
  const std::vector<Point> points = outline(profile, drop, zone - drop, 2.0 * u[0], zone);

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

std::optional<EdgeExtents> edge_extents(const EdgeProfile& profile) {
  constexpr double no_drop = 1e-3;
  const double drop = edge_drop(profile);
  if (drop < no_drop) return EdgeExtents{};
  const double depth = std::max(0.05 * drop, std::min(2e-3, 0.125 * drop));
  std::array<double, 3> place{};
  for (std::size_t k = 0; k < place.size(); ++k) {
    const auto up = comes_up_to(profile, depth * static_cast<double>(1U << k));
    if (!up) return std::nullopt;
    place[k] = *up;
  }
  // Each extent is carried on with the other; twice is enough, they hardly speak to each other.
  EdgeExtents extents{.face = carried_on(depth, place, drop), .flank = drop};
  for (int round = 0; round < 2; ++round) {
    // Next to the flank an arc is too steep for a cell's mean to stand for its middle.
    const double inset = std::max(3.0 * profile.distance[0], 0.04 * extents.face);
    const std::array<double, 3> depths{depth_at(profile, inset), depth_at(profile, 2.0 * inset),
                                       depth_at(profile, 4.0 * inset)};
    extents.flank = std::max(carried_on(inset, depths, extents.face), drop);
    extents.face = carried_on(depth, place, extents.flank);
  }
  if (extents.face > profile.distance.back()) return std::nullopt;
  return extents;
}

double minimum_radius(const EdgeProfile& profile, const EdgeExtents& extents) {
  const double cell = 2.0 * profile.distance[0];
  const double scale = std::max(4.0 * cell, 0.25 * std::min(extents.face, extents.flank));
  const std::vector<Point> line =
      outline(profile, extents.flank, 8.0 * scale, cell, extents.face + 8.0 * scale);
  return std::max(2.0 * smallest_circle(line, scale) - smallest_circle(line, 2.0 * scale), 0.0);
}

}  // namespace drumlin::sim::line
