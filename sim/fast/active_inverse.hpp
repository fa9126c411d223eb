#pragma once

#include <vector>

#include <Eigen/Core>

#include "sim/numerics/column_sums.hpp"

namespace drumlin::sim::fast {

/// As many rows as whole groups need.
[[nodiscard]] constexpr Eigen::Index padded(Eigen::Index rows) noexcept {
  return (rows + row_group - 1) / row_group * row_group;
}

/// Inverse of the block of a matrix that belongs to the pressed cells, kept from step to step: a
/// cell that starts or stops to carry, or a diagonal that changes, costs a rank-one update in place
/// of a factorisation.
///
/// The block is A_SS + diag(d), A fixed, symmetric or not, with positive pivots.
class ActiveInverse {
 public:
  /// @param matrix     A, its rows padded with zeros; must outlive the object.
  /// @param symmetric  whether A is.
  ActiveInverse(const Eigen::MatrixXd& matrix, bool symmetric);

  /// Cells in the block, in the order of their slots.
  [[nodiscard]] const std::vector<Eigen::Index>& cells() const noexcept { return cells_; }
  [[nodiscard]] bool holds(Eigen::Index cell) const noexcept { return slot_[idx(cell)] >= 0; }

  void clear();
  void add(Eigen::Index cell, double diagonal);
  void remove(Eigen::Index cell);
  /// Sets diagonals anew, slot by slot, where they differ; where most do, inverts afresh.
  void set_diagonals(const Eigen::VectorXd& by_cell);

  /// Inverse times a vector, slot by slot; valid until the next call.
  const Eigen::VectorXd& solve(const Eigen::VectorXd& by_slot);

 private:
  [[nodiscard]] static std::size_t idx(Eigen::Index cell) noexcept {
    return static_cast<std::size_t>(cell);
  }
  [[nodiscard]] Eigen::Index size() const noexcept {
    return static_cast<Eigen::Index>(cells_.size());
  }
  void change_diagonal(Eigen::Index slot, double change);

  const Eigen::MatrixXd& matrix_;
  bool symmetric_;
  Eigen::MatrixXd inverse_;  // of the block, zero to the end of its last group of rows
  std::vector<Eigen::Index> cells_;
  std::vector<Eigen::Index> again_;  // cells to invert afresh
  std::vector<Eigen::Index> slot_;   // of every cell, -1 outside the block
  Eigen::VectorXd diagonal_;         // d by cell
  Eigen::VectorXd u_, v_, factors_, solution_;
};

}  // namespace drumlin::sim::fast
