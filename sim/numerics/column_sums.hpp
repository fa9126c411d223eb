#pragma once

#include <Eigen/Core>

namespace drumlin::sim {

/// Rows are kept in whole groups of this many, so that loops over them have no rest.
inline constexpr Eigen::Index row_group = 4;

/// y_i += sum_s factor_s M(i, column_s), rows `first` to `end` in whole groups.
///
/// Each row adds column after column, so the sum is the same on every processor, however many rows
/// it takes at a time.
///
/// @param columns  nullptr: the first `count` of them.
void add_columns(const Eigen::MatrixXd& matrix, const Eigen::Index* columns, const double* factors,
                 Eigen::Index count, double* y, Eigen::Index first, Eigen::Index end) noexcept;

/// M(i, s) += factor_s u_i over the first `count` columns and `rows` rows, in whole groups. u may
/// be a later column of M.
void add_outer(const double* u, const double* factors, Eigen::Index count, Eigen::Index rows,
               Eigen::MatrixXd& matrix) noexcept;

/// v_s = sum_i r_i M(i, s) over the first `count` columns and `rows` rows, in whole groups.
void sum_rows(const double* r, Eigen::Index count, Eigen::Index rows, const Eigen::MatrixXd& matrix,
              double* v) noexcept;

}  // namespace drumlin::sim
