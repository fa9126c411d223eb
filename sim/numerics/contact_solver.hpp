#pragma once

#include <algorithm>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "sim/numerics/conjugate_gradients.hpp"

namespace drumlin::sim {

/// Anything that turns pressure into displacement and knows a stand-in for its inverse.
template <class C>
concept Compliance = requires(C c, std::span<const double> in, std::span<double> out, double give) {
  c.apply(in, out);
  c.precondition(in, give, out);
  { c.size() } -> std::convertible_to<std::size_t>;
};

/// How far a cell gives on its own under its own pressure, and the slope of that.
struct LocalGive {
  double depth;  ///< [mm]
  double slope;  ///< [mm/MPa], >= 0
};

struct ContactTolerance {
  double gap = 1e-6;         ///< largest complementarity error that counts as solved [mm]
  int newton_steps = 200;    ///< cap: the guaranteed stop
  int free_steps = 12;       ///< full Newton steps before each must lower the convex function
  int gradient_steps = 400;  ///< cap on conjugate gradients inside one Newton step
};

/// What a contact solve cost and how well it ended.
struct ContactReport {
  bool converged = false;
  int newton_steps = 0;
  int applications = 0;  ///< of compliance and stand-in inverse (one transform pair each)
  double residual = 0;   ///< largest complementarity error left [mm]
};

/// Unilateral contact of a compliance with a given overlap and a local give:
///
///     find p >= 0 with  r = C p + w(p) - overlap >= 0  and  p r = 0 in every cell,
///
/// r being the gap that is left. w is monotone, so p is the minimum of a strictly convex function
/// and unique.
///
/// Method: Newton steps on the free cells (pressed, or overlapping), by conjugate gradients with a
/// Fourier stand-in for the inverse; the step is projected onto p >= 0 and followed by a search
/// along the straight line to the projected point, which lowers the convex function every time
/// (Bertsekas 1982, SIAM J. Control Optim. 20, 221: projected Newton methods, with the line search
/// made exact here by the known slopes). No step needs the function's value, so w needs no
/// integral.
///
/// Measure of convergence: the largest of |r| over pressed cells and of -r over unpressed ones, in
/// mm; it stops at `tolerance.gap` or, at the latest, after `tolerance.newton_steps`.
class ContactSolver {
 public:
  /// @param compliance  C.
  /// @param overlap     rigid overlap of drum and part [mm], per cell.
  /// @param metal       0 where there is nothing to touch.
  /// @param give        give(cell, pressure) -> LocalGive.
  /// @param pressure    in: a guess; out: p [MPa].
  template <Compliance C, class Give>
  ContactReport solve(C& compliance, std::span<const double> overlap,
                      std::span<const std::uint8_t> metal, const Give& give,
                      std::span<double> pressure, const ContactTolerance& tolerance);

  /// Displacement C p [mm] of the last solve.
  [[nodiscard]] std::span<const double> displacement() const noexcept { return displacement_; }

 private:
  void resize(std::size_t n);
  template <class Give>
  double assess(std::span<const double> overlap, std::span<const std::uint8_t> metal,
                const Give& give, std::span<const double> pressure);
  double project(std::span<const double> pressure, double length);
  template <class Give>
  double slope_along(const Give& give, std::span<const double> pressure, double share) const;
  template <class Give>
  double change(const Give& give, std::span<const double> pressure) const;
  template <class Give>
  double lowest(const Give& give, std::span<const double> pressure) const;

  std::vector<double> displacement_, residual_, slope_, give_, step_, direction_, step_effect_;
  std::vector<std::uint8_t> free_;
  bool clipped_ = false;
  ConjugateGradients inner_;
};

inline void ContactSolver::resize(std::size_t n) {
  for (auto* v :
       {&displacement_, &residual_, &slope_, &give_, &step_, &direction_, &step_effect_}) {
    v->resize(n);
  }
  free_.resize(n);
}

/// Fills residual, local slopes and the set of free cells; returns the complementarity error.
template <class Give>
double ContactSolver::assess(std::span<const double> overlap, std::span<const std::uint8_t> metal,
                             const Give& give, std::span<const double> pressure) {
  double worst = 0.0;
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    free_[i] = 0;
    if (metal[i] == 0) continue;
    const double p = pressure[i];
    const double without_give = displacement_[i] - overlap[i];
    if (p <= 0.0 && without_give >= 0.0) continue;
    const LocalGive local = give(i, p);
    give_[i] = local.depth;
    slope_[i] = local.slope;
    residual_[i] = without_give + local.depth;
    free_[i] = p > 0.0 || residual_[i] < 0.0 ? 1 : 0;
    if (free_[i] != 0) worst = std::max(worst, std::abs(residual_[i]));
  }
  return worst;
}

/// Writes the way from the pressure to its projection onto p >= 0 after `length` times the
/// direction; returns how steeply the convex function falls along it (negative: downhill).
inline double ContactSolver::project(std::span<const double> pressure, double length) {
  double downhill = 0.0;
  clipped_ = false;
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    step_[i] = 0.0;
    if (free_[i] == 0) continue;
    const double goal = pressure[i] + length * direction_[i];
    clipped_ = clipped_ || goal < 0.0;
    step_[i] = std::max(goal, 0.0) - pressure[i];
    downhill += step_[i] * residual_[i];
  }
  return downhill;
}

/// Slope of the convex function along the straight way, after a share of the step.
template <class Give>
double ContactSolver::slope_along(const Give& give, std::span<const double> pressure,
                                  double share) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    if (step_[i] == 0.0) continue;
    const double local = give(i, std::max(pressure[i] + share * step_[i], 0.0)).depth - give_[i];
    sum += step_[i] * (residual_[i] + share * step_effect_[i] + local);
  }
  return sum;
}

/// Change of the convex function over the whole step: its slope integrated by the trapezoidal rule,
/// fine enough for gives with kinks (a threshold, the end of a layer).
template <class Give>
double ContactSolver::change(const Give& give, std::span<const double> pressure) const {
  constexpr int intervals = 8;
  double sum = 0.5 * (slope_along(give, pressure, 0.0) + slope_along(give, pressure, 1.0));
  for (int k = 1; k < intervals; ++k) {
    sum += slope_along(give, pressure, static_cast<double>(k) / intervals);
  }
  return sum / intervals;
}

/// Where along the step the convex function is lowest: the root of its slope, which only rises.
template <class Give>
double ContactSolver::lowest(const Give& give, std::span<const double> pressure) const {
  double low = 0.0;
  double high = 1.0;
  double low_slope = slope_along(give, pressure, low);
  double high_slope = slope_along(give, pressure, high);
  if (high_slope <= 0.0) return 1.0;
  const double small = -1e-3 * low_slope;
  double middle = 1.0;
  for (int k = 0; k < 30; ++k) {
    const double secant = low + (high - low) * low_slope / (low_slope - high_slope);
    const double inset = 0.05 * (high - low);
    middle = std::clamp(secant, low + inset, high - inset);
    const double slope = slope_along(give, pressure, middle);
    if (std::abs(slope) <= small) break;
    (slope < 0.0 ? low : high) = middle;
    (slope < 0.0 ? low_slope : high_slope) = slope;
  }
  return middle;
}

template <Compliance C, class Give>
ContactReport ContactSolver::solve(C& compliance, std::span<const double> overlap,
                                   std::span<const std::uint8_t> metal, const Give& give,
                                   std::span<double> pressure, const ContactTolerance& tolerance) {
  resize(pressure.size());
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    pressure[i] = metal[i] != 0 ? std::max(pressure[i], 0.0) : 0.0;
  }
  ContactReport report;
  compliance.apply(pressure, displacement_);
  report.applications = 1;
  for (;; ++report.newton_steps) {
    report.residual = assess(overlap, metal, give, pressure);
    report.converged = report.residual <= tolerance.gap;
    if (report.converged || report.newton_steps >= tolerance.newton_steps) return report;
    const bool guarded = report.newton_steps >= tolerance.free_steps;
    // A fiftieth per step is enough while the set of free cells still moves.
    const double target = std::max(0.3 * tolerance.gap, 0.02 * report.residual);
    report.applications += inner_.solve(compliance, free_, slope_, residual_, direction_, target,
                                        tolerance.gradient_steps);
    double length = 1.0;
    for (int halvings = 0; halvings < 20; ++halvings, length *= 0.5) {
      const double downhill = project(pressure, length);
      if (downhill >= 0.0 && guarded) continue;
      compliance.apply(step_, step_effect_);
      ++report.applications;
      if (!guarded || change(give, pressure) < 1e-4 * downhill) break;
    }
    const double share = guarded && !clipped_ ? lowest(give, pressure) : 1.0;
    for (std::size_t i = 0; i < pressure.size(); ++i) {
      pressure[i] += share * step_[i];
      displacement_[i] += share * step_effect_[i];
    }
  }
}

}  // namespace drumlin::sim
