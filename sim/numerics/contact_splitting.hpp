#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "sim/numerics/contact_solver.hpp"

namespace drumlin::sim {

/// The symmetric part of a compliance over a step length: what one step of the splitting solves
/// for.
template <class C>
class SymmetricPart {
 public:
  using AlwaysSymmetric = void;
  SymmetricPart(C& whole, double step) : whole_(whole), stiffer_(1.0 / step) {}
  [[nodiscard]] std::size_t size() const noexcept { return whole_.size(); }
  [[nodiscard]] bool symmetric() const noexcept { return true; }
  [[nodiscard]] double skewness() const noexcept { return 0.0; }
  [[nodiscard]] std::span<const double> weights() const noexcept { return whole_.weights(); }
  void apply(std::span<const double> pressure, std::span<double> displacement) {
    whole_.apply_symmetric(pressure, displacement);
    for (double& u : displacement)
      u *= stiffer_;
  }
  void apply_free(std::span<const double> pressure, std::span<double> displacement) {
    apply(pressure, displacement);
  }
  void apply_symmetric(std::span<const double> pressure, std::span<double> displacement) {
    apply(pressure, displacement);
  }
  void prepare(std::span<const std::uint8_t> free, std::span<const double> slope) {
    whole_.prepare(free, slope);
  }
  void precondition(std::span<const double> residual, std::span<double> result) {
    whole_.precondition(residual, result);
  }

 private:
  C& whole_;
  double stiffer_;
};

/// Forward-backward splitting: with S the symmetric part of C, each step solves the convex problem
///
///     p' >= 0,  S p' / s + w(p') - (overlap - C p + S p / s) >= 0,  complementary.
///
/// In the norm of S, C is strongly monotone with constant 1 and Lipschitz with L^2 = 1 + k^2, k the
/// largest skew over symmetric part, so s = 1 / L^2 contracts by 1 - 1 / L^2 a step whatever the
/// start (Lions and Mercier 1979, SIAM J. Numer. Anal. 16, 964).
template <Compliance C, class Give>
void ContactSolver::split(C& compliance, std::span<const double> overlap,
                          std::span<const std::uint8_t> metal, const Give& give,
                          std::span<double> pressure, const ContactTolerance& tolerance,
                          ContactReport& report) {
  const std::vector<double> start(pressure.begin(), pressure.end());
  std::vector<double> next(start);
  std::vector<double> shifted(start.size());
  std::vector<double> even(start.size());
  ContactSolver convex;
  const double step = 1.0 / (1.0 + compliance.skewness() * compliance.skewness());
  for (int k = 0; k < tolerance.splitting_steps; ++k) {
    if (report.applications >= tolerance.applications || std::isnan(report.residual)) return;
    compliance.apply(pressure, displacement_);
    compliance.apply_symmetric(pressure, even);
    for (std::size_t i = 0; i < shifted.size(); ++i)
      shifted[i] = overlap[i] - displacement_[i] + even[i] / step;
    SymmetricPart<C> part(compliance, step);
    ContactTolerance inner = tolerance;
    inner.gap = 0.3 * tolerance.gap;
    inner.applications -= report.applications;
    // Each problem is close to the one before: downhill from there at once.
    inner.free_steps = inner.single_steps = 0;
    const ContactReport solved = convex.solve(part, shifted, metal, give, next, inner);
    report.applications += solved.applications + 2;
    std::copy(next.begin(), next.end(), pressure.begin());
    compliance.apply(pressure, displacement_);
    report.residual = assess(overlap, metal, give, pressure);
    report.converged = report.residual <= tolerance.gap;
    ++report.newton_steps;
    if (report.converged) return;
  }
}

}  // namespace drumlin::sim
