#pragma once

#include <functional>
#include <vector>

#include "models/belt/nip_compliance.hpp"
#include "sim/numerics/line_response.hpp"
#include "tests/reference/half_cover.hpp"

namespace drumlin::reference {

/// What is pressed into the cover, from left to right, and how finely drumlin's kernel sees it.
struct Row {
  double from = 0, to = 0;  ///< [mm], cells between
  std::size_t cells = 0;
  double window = 320.0;                  ///< period of the kernel [mm]
  std::function<double(double)> overlap;  ///< [mm] at s
  std::function<bool(double)> metal =
      nullptr;  ///< whether there is something to touch; default: all
};

/// Contact by drumlin's kernel and solver, without belt and grains.
struct KernelNip {
  double from = 0, spacing = 0;
  std::vector<double> pressure;  ///< of each cell [MPa]

  [[nodiscard]] double line_load() const;
  [[nodiscard]] double peak() const;
  [[nodiscard]] double load_between(double left, double right) const;  ///< [N/mm]
  [[nodiscard]] double end() const;  ///< where it ends on the right [mm]
};
[[nodiscard]] KernelNip press_kernel(const sim::Symbol& symbol, const Row& row);

/// The same with what the convolution leaves out on a drum of the given curvature [1/mm]: dense,
/// slow.
[[nodiscard]] KernelNip press_drum_kernel(const models::NipCompliance& kernel, double curvature,
                                          const Row& row);

/// Largest difference of the load between s = 0 and s, over all s, to the whole load [-]: how far
/// both pressure profiles lie apart, free of the noise of single nodes.
[[nodiscard]] double profile_distance(const CoverMesh& mesh, const NodalContact& contact,
                                      const KernelNip& kernel);

}  // namespace drumlin::reference
