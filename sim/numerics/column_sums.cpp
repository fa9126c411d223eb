#include "sim/numerics/column_sums.hpp"

#include <cstddef>
#include <cstring>

// Wider registers where the processor has them. They change no bit: every row is its own sum, and
// nothing is contracted. Sanitizers start before such a choice can be made.
#if defined(__x86_64__) && defined(__linux__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define DRUMLIN_WIDE __attribute__((target_clones("default", "avx2")))
#else
#define DRUMLIN_WIDE
#endif

namespace drumlin::sim {
namespace {

using Group = double __attribute__((vector_size(row_group * sizeof(double))));
constexpr std::size_t bytes = sizeof(Group);
constexpr Eigen::Index wide = 4 * row_group;

}  // namespace

DRUMLIN_WIDE void add_columns(const Eigen::MatrixXd& matrix, const Eigen::Index* columns,
                              const double* factors, Eigen::Index count, double* y,
                              Eigen::Index first, Eigen::Index end) noexcept {
  const double* data = matrix.data();
  const Eigen::Index stride = matrix.rows();
  Eigen::Index i = first;
  // Named one by one, so that they stay in registers.
  for (; i + wide <= end; i += wide) {
    Group a;
    Group b;
    Group c;
    Group d;
    std::memcpy(&a, y + i, bytes);
    std::memcpy(&b, y + i + row_group, bytes);
    std::memcpy(&c, y + i + 2 * row_group, bytes);
    std::memcpy(&d, y + i + 3 * row_group, bytes);
    for (Eigen::Index s = 0; s < count; ++s) {
      const double* x = data + (columns != nullptr ? columns[s] : s) * stride + i;
      const double factor = factors[s];
      Group part;
      std::memcpy(&part, x, bytes);
      a += factor * part;
      std::memcpy(&part, x + row_group, bytes);
      b += factor * part;
      std::memcpy(&part, x + 2 * row_group, bytes);
      c += factor * part;
      std::memcpy(&part, x + 3 * row_group, bytes);
      d += factor * part;
    }
    std::memcpy(y + i, &a, bytes);
    std::memcpy(y + i + row_group, &b, bytes);
    std::memcpy(y + i + 2 * row_group, &c, bytes);
    std::memcpy(y + i + 3 * row_group, &d, bytes);
  }
  for (; i < end; i += row_group) {
    Group sum;
    std::memcpy(&sum, y + i, bytes);
    for (Eigen::Index s = 0; s < count; ++s) {
      Group x;
      std::memcpy(&x, data + (columns != nullptr ? columns[s] : s) * stride + i, bytes);
      sum += factors[s] * x;
    }
    std::memcpy(y + i, &sum, bytes);
  }
}

DRUMLIN_WIDE void add_outer(const double* u, const double* factors, Eigen::Index count,
                            Eigen::Index rows, Eigen::MatrixXd& matrix) noexcept {
  const Eigen::Index stride = matrix.rows();
  for (Eigen::Index i = 0; i < rows; i += row_group) {
    Group by;
    std::memcpy(&by, u + i, bytes);
    double* at = matrix.data() + i;
    for (Eigen::Index s = 0; s < count; ++s, at += stride) {
      Group x;
      std::memcpy(&x, at, bytes);
      x += factors[s] * by;
      std::memcpy(at, &x, bytes);
    }
  }
}

DRUMLIN_WIDE void sum_rows(const double* r, Eigen::Index count, Eigen::Index rows,
                           const Eigen::MatrixXd& matrix, double* v) noexcept {
  const Eigen::Index stride = matrix.rows();
  for (Eigen::Index s = 0; s < count; ++s) {
    const double* column = matrix.data() + s * stride;
    Group sum = {};
    for (Eigen::Index i = 0; i < rows; i += row_group) {
      Group a;
      Group b;
      std::memcpy(&a, r + i, bytes);
      std::memcpy(&b, column + i, bytes);
      sum += a * b;
    }
    v[s] = (sum[0] + sum[1]) + (sum[2] + sum[3]);
  }
}

}  // namespace drumlin::sim
