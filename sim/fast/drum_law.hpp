#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "sim/fast/half_nip.hpp"
#include "sim/fast/line_kernel.hpp"

namespace drumlin::sim::fast {

/// Pressure over half a nip in cells from the axis outwards; the other half mirrors it.
struct NipShape {
  Eigen::VectorXd edge;      ///< [mm] one more than there are cells, from 0
  Eigen::VectorXd pressure;  ///< [MPa]
  /// What a further unit of interference adds while the contact stays as wide [MPa/mm].
  Eigen::VectorXd stiffness;
};

/// A drum pressed on a plain, unworn face: line load, width and peak from interference, and back.
///
/// `HalfNip` gives load and slope where each of its cells starts to carry; between these runs a
/// cubic in logarithms. Below the first a drum without belt follows Hertz with the kernel's own
/// constant, delta = P' (k_0 - 2/(pi E*) (ln(a/2) - 1/2)), a^2 = 4 P' R / (pi E*), so that limit is
/// exact; so is the bonded foundation, which the compliance holds at q -> 0.
///
/// Line load within 2 % of the exact kernel for nu 0.45 to 0.4999, R 50 to 250 mm, cover 5 to 40
/// mm, interference 0.02 mm to a fifth of the cover; what was seen stands in
/// models/theory/fast_model.md.
class DrumLaw {
 public:
  /// @param bending  D [N mm] of the belt: with it pressure peaks at the contact's ends.
  /// @param deepest  interference up to which the law is laid out [mm]; a power law goes on from
  ///                 there.
  /// @throws NumericsError where the belt is too stiff for the kernel's digits.
  DrumLaw(const LineKernel& kernel, const DrumFace& drum, double bending, double deepest);
  /// Between laws of drums that differ in their compliance alone: kernels and nips summed with
  /// shares that interpolate.
  /// @throws NumericsError where some have a belt that ends the half-space's limit and some not.
  DrumLaw(std::span<const DrumLaw* const> of, std::span<const double> shares);

  [[nodiscard]] double line_load(double interference) const noexcept;        ///< P' [N/mm]
  [[nodiscard]] double line_load_slope(double interference) const noexcept;  ///< [N/mm^2]
  /// delta [mm] that carries a line load: inverts `line_load` to 1e-12.
  [[nodiscard]] double interference(double line_load) const noexcept;
  [[nodiscard]] double half_width(double interference) const noexcept;  ///< a [mm], to 2.5 %
  /// Highest pressure [MPa], in the middle or, under a belt that bends, at the ends. A bending belt
  /// costs a solve of its own, on cells that follow the ends.
  [[nodiscard]] double peak_pressure(double interference) const;
  /// Pressure cell by cell, as coarse as the law's own cells.
  [[nodiscard]] NipShape shape(double interference) const;

  [[nodiscard]] double deepest() const noexcept { return deepest_; }
  [[nodiscard]] const DrumFace& drum() const noexcept { return drum_; }
  [[nodiscard]] const LineKernel& kernel() const noexcept { return kernel_; }
  /// Whether the kernel is.
  [[nodiscard]] bool symmetric() const noexcept { return kernel_.symmetric(); }

 private:
  struct Node {  // where a cell starts to carry
    double log_interference, log_load;
    double exponent;  // d ln P' / d ln delta
    double log_half_width;
  };
  struct Point {
    double log_load, exponent;
  };
  void add_nodes();
  /// Between nodes k and k + 1, at u = ln delta.
  [[nodiscard]] Point along(std::size_t k, double u) const noexcept;
  [[nodiscard]] Point below_cells(double interference) const noexcept;
  [[nodiscard]] Point point(double interference) const noexcept;
  [[nodiscard]] bool bare() const noexcept;
  [[nodiscard]] double hertz_interference(double line_load) const noexcept;
  [[nodiscard]] double hertz_load(double interference) const noexcept;
  [[nodiscard]] std::size_t interval(double value, double Node::*of) const noexcept;

  LineKernel kernel_;
  DrumFace drum_;
  double bending_;
  double deepest_;
  double spread_;  // (4 D c_g)^(1/4) [mm]: over it belt and grains spread a sharp load
  HalfNip nip_;
  std::vector<Node> nodes_;
  double hertz_excess_ = 0;  // load at the first node over Hertz's, less 1; 0 where it is not Hertz
};

}  // namespace drumlin::sim::fast
