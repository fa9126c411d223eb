#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "sim/fast/line_kernel.hpp"

namespace drumlin::sim::fast {

/// Outside of the drum as it meets a plain face.
struct DrumFace {
  double radius = 0;            ///< R [mm]
  bool circular = false;        ///< gap R (1 - cos(s / R)); else the parabola s^2 / (2 R)
  double grain_compliance = 0;  ///< c_g [mm/MPa]
};

/// Gap between drum and face, integrated from the axis to a distance [mm^2].
[[nodiscard]] inline double gap_integral(const DrumFace& drum, double distance) noexcept {
  // Reciprocals: a division costs ten times what a product does, and this is asked for at every
  // cell of every step.
  const double curvature = 1.0 / drum.radius;
  const double square = distance * distance;
  const double cube = square * distance * (curvature * (1.0 / 6.0));
  if (!drum.circular) return cube;
  // s - sin s by its series: nips reach angles of a few tenths, where the difference cancels.
  const double s2 = square * (curvature * curvature);
  return cube * (1.0 - s2 * (1.0 / 20.0) *
                           (1.0 - s2 * (1.0 / 42.0) *
                                      (1.0 - s2 * (1.0 / 72.0) * (1.0 - s2 * (1.0 / 110.0)))));
}

/// Half a symmetric nip in cells of constant pressure from the axis outwards, ready for every
/// interference.
///
/// Galerkin: A p = delta w - g on the pressed cells, A the kernel averaged over pairs of cells, w
/// their widths, g the gap's integrals. The contact grows outwards, so one factorisation A = L L'
/// serves every width: with y_w = L^-1 w, y_g = L^-1 g, cell k starts to carry at
/// delta_k = y_g[k] / y_w[k], and P'(delta) = 2 sum_k y_w[k]^2 (delta - delta_k)+.
class HalfNip {
 public:
  /// @param edges  of the cells [mm], from 0 upwards.
  HalfNip(const LineKernel& kernel, const DrumFace& drum, const std::vector<double>& edges);
  /// Sum of nips in the same cells, factor by factor: between drums that differ little in one
  /// number, with shares that interpolate in it.
  HalfNip(std::span<const HalfNip* const> of, std::span<const double> shares);

  [[nodiscard]] Eigen::Index size() const noexcept { return width.size(); }
  /// Cells that carry at an interference.
  [[nodiscard]] Eigen::Index pressed(double interference) const noexcept;
  /// Pressure of the cells that carry [MPa].
  [[nodiscard]] Eigen::VectorXd pressure(double interference) const;
  /// What a further unit of interference adds to it while the same cells carry [MPa/mm].
  [[nodiscard]] Eigen::VectorXd stiffness(Eigen::Index cells) const;

  Eigen::VectorXd edge;      ///< [mm], one more than there are cells
  Eigen::VectorXd width;     ///< [mm]
  Eigen::VectorXd response;  ///< y_w
  Eigen::VectorXd start;     ///< delta_k [mm]

 private:
  Eigen::MatrixXd factor_;
  Eigen::VectorXd opening_;
};

}  // namespace drumlin::sim::fast
