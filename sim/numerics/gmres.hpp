#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace drumlin::sim {

/// Restarted GMRES on a subset of cells, preconditioned from the right: (C + diag(slope)) d = -r
/// there, d = 0 elsewhere. For compliances without symmetry; memory is kept from call to call.
///
/// Source: Saad and Schultz (1986), SIAM J. Sci. Stat. Comput. 7, 856 (from memory).
class Gmres {
 public:
  /// As ConjugateGradients::solve; `target` is met in the sense that three times the root mean
  /// square of what is left does not exceed it.
  template <class C>
  int solve(C& compliance, std::span<const std::uint8_t> free, std::span<const double> slope,
            std::span<const double> residual, std::span<double> solution, double target,
            int most_steps);

 private:
  static constexpr std::size_t restart = 40;

  template <class C>
  void expand(C& compliance, std::span<const double> slope, std::size_t k);
  double rotate(std::size_t k);
  void collect(std::size_t steps, std::span<double> solution);
  [[nodiscard]] double dot(const std::vector<double>& a, const std::vector<double>& b) const;
  [[nodiscard]] std::vector<double>& vector(std::vector<std::vector<double>>& store,
                                            std::size_t k) {
    if (store.size() <= k) store.emplace_back();
    store[k].resize(cells_end_, 0.0);
    return store[k];
  }

  std::vector<std::size_t> cells_;
  std::size_t cells_end_ = 0;
  std::vector<std::vector<double>> basis_, preconditioned_;
  std::vector<double> effect_;
  double hessenberg_[restart + 1][restart] = {};
  double cosine_[restart] = {}, sine_[restart] = {};
  double left_[restart + 1] = {};
};

inline double Gmres::dot(const std::vector<double>& a, const std::vector<double>& b) const {
  double sum = 0.0;
  for (const std::size_t i : cells_)
    sum += a[i] * b[i];
  return sum;
}

/// Adds a direction to the basis: precondition, apply, orthogonalise (modified Gram-Schmidt).
template <class C>
void Gmres::expand(C& compliance, std::span<const double> slope, std::size_t k) {
  std::vector<double>& direction = vector(preconditioned_, k);
  compliance.precondition(basis_[k], direction);
  std::vector<double>& next = vector(basis_, k + 1);
  // What lies outside the subset must not act.
  std::fill(effect_.begin(), effect_.end(), 0.0);
  for (const std::size_t i : cells_)
    effect_[i] = direction[i];
  direction.swap(effect_);
  compliance.apply_free(direction, effect_);
  std::fill(next.begin(), next.end(), 0.0);
  for (const std::size_t i : cells_)
    next[i] = effect_[i] + slope[i] * direction[i];
  for (std::size_t j = 0; j <= k; ++j) {
    const double along = dot(basis_[j], next);
    hessenberg_[j][k] = along;
    for (const std::size_t i : cells_)
      next[i] -= along * basis_[j][i];
  }
  const double length = std::sqrt(dot(next, next));
  hessenberg_[k + 1][k] = length;
  if (length <= 0.0) return;
  for (const std::size_t i : cells_)
    next[i] /= length;
}

/// Turns the new column of the Hessenberg matrix to upper triangular; returns the residual's norm.
inline double Gmres::rotate(std::size_t k) {
  for (std::size_t j = 0; j < k; ++j) {
    const double upper = hessenberg_[j][k];
    const double lower = hessenberg_[j + 1][k];
    hessenberg_[j][k] = cosine_[j] * upper + sine_[j] * lower;
    hessenberg_[j + 1][k] = cosine_[j] * lower - sine_[j] * upper;
  }
  const double length = std::hypot(hessenberg_[k][k], hessenberg_[k + 1][k]);
  cosine_[k] = hessenberg_[k][k] / length;
  sine_[k] = hessenberg_[k + 1][k] / length;
  hessenberg_[k][k] = length;
  left_[k + 1] = -sine_[k] * left_[k];
  left_[k] *= cosine_[k];
  return std::abs(left_[k + 1]);
}

/// Adds the combination of directions that leaves least.
inline void Gmres::collect(std::size_t steps, std::span<double> solution) {
  double share[restart] = {};
  for (std::size_t k = steps; k-- > 0;) {
    double sum = left_[k];
    for (std::size_t j = k + 1; j < steps; ++j)
      sum -= hessenberg_[k][j] * share[j];
    share[k] = sum / hessenberg_[k][k];
  }
  for (std::size_t k = 0; k < steps; ++k) {
    for (const std::size_t i : cells_)
      solution[i] += share[k] * preconditioned_[k][i];
  }
}

template <class C>
int Gmres::solve(C& compliance, std::span<const std::uint8_t> free, std::span<const double> slope,
                 std::span<const double> residual, std::span<double> solution, double target,
                 int most_steps) {
  cells_.clear();
  for (std::size_t i = 0; i < free.size(); ++i) {
    if (free[i] != 0) cells_.push_back(i);
  }
  std::fill(solution.begin(), solution.end(), 0.0);
  if (cells_.empty()) return 0;
  cells_end_ = free.size();
  effect_.resize(cells_end_);
  compliance.prepare(free, slope);
  const double enough = target * std::sqrt(static_cast<double>(cells_.size())) / 3.0;
  int applications = 0;
  for (int done = 0; done < most_steps;) {
    std::vector<double>& first = vector(basis_, 0);
    if (done > 0) {
      compliance.apply_free(solution, effect_);
      ++applications;
    }
    std::fill(first.begin(), first.end(), 0.0);
    for (const std::size_t i : cells_)
      first[i] = -residual[i] - (done > 0 ? effect_[i] + slope[i] * solution[i] : 0.0);
    const double norm = std::sqrt(dot(first, first));
    if (norm <= enough) break;
    for (const std::size_t i : cells_)
      first[i] /= norm;
    left_[0] = norm;
    std::size_t steps = 0;
    double rest = norm;
    while (steps < restart && done < most_steps && rest > enough) {
      expand(compliance, slope, steps);
      // Nothing new in the direction: rounding is all that is left.
      if (std::hypot(hessenberg_[steps][steps], hessenberg_[steps + 1][steps]) <= 0.0) break;
      rest = rotate(steps);
      ++steps;
      ++done;
      applications += 2;
    }
    collect(steps, solution);
    if (steps == 0 || rest <= enough) break;
  }
  return applications;
}

}  // namespace drumlin::sim
