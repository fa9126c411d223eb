#pragma once

#include <cstddef>

namespace drumlin::sim {

/// u = sum over columns of p_j times column j, for a stretch of a matrix stored by columns.
///
/// Rows are added in the same order whatever the vector unit, so every machine gets the same bytes;
/// wider units only do it faster.
///
/// @param first   first element of the stretch.
/// @param stride  from column to column.
void add_up_columns(const double* first, std::ptrdiff_t stride, std::size_t rows,
                    std::size_t columns, const double* p, double* u) noexcept;

}  // namespace drumlin::sim
