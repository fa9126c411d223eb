#include "sim/numerics/columns.hpp"

#include <algorithm>

// The loader picks the widest version that the machine has. Sanitizers are not ready yet when it
// does.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define DRUMLIN_FOR_EVERY_VECTOR_UNIT __attribute__((target_clones("default", "avx2", "avx512f")))
#else
#define DRUMLIN_FOR_EVERY_VECTOR_UNIT
#endif

namespace drumlin::sim {

DRUMLIN_FOR_EVERY_VECTOR_UNIT
void add_up_columns(const double* first, std::ptrdiff_t stride, std::size_t rows,
                    std::size_t columns, const double* p, double* sum) noexcept {
  // Nothing else reaches what is written, so the loops may take several rows at a time.
  double* __restrict u = sum;
  std::fill_n(u, rows, 0.0);
  std::size_t j = 0;
  for (; j + 4 <= columns; j += 4) {
    const double* __restrict a = first + static_cast<std::ptrdiff_t>(j) * stride;
    const double* __restrict b = a + stride;
    const double* __restrict c = b + stride;
    const double* __restrict d = c + stride;
    const double pa = p[j];
    const double pb = p[j + 1];
    const double pc = p[j + 2];
    const double pd = p[j + 3];
    for (std::size_t i = 0; i < rows; ++i)
      u[i] = u[i] + pa * a[i] + pb * b[i] + pc * c[i] + pd * d[i];
  }
  for (; j < columns; ++j) {
    const double* __restrict a = first + static_cast<std::ptrdiff_t>(j) * stride;
    for (std::size_t i = 0; i < rows; ++i)
      u[i] += p[j] * a[i];
  }
}

}  // namespace drumlin::sim
