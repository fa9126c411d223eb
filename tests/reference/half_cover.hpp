#pragma once

#include "tests/reference/nodal_contact.hpp"

namespace drumlin::reference {

/// Drum pressed on a plate, both sides alike: half of the cover, from the middle of the nip on.
struct HalfCover {
  double radius = 100.0;       ///< R [mm]
  double thickness = 15.0;     ///< t [mm]
  double interference = 0.5;   ///< delta [mm]
  bool curved = true;          ///< annulus on its hub, half round; else flat layer and parabola
  double elements = 40;        ///< within the geometric half-width sqrt(2 R delta)
  double flat_length = 160.0;  ///< of the flat layer [mm]: half the period
};

[[nodiscard]] CoverMesh mesh_of(const HalfCover& cover);

/// How much a surface node overlaps the plate (curved) or the parabola [mm], by place.
[[nodiscard]] double overlap(const HalfCover& cover, const CoverMesh& mesh, std::size_t place);

/// What is compared with drumlin.
struct Nip {
  double line_load = 0;   ///< both halves [N/mm]
  double half_width = 0;  ///< [mm]
  double peak = 0;        ///< [MPa], middle node
};
[[nodiscard]] Nip nip_of(const CoverMesh& mesh, const NodalContact& contact);

/// Contact under small strain at undeformed places, with CalculiX's stiffness matrix.
[[nodiscard]] NodalContact press_small(const HalfCover& cover, const CoverMesh& mesh,
                                       const Material& material);

/// Line load of a neo-Hookean drum on a plate over that of the linear one on the same mesh [-].
[[nodiscard]] double finite_strain_ratio(const HalfCover& cover, double poisson_ratio);

}  // namespace drumlin::reference
