#include "sim/fast/active_inverse.hpp"

#include <random>

#include <Eigen/LU>
#include <gtest/gtest.h>

using namespace drumlin::sim::fast;

// Cells that come, go and change their diagonals at random: after each change the kept inverse
// solves the block as a fresh factorisation does, to the rounding of some hundred updates.
TEST(ActiveInverse, SolvesAsAFreshFactorisationDoes) {
  for (const bool symmetric : {true, false}) {
    constexpr Eigen::Index cells = 13;
    std::mt19937 engine(3);
    const auto uniform = [&] { return static_cast<double>(engine()) / 4294967296.0; };
    Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(padded(cells), cells);
    for (Eigen::Index j = 0; j < cells; ++j) {
      for (Eigen::Index i = 0; i < cells; ++i)
        matrix(i, j) = i == j ? 4.0 : uniform() / static_cast<double>(cells);
    }
    if (symmetric) {
      const Eigen::MatrixXd lower = matrix.topRows(cells);
      matrix.topRows(cells) = 0.5 * (lower + lower.transpose());
    }
    ActiveInverse inverse(matrix, symmetric);
    Eigen::VectorXd diagonal = Eigen::VectorXd::Ones(cells);
    Eigen::VectorXd right = Eigen::VectorXd::Zero(padded(cells));
    for (int round = 0; round < 300; ++round) {
      const auto cell = static_cast<Eigen::Index>(engine() % cells);
      if (!inverse.holds(cell)) {
        inverse.add(cell, diagonal(cell));
      } else if (uniform() < 0.5) {
        inverse.remove(cell);
      } else {
        for (Eigen::Index i = 0; i < cells; ++i) {
          if (i == cell || round % 7 == 0) diagonal(i) = 0.5 + uniform();
        }
        inverse.set_diagonals(diagonal);
      }
      const auto n = static_cast<Eigen::Index>(inverse.cells().size());
      Eigen::MatrixXd block(n, n);
      for (Eigen::Index j = 0; j < n; ++j) {
        right(j) = uniform();
        for (Eigen::Index i = 0; i < n; ++i) {
          const auto row = inverse.cells()[static_cast<std::size_t>(i)];
          const auto column = inverse.cells()[static_cast<std::size_t>(j)];
          block(i, j) = matrix(row, column) + (i == j ? diagonal(row) : 0.0);
        }
      }
      if (n == 0) continue;
      const Eigen::VectorXd fresh = block.partialPivLu().solve(right.head(n));
      EXPECT_LT((inverse.solve(right).head(n) - fresh).cwiseAbs().maxCoeff(), 1e-12) << round;
    }
  }
}
