#include "tests/reference/cover_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace drumlin::reference {
namespace {

/// Boundaries at rising distances from 0 to `length`.
std::vector<double> outwards(double length, const Grading& how) {
  std::vector<double> at = {0.0};
  double size = how.fine;
  while (at.back() < length - 0.5 * size) {
    at.push_back(at.back() + size);
    if (at.back() >= how.zone) size = std::min(size * how.growth, how.coarse);
  }
  // The last boundary is put to the end, the others stretched with it: at most by half an element.
  if (at.size() < 2) at.push_back(length);
  if (at.back() > how.zone) {
    const double stretch = (length - how.zone) / (at.back() - how.zone);
    for (double& x : at)
      if (x > how.zone) x = how.zone + (x - how.zone) * stretch;
  } else {
    const double stretch = length / at.back();
    for (double& x : at)
      x *= stretch;
  }
  return at;
}

std::vector<double> with_middles(const std::vector<double>& at) {
  std::vector<double> all;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    all.push_back(at[i]);
    all.push_back(0.5 * (at[i] + at[i + 1]));
  }
  all.push_back(at.back());
  return all;
}

constexpr auto no_node = static_cast<std::size_t>(-1);

CoverMesh::Node place(double s, double z, double curvature) {
  if (curvature <= 0.0) return {s, z};
  const double radius = 1.0 / curvature - z;
  const double half = std::sin(0.5 * s * curvature);
  return {radius * std::sin(s * curvature), z + 2.0 * radius * half * half};
}

/// Nodes row by row from the surface up; returns their numbers, none in the middle of an element.
std::vector<std::size_t> add_nodes(CoverMesh& mesh, const std::vector<double>& s,
                                   const std::vector<double>& z, double curvature) {
  std::vector<std::size_t> number(s.size() * z.size(), no_node);
  for (std::size_t j = 0; j < z.size(); ++j) {
    for (std::size_t i = 0; i < s.size(); ++i) {
      if (i % 2 == 1 && j % 2 == 1) continue;
      const std::size_t node = mesh.nodes.size();
      number[j * s.size() + i] = node;
      mesh.nodes.push_back(place(s[i], z[j], curvature));
      const bool end = i == 0 || i + 1 == s.size();
      if (j == 0) mesh.surface.push_back(node);
      if (j + 1 == z.size()) {
        mesh.hub.push_back(node);
      } else if (end) {
        mesh.mirrors.push_back(node);
      }
    }
  }
  return number;
}

std::vector<double> reach_of(const std::vector<double>& s) {
  std::vector<double> reach(s.size(), 0.0);
  for (std::size_t i = 0; i + 2 < s.size(); i += 2) {
    const double size = s[i + 2] - s[i];
    reach[i] += size / 6.0;
    reach[i + 1] += 2.0 * size / 3.0;
    reach[i + 2] += size / 6.0;
  }
  return reach;
}

}  // namespace

std::vector<double> graded(double from, double focus, double to, const Grading& how) {
  std::vector<double> at;
  if (from < focus) {
    for (const double d : outwards(focus - from, how))
      at.push_back(focus - d);
    at.erase(at.begin());
    std::reverse(at.begin(), at.end());
  }
  for (const double d : outwards(to - focus, how))
    at.push_back(focus + d);
  return at;
}

CoverMesh cover_mesh(const std::vector<double>& arcs, const std::vector<double>& depths,
                     double curvature) {
  if (arcs.size() < 2 || depths.size() < 2) throw std::invalid_argument("cover_mesh: no element");
  const std::vector<double> z = with_middles(depths);
  CoverMesh mesh;
  mesh.arc = with_middles(arcs);
  mesh.reach = reach_of(mesh.arc);
  const std::size_t width = mesh.arc.size();
  const std::vector<std::size_t> number = add_nodes(mesh, mesh.arc, z, curvature);
  for (std::size_t j = 0; j + 2 < z.size(); j += 2) {
    for (std::size_t i = 0; i + 2 < width; i += 2) {
      const auto at = [&](std::size_t di, std::size_t dj) {
        return number[(j + dj) * width + i + di];
      };
      mesh.elements.push_back(
          {at(0, 0), at(2, 0), at(2, 2), at(0, 2), at(1, 0), at(2, 1), at(1, 2), at(0, 1)});
    }
  }
  return mesh;
}

}  // namespace drumlin::reference
