#pragma once

#include <algorithm>
#include <stdexcept>
#include <vector>

#include <Eigen/Dense>

#include "sim/numerics/line_compliance.hpp"

namespace drumlin::tests {

/// Matrix of a compliance, column by column; for small rows only.
inline Eigen::MatrixXd matrix_of(sim::LineCompliance& compliance) {
  const auto n = static_cast<Eigen::Index>(compliance.size());
  Eigen::MatrixXd matrix(n, n);
  std::vector<double> unit(compliance.size(), 0.0);
  std::vector<double> column(compliance.size());
  for (Eigen::Index j = 0; j < n; ++j) {
    unit[static_cast<std::size_t>(j)] = 1.0;
    compliance.apply(unit, column);
    unit[static_cast<std::size_t>(j)] = 0.0;
    matrix.col(j) = Eigen::Map<Eigen::VectorXd>(column.data(), n);
  }
  return matrix;
}

/// Slow judge of the contact solver: p >= 0, A p >= b, complementary, by the active-set method of
/// Lawson and Hanson (1974) on dense matrices, which ends in finitely many steps with the exact
/// set. Shares no code with what it judges.
inline Eigen::VectorXd dense_contact(const Eigen::MatrixXd& a, const Eigen::VectorXd& b) {
  const Eigen::Index n = b.size();
  Eigen::VectorXd p = Eigen::VectorXd::Zero(n);
  std::vector<Eigen::Index> pressed;
  const auto solve = [&] {
    const auto m = static_cast<Eigen::Index>(pressed.size());
    Eigen::MatrixXd part(m, m);
    Eigen::VectorXd rhs(m);
    for (Eigen::Index i = 0; i < m; ++i) {
      rhs(i) = b(pressed[static_cast<std::size_t>(i)]);
      for (Eigen::Index j = 0; j < m; ++j) {
        part(i, j) = a(pressed[static_cast<std::size_t>(i)], pressed[static_cast<std::size_t>(j)]);
      }
    }
    return Eigen::VectorXd(part.ldlt().solve(rhs));
  };
  for (;;) {
    const Eigen::VectorXd gap = a * p - b;
    Eigen::Index deepest = 0;
    double depth = -1e-13 * b.cwiseAbs().maxCoeff();
    bool found = false;
    for (Eigen::Index i = 0; i < n; ++i) {
      if (p(i) > 0.0 || gap(i) >= depth) continue;
      if (std::find(pressed.begin(), pressed.end(), i) != pressed.end()) continue;
      depth = gap(i);
      deepest = i;
      found = true;
    }
    if (!found) return p;
    pressed.push_back(deepest);
    for (;;) {
      const Eigen::VectorXd trial = solve();
      if (trial.minCoeff() > 0.0) {
        p.setZero();
        for (std::size_t k = 0; k < pressed.size(); ++k) {
          p(pressed[k]) = trial(static_cast<Eigen::Index>(k));
        }
        break;
      }
      double share = 1.0;
      for (std::size_t k = 0; k < pressed.size(); ++k) {
        const double to = trial(static_cast<Eigen::Index>(k));
        const double from = p(pressed[k]);
        if (to <= 0.0) share = std::min(share, from / (from - to));
      }
      std::vector<Eigen::Index> kept;
      for (std::size_t k = 0; k < pressed.size(); ++k) {
        const Eigen::Index i = pressed[k];
        p(i) += share * (trial(static_cast<Eigen::Index>(k)) - p(i));
        if (p(i) > 1e-14) {
          kept.push_back(i);
        } else {
          p(i) = 0.0;
        }
      }
      pressed = kept;
    }
  }
}

/// The same for a matrix that is not symmetric: all pressed cells at once, those that pull dropped
/// and those that overlap added, until nothing changes. Small, well-behaved problems only.
inline Eigen::VectorXd unsymmetric_contact(const Eigen::MatrixXd& a, const Eigen::VectorXd& b) {
  const Eigen::Index n = b.size();
  std::vector<bool> pressed(static_cast<std::size_t>(n));
  for (Eigen::Index i = 0; i < n; ++i)
    pressed[static_cast<std::size_t>(i)] = b(i) > 0.0;
  for (int round = 0; round < 200; ++round) {
    std::vector<Eigen::Index> cells;
    for (Eigen::Index i = 0; i < n; ++i) {
      if (pressed[static_cast<std::size_t>(i)]) cells.push_back(i);
    }
    const Eigen::VectorXd part = a(cells, cells).partialPivLu().solve(b(cells));
    Eigen::VectorXd p = Eigen::VectorXd::Zero(n);
    p(cells) = part;
    const Eigen::VectorXd gap = a * p - b;
    bool changed = false;
    for (Eigen::Index i = 0; i < n; ++i) {
      const bool now = pressed[static_cast<std::size_t>(i)] ? p(i) > 0.0 : gap(i) < -1e-12;
      changed = changed || now != pressed[static_cast<std::size_t>(i)];
      pressed[static_cast<std::size_t>(i)] = now;
    }
    if (!changed) return p;
  }
  throw std::runtime_error("unsymmetric_contact: the set of pressed cells did not settle");
}

}  // namespace drumlin::tests
