#pragma once

#include <array>
#include <cstddef>
#include <vector>

namespace drumlin::reference {

/// A cover as finite elements: 8-node quadrilaterals in plane strain, surface down, hub up. The
/// surface touches y = 0 at s = 0, and a plate comes from below.
struct CoverMesh {
  struct Node {
    double x, y;  ///< [mm]
  };
  std::vector<Node> nodes;
  std::vector<std::array<std::size_t, 8>> elements;  ///< corners anticlockwise, then sides
  std::vector<std::size_t> surface;                  ///< nodes by rising s; every other a corner
  std::vector<double> arc;                           ///< s of the surface nodes [mm]
  std::vector<double> reach;                         ///< integral of their shape function [mm]
  std::vector<std::size_t> hub;                      ///< bonded nodes: they do not move
  std::vector<std::size_t> mirrors;                  ///< nodes of both ends: u_x = 0
};

/// Element boundaries from `from` to `to`: size `fine` up to a distance `zone` around `focus`,
/// beyond it growing by `growth` from element to element up to `coarse`. Boundaries at `focus` and
/// both ends.
struct Grading {
  double fine, zone, growth, coarse;
};
[[nodiscard]] std::vector<double> graded(double from, double focus, double to, const Grading& how);

/// Cover between the boundaries `arcs` (along the surface) and `depths` (0 at the surface, t at the
/// hub). Curvature 1/R of the surface: 0 gives the flat layer, else the annulus on its hub.
[[nodiscard]] CoverMesh cover_mesh(const std::vector<double>& arcs,
                                   const std::vector<double>& depths, double curvature);

}  // namespace drumlin::reference
