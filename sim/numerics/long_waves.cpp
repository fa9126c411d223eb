#include "sim/numerics/long_waves.hpp"

#include <cmath>
#include <numbers>

#include "sim/numerics/fft.hpp"

namespace drumlin::sim {
namespace {

/// Terms of F beyond the exponential.
constexpr int order = 8;
/// F is below 1e-12 from here on [1/sigma].
constexpr double last_wave = 10.0;
/// Points per sigma: cubic interpolation is then good to 1e-6.
constexpr double points_per_split = 24.0;
constexpr std::size_t margin = 2;

}  // namespace

double LongWaves::share(double q) noexcept {
  if (q * split >= last_wave) return 0.0;
  const double s = 0.5 * (q * split) * (q * split);
  double term = 1.0;
  double sum = 1.0;
  for (int k = 1; k < order; ++k) {
    term *= s / k;
    sum += term;
  }
  return std::exp(-s) * sum;
}

LongWaves::LongWaves(const Symbol& symbol, double window) : window_(window) {
  RealFft fft(
      RealFft::good_length(static_cast<std::size_t>(std::ceil(window * points_per_split / split))));
  const std::size_t n = fft.length();
  spacing_ = window / static_cast<double>(n);
  const auto components = fft.components();
  for (std::size_t k = 0; k < components.size(); ++k) {
    const double q = 2.0 * std::numbers::pi * static_cast<double>(k) / window;
    const double kept = share(q);
    components[k] = kept > 0.0 ? symbol(q) * (kept / window) : 0.0;
    symmetric_ = symmetric_ && components[k].imag() == 0.0;
  }
  fft.backward();
  const auto samples = fft.samples();
  samples_.reserve(n + 2 * margin);
  std::size_t at = n / 2 - margin;
  for (std::size_t i = 0; i < n + 2 * margin; ++i) {
    samples_.push_back(samples[at]);
    if (++at == n) at = 0;
  }
}

double LongWaves::operator()(double distance) const noexcept {
  const double place = (distance + 0.5 * window_) / spacing_ + static_cast<double>(margin);
  const auto i = static_cast<std::size_t>(place);
  const double t = place - static_cast<double>(i);
  const double a = samples_[i - 1];
  const double b = samples_[i];
  const double c = samples_[i + 1];
  const double d = samples_[i + 2];
  // Cubic through the four points around.
  return b +
         t * ((c - b) -
              (1.0 - t) * ((2.0 - t) * (a - 2.0 * b + c) + (1.0 + t) * (b - 2.0 * c + d)) / 6.0);
}

}  // namespace drumlin::sim
