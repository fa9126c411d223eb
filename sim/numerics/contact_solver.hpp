#pragma once

#include <algorithm>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "sim/numerics/conjugate_gradients.hpp"
#include "sim/numerics/gmres.hpp"

namespace drumlin::sim {

/// Anything that turns pressure into displacement and knows a stand-in for its inverse.
template <class C>
concept Compliance = requires(C c, std::span<const double> in, std::span<double> out,
                              std::span<const std::uint8_t> free) {
  c.apply(in, out);
  c.apply_free(in, out);       // right on free cells at least
  c.apply_symmetric(in, out);  // symmetric part in the inner product of the weights
  c.prepare(free, in);         // stand-in for the inverse of C + diag(slope) on the free cells
  c.precondition(in, out);
  { c.symmetric() } -> std::convertible_to<bool>;
  { c.skewness() } -> std::convertible_to<double>;  // bound on skew over symmetric part
  { c.weights() } -> std::convertible_to<std::span<const double>>;
  { c.size() } -> std::convertible_to<std::size_t>;
};

/// How far a cell gives on its own under its own pressure, and the slope of that.
struct LocalGive {
  double depth;  ///< [mm]
  double slope;  ///< [mm/MPa], >= 0
};

struct ContactTolerance {
  double gap = 1e-6;          ///< largest complementarity error that counts as solved [mm]
  int newton_steps = 200;     ///< cap: the guaranteed stop
  int free_steps = 8;         ///< full Newton steps in which any number of cells come and go
  int single_steps = 40;      ///< then so many that let one cell come or go
  int gradient_steps = 400;   ///< cap on conjugate gradients inside one Newton step
  int splitting_steps = 400;  ///< cap on splitting steps, for compliances without symmetry
  /// Cap on applications of compliance and stand-in inverse: steps that fail take hundreds of them,
  /// usual ones ten. It is looked at between Newton steps.
  int applications = 50000;
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
/// r being the gap that is left. C is positive definite and w monotone, so p is unique; if C is
/// symmetric too, p is the minimum of a strictly convex function.
///
/// Method: Newton steps on the free cells (pressed, or overlapping), by conjugate gradients
/// (symmetric C) or GMRES with the compliance's stand-in for the inverse. The first
/// `tolerance.free_steps` of them are taken in full, which mostly settles it; steps after which
/// cells have only let go are not counted, since that ends by itself. Where a few cells go to and
/// fro, the next `tolerance.single_steps` let in only the deepest of them and stop at the first
/// that would pull, as Lawson and Hanson (1974) do.
///
/// What guarantees an end after those:
///  - symmetric C: the step is projected onto p >= 0 and followed by a search along the straight
///    line to the projected point, which lowers the convex function every time (Bertsekas 1982,
///    SIAM J. Control Optim. 20, 221: projected Newton methods, with the line search made exact
///    here by the known slopes). No step needs the function's value, so w needs no integral.
///  - else: forward-backward splitting, see `split`.
///
/// Measure of convergence: the largest of |r| over pressed cells and of -r over unpressed ones, in
/// mm; it stops at `tolerance.gap` or, at the latest, after `tolerance.newton_steps` or
/// `tolerance.applications`.
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
  [[nodiscard]] bool only_let_go(std::span<const double> pressure);
  void free_one(std::span<const double> pressure, bool none);
  bool stop_at_first(std::span<const double> pressure);
  double project(std::span<const double> pressure, double length);
  template <class Give>
  double slope_along(const Give& give, std::span<const double> pressure, double share) const;
  template <class Give>
  double change(const Give& give, std::span<const double> pressure) const;
  template <class Give>
  double lowest(const Give& give, std::span<const double> pressure) const;
  template <Compliance C, class Give>
  void split(C& compliance, std::span<const double> overlap, std::span<const std::uint8_t> metal,
             const Give& give, std::span<double> pressure, const ContactTolerance& tolerance,
             ContactReport& report);

  std::vector<double> displacement_, residual_, slope_, give_, step_, direction_, step_effect_;
  std::vector<std::uint8_t> free_;
  std::size_t free_cells_ = 0;  // at the last look
  std::span<const double> weights_;
  bool clipped_ = false;
  ConjugateGradients inner_;
  Gmres skew_inner_;
};

inline void ContactSolver::resize(std::size_t n) {
  for (auto* v :
       {&displacement_, &residual_, &slope_, &give_, &step_, &direction_, &step_effect_}) {
    v->resize(n);
  }
  free_.resize(n);
}

/// Fills residual, local slopes and the set of free cells; returns the complementarity error, not
/// a number where any cell's is not.
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
    if (std::isnan(residual_[i])) return residual_[i];
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
    downhill += weights_[i] * step_[i] * residual_[i];
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
    sum += weights_[i] * step_[i] * (residual_[i] + share * step_effect_[i] + local);
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

/// Whether fewer cells are free than at the last look and none has come in.
inline bool ContactSolver::only_let_go(std::span<const double> pressure) {
  std::size_t count = 0;
  bool came = false;
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    if (free_[i] == 0) continue;
    ++count;
    came = came || pressure[i] <= 0.0;
  }
  const bool fewer = count < free_cells_;
  free_cells_ = count;
  return fewer && !came;
}

/// Of the cells that overlap without pressing leaves only the deepest free, or none.
inline void ContactSolver::free_one(std::span<const double> pressure, bool none) {
  std::size_t deepest = pressure.size();
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    if (free_[i] == 0 || pressure[i] > 0.0) continue;
    free_[i] = 0;
    if (!none && (deepest == pressure.size() || residual_[i] < residual_[deepest])) deepest = i;
  }
  if (deepest < pressure.size()) free_[deepest] = 1;
}

/// Cuts the direction to a step that ends where the first pressed cell would pull; true if one
/// would.
inline bool ContactSolver::stop_at_first(std::span<const double> pressure) {
  double length = 1.0;
  std::size_t first = pressure.size();
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    step_[i] = free_[i] != 0 ? direction_[i] : 0.0;
    if (step_[i] >= 0.0 || pressure[i] + length * step_[i] >= 0.0) continue;
    length = pressure[i] > 0.0 ? pressure[i] / -step_[i] : 0.0;
    first = i;
  }
  if (first == pressure.size()) return false;
  for (std::size_t i = 0; i < pressure.size(); ++i)
    step_[i] *= length;
  step_[first] = -pressure[first];
  return true;
}

template <Compliance C, class Give>
ContactReport ContactSolver::solve(C& compliance, std::span<const double> overlap,
                                   std::span<const std::uint8_t> metal, const Give& give,
                                   std::span<double> pressure, const ContactTolerance& tolerance) {
  resize(pressure.size());
  weights_ = compliance.weights();
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    pressure[i] = metal[i] != 0 ? std::max(pressure[i], 0.0) : 0.0;
  }
  ContactReport report;
  compliance.apply(pressure, displacement_);
  report.applications = 1;
  const int singles_end = tolerance.free_steps + tolerance.single_steps;
  bool stopped = false;
  free_cells_ = 0;
  int counted = 0;  // steps but those that only let cells go
  for (;; ++report.newton_steps, ++counted) {
    report.residual = assess(overlap, metal, give, pressure);
    report.converged = report.residual <= tolerance.gap;
    if (report.converged || std::isnan(report.residual) ||
        report.newton_steps >= tolerance.newton_steps ||
        report.applications >= tolerance.applications)
      return report;
    if (only_let_go(pressure) && counted <= tolerance.free_steps) --counted;
    const bool single = counted >= tolerance.free_steps && counted < singles_end;
    const bool guarded = counted >= singles_end;
    if constexpr (!requires { typename C::AlwaysSymmetric; }) {
      if (guarded && !compliance.symmetric()) {
        if (std::isfinite(compliance.skewness()))
          split(compliance, overlap, metal, give, pressure, tolerance, report);
        return report;
      }
    }
    if (single) free_one(pressure, stopped);
    // A fiftieth per step is enough while the set of free cells still moves; later a rough answer
    // would only send cells to and fro, but for steps that go downhill anyway.
    const double share = guarded ? 0.05 : counted < 6 ? 0.02 : 0.0;
    const double target = std::max(0.3 * tolerance.gap, share * report.residual);
    report.applications += compliance.symmetric()
                               ? inner_.solve(compliance, free_, slope_, residual_, direction_,
                                              target, tolerance.gradient_steps)
                               : skew_inner_.solve(compliance, free_, slope_, residual_, direction_,
                                                   target, tolerance.gradient_steps);
    double part = 1.0;
    if (single) {
      stopped = stop_at_first(pressure);
      compliance.apply(step_, step_effect_);
      ++report.applications;
    } else {
      double length = 1.0;
      for (int halvings = 0; halvings < 20; ++halvings, length *= 0.5) {
        const double downhill = project(pressure, length);
        if (downhill >= 0.0 && guarded) continue;
        compliance.apply(step_, step_effect_);
        ++report.applications;
        if (!guarded || change(give, pressure) < 1e-4 * downhill) break;
      }
      if (guarded && !clipped_) part = lowest(give, pressure);
    }
    for (std::size_t i = 0; i < pressure.size(); ++i) {
      pressure[i] += part * step_[i];
      displacement_[i] += part * step_effect_[i];
    }
  }
}

}  // namespace drumlin::sim

#include "sim/numerics/contact_splitting.hpp"  // its last resort, for compliances without symmetry
