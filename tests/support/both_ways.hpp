#pragma once

#include <algorithm>
#include <cmath>
#include <complex>
#include <cstddef>
#include <functional>
#include <numbers>
#include <span>
#include <vector>

#include <fftw3.h>

namespace drumlin::tests {

/// Give of a plane surface on an even grid, periodic both ways: the judge of models that see only
/// one. A compliance for `sim::ContactSolver`; row = y, column = x.
class BothWays {
 public:
  /// @param symbol  C(q_x, q_y) [mm/MPa], real and even.
  BothWays(const std::function<double(double, double)>& symbol, std::size_t columns,
           std::size_t rows, double spacing)
      : columns_(columns), rows_(rows), half_(columns / 2 + 1) {
    values_.resize(columns_ * rows_);
    spectrum_.resize(half_ * rows_);
    weights_.assign(values_.size(), 1.0);
    const auto r = static_cast<int>(rows_);
    const auto c = static_cast<int>(columns_);
    auto* complex_values = reinterpret_cast<fftw_complex*>(spectrum_.data());
    forward_ = fftw_plan_dft_r2c_2d(r, c, values_.data(), complex_values, FFTW_ESTIMATE);
    backward_ = fftw_plan_dft_c2r_2d(r, c, complex_values, values_.data(), FFTW_ESTIMATE);
    for (std::size_t j = 0; j < rows_; ++j) {
      const double turns = static_cast<double>(std::min(j, rows_ - j));
      for (std::size_t i = 0; i < half_; ++i) {
        const double step = 2.0 * std::numbers::pi / spacing;
        symbol_.push_back(symbol(step * static_cast<double>(i) / static_cast<double>(columns_),
                                 step * turns / static_cast<double>(rows_)));
      }
    }
  }
  BothWays(const BothWays&) = delete;
  BothWays(BothWays&&) = delete;
  BothWays& operator=(const BothWays&) = delete;
  BothWays& operator=(BothWays&&) = delete;
  ~BothWays() {
    fftw_destroy_plan(forward_);
    fftw_destroy_plan(backward_);
  }

  void apply(std::span<const double> in, std::span<double> out) {
    filter(in, out, [&](std::size_t k) { return symbol_[k]; });
  }
  void apply_free(std::span<const double> in, std::span<double> out) { apply(in, out); }
  void apply_symmetric(std::span<const double> in, std::span<double> out) { apply(in, out); }
  void prepare(std::span<const std::uint8_t> /*free*/, std::span<const double> /*slope*/) {}
  void precondition(std::span<const double> in, std::span<double> out) {
    filter(in, out, [&](std::size_t k) { return 1.0 / symbol_[k]; });
  }
  [[nodiscard]] static bool symmetric() noexcept { return true; }
  [[nodiscard]] static double skewness() noexcept { return 0.0; }
  [[nodiscard]] std::span<const double> weights() const noexcept { return weights_; }
  [[nodiscard]] std::size_t size() const noexcept { return weights_.size(); }

 private:
  template <class Factor>
  void filter(std::span<const double> in, std::span<double> out, const Factor& factor) {
    std::copy(in.begin(), in.end(), values_.begin());
    fftw_execute(forward_);
    const double scale = 1.0 / static_cast<double>(values_.size());
    for (std::size_t k = 0; k < spectrum_.size(); ++k)
      spectrum_[k] *= factor(k) * scale;
    fftw_execute(backward_);
    std::copy(values_.begin(), values_.end(), out.begin());
  }

  std::size_t columns_, rows_, half_;
  std::vector<double> values_, symbol_, weights_;
  std::vector<std::complex<double>> spectrum_;
  fftw_plan forward_ = nullptr;
  fftw_plan backward_ = nullptr;
};

}  // namespace drumlin::tests
