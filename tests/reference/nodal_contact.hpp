#pragma once

#include <functional>
#include <vector>

#include <Eigen/Dense>

#include "tests/reference/calculix.hpp"

namespace drumlin::reference {

/// Contact of the cover's surface nodes with something rigid and smooth: no node pulls, none
/// overlaps.
struct NodalContact {
  std::vector<bool> pressed;
  std::vector<double> force;  ///< of each surface node [N/mm]
  double load = 0;            ///< sum of them
};

/// Vertical rise of the surface nodes `candidates` under vertical unit forces on them [mm^2/N].
[[nodiscard]] Eigen::MatrixXd flexibility(const Stiffness& k, const CoverMesh& mesh,
                                          const std::vector<std::size_t>& candidates);

/// Places in `mesh.surface` with |s| within `span` of `middle`.
[[nodiscard]] std::vector<std::size_t> surface_near(const CoverMesh& mesh, double middle,
                                                    double span);

/// Contact under small strain, each node at its undeformed place.
///
/// @param candidates  places in `mesh.surface` that may touch; no other does.
/// @param overlap     what each candidate has to rise by where it touches [mm].
[[nodiscard]] NodalContact touch(const CoverMesh& mesh, const Eigen::MatrixXd& flexibility,
                                 const std::vector<std::size_t>& candidates,
                                 const std::vector<double>& overlap);

/// Contact with a plate, and the surface as CalculiX left it.
struct PlateContact {
  NodalContact contact;
  SurfaceState state;
  int runs = 0;  ///< of CalculiX
};

/// Contact with a flat plate at height `interference` by repeated runs of CalculiX, until no
/// pressed node pulls and no free one lies below the plate where it is now. Exact under finite
/// strain too: on a flat plate a touching node keeps the plate's height wherever it slides.
///
/// @param start       the set to start from.
/// @param increments  in how many parts a nonlinear run takes its way.
[[nodiscard]] PlateContact touch_plate(const CoverMesh& mesh, const Material& material,
                                       double interference, std::vector<bool> start,
                                       int increments);

/// Mean pressure that a node stands for [MPa].
[[nodiscard]] double nodal_pressure(const CoverMesh& mesh, const NodalContact& contact,
                                    std::size_t place);

/// Where the pressure ends on the side of rising s [mm]: towards a smooth end the load still to
/// come falls with the power 3/2 of the distance.
[[nodiscard]] double contact_end(const CoverMesh& mesh, const NodalContact& contact);

}  // namespace drumlin::reference
