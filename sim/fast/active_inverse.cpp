#include "sim/fast/active_inverse.hpp"

#include <cmath>
#include <utility>

namespace drumlin::sim::fast {

ActiveInverse::ActiveInverse(const Eigen::MatrixXd& matrix, bool symmetric)
    : matrix_(matrix),
      symmetric_(symmetric),
      inverse_(matrix.rows(), matrix.cols()),
      slot_(static_cast<std::size_t>(matrix.cols()), -1),
      diagonal_(Eigen::VectorXd::Zero(matrix.cols())),
      u_(Eigen::VectorXd::Zero(matrix.rows())),
      v_(Eigen::VectorXd::Zero(matrix.rows())),
      factors_(Eigen::VectorXd::Zero(matrix.rows())),
      solution_(Eigen::VectorXd::Zero(matrix.rows())) {
  cells_.reserve(static_cast<std::size_t>(matrix.cols()));
  again_.reserve(static_cast<std::size_t>(matrix.cols()));
}

void ActiveInverse::clear() {
  for (const Eigen::Index cell : cells_)
    slot_[idx(cell)] = -1;
  cells_.clear();
}

void ActiveInverse::add(Eigen::Index cell, double diagonal) {
  // Bordering: with u = B c, v = r B and s = a - r B c the inverse grows by u v / s.
  const Eigen::Index n = size();
  const Eigen::Index rows = padded(n);
  // Rows from the block's end to that of its last group are zero.
  if (n == rows) {
    for (Eigen::Index s = 0; s < n; ++s)
      inverse_.col(s).segment<row_group>(n).setZero();
  }
  inverse_.col(n).head(padded(n + 1)).setZero();
  u_.head(rows).setZero();
  const double* column = matrix_.col(cell).data();
  for (Eigen::Index s = 0; s < n; ++s)
    factors_(s) = column[cells_[idx(s)]];
  add_columns(inverse_, nullptr, factors_.data(), n, u_.data(), 0, rows);
  factors_.segment(n, rows - n).setZero();
  for (Eigen::Index s = 0; s < n; ++s)
    factors_(s) = matrix_(cell, cells_[idx(s)]);
  double pivot = matrix_(cell, cell) + diagonal;
  for (Eigen::Index s = 0; s < n; ++s)
    pivot -= factors_(s) * u_(s);
  if (symmetric_)
    v_.head(n) = u_.head(n);
  else
    sum_rows(factors_.data(), n, rows, inverse_, v_.data());
  const double one_over = 1.0 / pivot;
  for (Eigen::Index s = 0; s < n; ++s)
    factors_(s) = v_(s) * one_over;
  add_outer(u_.data(), factors_.data(), n, rows, inverse_);
  for (Eigen::Index s = 0; s < n; ++s)
    inverse_(n, s) = -factors_(s);
  for (Eigen::Index k = 0; k < n; ++k)
    inverse_(k, n) = -u_(k) * one_over;
  inverse_(n, n) = one_over;
  diagonal_(cell) = diagonal;
  slot_[idx(cell)] = n;
  cells_.push_back(cell);
}

void ActiveInverse::remove(Eigen::Index cell) {
  const Eigen::Index n = size();
  const Eigen::Index last = n - 1;
  const Eigen::Index slot = slot_[idx(cell)];
  if (slot != last) {
    inverse_.col(slot).head(n).swap(inverse_.col(last).head(n));
    for (Eigen::Index s = 0; s < n; ++s)
      std::swap(inverse_(slot, s), inverse_(last, s));
    cells_[idx(slot)] = cells_[idx(last)];
    slot_[idx(cells_[idx(slot)])] = slot;
  }
  const double* dropped = inverse_.col(last).data();
  const double one_over = 1.0 / inverse_(last, last);
  for (Eigen::Index s = 0; s < last; ++s)
    factors_(s) = -inverse_(last, s) * one_over;
  add_outer(dropped, factors_.data(), last, padded(n), inverse_);
  for (Eigen::Index s = 0; s < last; ++s)
    inverse_(last, s) = 0.0;
  slot_[idx(cell)] = -1;
  cells_.pop_back();
}

void ActiveInverse::change_diagonal(Eigen::Index slot, double change) {
  const Eigen::Index n = size();
  u_.head(padded(n)) = inverse_.col(slot).head(padded(n));
  const double share = change / (1.0 + change * u_(slot));
  for (Eigen::Index s = 0; s < n; ++s)
    factors_(s) = -share * inverse_(slot, s);
  add_outer(u_.data(), factors_.data(), n, padded(n), inverse_);
}

void ActiveInverse::set_diagonals(const Eigen::VectorXd& by_cell) {
  const auto differs = [&](Eigen::Index cell) {
    return std::abs(by_cell(cell) - diagonal_(cell)) > 1e-12 * std::abs(by_cell(cell));
  };
  std::size_t changed = 0;
  for (const Eigen::Index cell : cells_)
    changed += differs(cell) ? 1U : 0U;
  if (changed == 0) return;
  // Inverting afresh costs about what a rank-one update for every other cell costs.
  if (2 * changed > cells_.size()) {
    again_.assign(cells_.begin(), cells_.end());
    clear();
    for (const Eigen::Index cell : again_)
      add(cell, by_cell(cell));
    return;
  }
  for (std::size_t s = 0; s < cells_.size(); ++s) {
    const Eigen::Index cell = cells_[s];
    if (!differs(cell)) continue;
    change_diagonal(static_cast<Eigen::Index>(s), by_cell(cell) - diagonal_(cell));
    diagonal_(cell) = by_cell(cell);
  }
}

const Eigen::VectorXd& ActiveInverse::solve(const Eigen::VectorXd& by_slot) {
  const Eigen::Index rows = padded(size());
  solution_.head(rows).setZero();
  add_columns(inverse_, nullptr, by_slot.data(), size(), solution_.data(), 0, rows);
  return solution_;
}

}  // namespace drumlin::sim::fast
