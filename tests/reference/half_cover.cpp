#include "tests/reference/half_cover.hpp"

#include <cmath>
#include <numbers>

namespace drumlin::reference {

CoverMesh mesh_of(const HalfCover& cover) {
  const double r = cover.radius;
  const double t = cover.thickness;
  const double half_width = std::sqrt(2.0 * r * cover.interference);
  const double fine = half_width / cover.elements;
  const double length = cover.curved ? std::numbers::pi * r : cover.flat_length;
  const double coarse = cover.curved ? 0.12 * r : 0.5 * t;
  return cover_mesh(
      graded(0.0, 0.0, length,
             {.fine = fine, .zone = 1.3 * half_width, .growth = 1.25, .coarse = coarse}),
      graded(0.0, 0.0, t, {.fine = fine, .zone = 2.0 * fine, .growth = 1.25, .coarse = t / 8.0}),
      cover.curved ? 1.0 / r : 0.0);
}

double overlap(const HalfCover& cover, const CoverMesh& mesh, std::size_t place) {
  const double s = mesh.arc[place];
  return cover.interference -
         (cover.curved ? mesh.nodes[mesh.surface[place]].y : s * s / (2.0 * cover.radius));
}

Nip nip_of(const CoverMesh& mesh, const NodalContact& contact) {
  return {.line_load = 2.0 * contact.load,
          .half_width = contact_end(mesh, contact),
          .peak = nodal_pressure(mesh, contact, 0)};
}

NodalContact press_small(const HalfCover& cover, const CoverMesh& mesh, const Material& material) {
  // An incompressible layer rises beside the nip: it may touch beyond the geometric half-width.
  const auto candidates =
      surface_near(mesh, 0.0, 1.5 * std::sqrt(2.0 * cover.radius * cover.interference));
  std::vector<double> overlaps;
  overlaps.reserve(candidates.size());
  for (const std::size_t place : candidates)
    overlaps.push_back(overlap(cover, mesh, place));
  return touch(mesh, flexibility(stiffness(mesh, material), mesh, candidates), candidates,
               overlaps);
}

double finite_strain_ratio(const HalfCover& cover, double poisson_ratio) {
  const CoverMesh mesh = mesh_of(cover);
  Material material{.modulus = 1.0, .poisson_ratio = poisson_ratio};
  const NodalContact small = press_small(cover, mesh, material);
  material.finite_strain = true;
  const PlateContact finite = touch_plate(mesh, material, cover.interference, small.pressed, 4);
  return finite.contact.load / small.load;
}

}  // namespace drumlin::reference
