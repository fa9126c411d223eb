#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace drumlin::sim {

/// Preconditioned conjugate gradients on a subset of cells: (C + diag(slope)) d = -r there, d = 0
/// elsewhere. C is symmetric in the inner product of its cells' weights.
///
/// Source: Hestenes and Stiefel (1952); preconditioning of Toeplitz matrices by circulants: Strang
/// (1986), Stud. Appl. Math. 74, 171 (both from memory).
class ConjugateGradients {
 public:
  /// @param free      nonzero: cell belongs to the subset.
  /// @param slope     local give [mm/MPa] per cell, >= 0.
  /// @param residual  r [mm].
  /// @param solution  out: d [MPa].
  /// @param target    largest residual that ends the iteration [mm].
  /// @return          applications of compliance and preconditioner.
  template <class C>
  int solve(C& compliance, std::span<const std::uint8_t> free, std::span<const double> slope,
            std::span<const double> residual, std::span<double> solution, double target,
            int most_steps);

 private:
  void start(std::span<const std::uint8_t> free, std::span<const double> residual,
             std::span<double> solution);
  double turn(std::span<const double> weights, double last_energy);
  double curvature(std::span<const double> weights, std::span<const double> slope);
  double advance(double length, std::span<double> solution);

  std::vector<std::size_t> cells_;  // the subset
  std::vector<double> rest_, preconditioned_, search_, effect_;
};

inline void ConjugateGradients::start(std::span<const std::uint8_t> free,
                                      std::span<const double> residual,
                                      std::span<double> solution) {
  for (auto* v : {&rest_, &preconditioned_, &search_, &effect_})
    v->assign(free.size(), 0.0);
  std::fill(solution.begin(), solution.end(), 0.0);
  cells_.clear();
  for (std::size_t i = 0; i < free.size(); ++i) {
    if (free[i] == 0) continue;
    cells_.push_back(i);
    rest_[i] = -residual[i];
  }
}

/// Turns the search towards the preconditioned residual, conjugate to the last; returns the
/// residual's energy.
inline double ConjugateGradients::turn(std::span<const double> weights, double last_energy) {
  double energy = 0.0;
  for (const std::size_t i : cells_)
    energy += weights[i] * rest_[i] * preconditioned_[i];
  const double beta = last_energy > 0.0 ? energy / last_energy : 0.0;
  for (const std::size_t i : cells_)
    search_[i] = preconditioned_[i] + beta * search_[i];
  return energy;
}

/// Adds the local give to the search's effect; returns the curvature along the search.
inline double ConjugateGradients::curvature(std::span<const double> weights,
                                            std::span<const double> slope) {
  double sum = 0.0;
  for (const std::size_t i : cells_) {
    effect_[i] += slope[i] * search_[i];
    sum += weights[i] * search_[i] * effect_[i];
  }
  return sum;
}

/// Goes a length along the search; returns the largest residual left.
inline double ConjugateGradients::advance(double length, std::span<double> solution) {
  double worst = 0.0;
  for (const std::size_t i : cells_) {
    solution[i] += length * search_[i];
    rest_[i] -= length * effect_[i];
    worst = std::max(worst, std::abs(rest_[i]));
  }
  return worst;
}

template <class C>
int ConjugateGradients::solve(C& compliance, std::span<const std::uint8_t> free,
                              std::span<const double> slope, std::span<const double> residual,
                              std::span<double> solution, double target, int most_steps) {
  start(free, residual, solution);
  compliance.prepare(free, slope);
  const auto weights = compliance.weights();
  int applications = 0;
  double energy = 0.0;
  for (int k = 0; k < most_steps; ++k) {
    compliance.precondition(rest_, preconditioned_);
    energy = turn(weights, energy);
    compliance.apply_free(search_, effect_);
    applications += 2;
    const double along = curvature(weights, slope);
    // Rounding is all that is left.
    if (!(along > 0.0)) break;
    if (advance(energy / along, solution) <= target) break;
  }
  return applications;
}

}  // namespace drumlin::sim
