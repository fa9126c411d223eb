#include "sim/numerics/line_compliance.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drumlin::sim {
namespace {

/// Length of the circulant that a row is embedded in.
std::size_t transform_length(std::size_t cells) {
  return RealFft::good_length(2 * cells);
}

}  // namespace

LineCompliance::LineCompliance(const Symbol& symbol, double spacing, std::size_t cells,
                               double window)
    : LineCompliance(
          symbol, 0.0, spacing,
          LineResponse(symbol, spacing, cells,
                       std::max(window, static_cast<double>(transform_length(cells)) * spacing))) {}

LineCompliance::LineCompliance(const Symbol& smooth, double local, double spacing,
                               std::size_t cells, const LongWaves& long_waves)
    : LineCompliance(smooth, local, spacing, LineResponse(smooth, spacing, cells, long_waves)) {}

LineCompliance::LineCompliance(const Symbol& symbol, double local, double spacing,
                               const LineResponse& response)
    : cells_(response.reach()),
      spacing_(spacing),
      window_(response.window()),
      symmetric_(response.symmetric()),
      fft_(transform_length(cells_)),
      weights_(cells_, 1.0) {
  const std::size_t length = fft_.length();
  const auto lags = fft_.samples();
  std::fill(lags.begin(), lags.end(), 0.0);
  for (std::size_t lag = 0; lag < cells_; ++lag) {
    lags[lag] = response[static_cast<std::ptrdiff_t>(lag)];
    if (lag > 0) lags[length - lag] = response[-static_cast<std::ptrdiff_t>(lag)];
  }
  lags[0] += local;
  fft_.forward();
  const double scale = 1.0 / static_cast<double>(length);
  const double period = static_cast<double>(length) * spacing;
  for (std::size_t k = 0; k < fft_.components().size(); ++k) {
    const double q = 2.0 * std::numbers::pi * static_cast<double>(k) / period;
    const std::complex<double> factor = fft_.components()[k] * scale;
    response_.push_back(symmetric_ ? factor.real() : factor);
    even_response_.emplace_back(factor.real());
    const std::complex<double> c = symbol(q) + local;
    symbol_.push_back(c.real());
    skewness_ = std::max(skewness_, std::abs(c.imag()) / c.real());
  }
  inverse_.resize(symbol_.size());
}

void LineCompliance::filter(std::span<const double> in,
                            std::span<const std::complex<double>> factors, std::span<double> out) {
  const auto samples = fft_.samples();
  std::copy(in.begin(), in.end(), samples.begin());
  std::fill(samples.begin() + static_cast<std::ptrdiff_t>(cells_), samples.end(), 0.0);
  fft_.forward();
  const auto components = fft_.components();
  for (std::size_t k = 0; k < components.size(); ++k) {
    // Spelt out: the library's product also looks for infinities.
    const std::complex<double> a = components[k];
    const std::complex<double> b = factors[k];
    components[k] = {a.real() * b.real() - a.imag() * b.imag(),
                     a.real() * b.imag() + a.imag() * b.real()};
  }
  fft_.backward();
  std::copy_n(samples.begin(), cells_, out.begin());
}

void LineCompliance::apply(std::span<const double> pressure, std::span<double> displacement) {
  filter(pressure, response_, displacement);
}

void LineCompliance::apply_symmetric(std::span<const double> pressure,
                                     std::span<double> displacement) {
  filter(pressure, even_response_, displacement);
}

void LineCompliance::prepare(std::span<const std::uint8_t> free, std::span<const double> slope) {
  double sum = 0.0;
  double count = 0.0;
  for (std::size_t i = 0; i < free.size(); ++i) {
    if (free[i] == 0) continue;
    sum += slope[i];
    count += 1.0;
  }
  const double local = count > 0.0 ? sum / count : 0.0;
  if (local == inverse_local_) return;
  const double scale = 1.0 / static_cast<double>(fft_.length());
  std::transform(symbol_.begin(), symbol_.end(), inverse_.begin(),
                 [&](double c) { return scale / (c + local); });
  inverse_local_ = local;
}

void LineCompliance::precondition(std::span<const double> residual, std::span<double> result) {
  filter(residual, inverse_, result);
}

}  // namespace drumlin::sim
