#include "sim/numerics/line_compliance.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drumlin::sim {
namespace {

double wave_number(std::size_t index, double period) {
  return 2.0 * std::numbers::pi * static_cast<double>(index) / period;
}

}  // namespace

LineCompliance::LineCompliance(const std::function<double(double)>& symbol, double spacing,
                               std::size_t cells, double window)
    : cells_(cells), spacing_(spacing), fft_(RealFft::good_length(2 * cells)) {
  const auto wanted = static_cast<std::size_t>(std::ceil(window / spacing));
  RealFft wide(RealFft::good_length(std::max(wanted, fft_.length())));
  window_ = static_cast<double>(wide.length()) * spacing;
  const auto components = wide.components();
  for (std::size_t k = 0; k < components.size(); ++k) {
    components[k] = symbol(wave_number(k, window_)) / static_cast<double>(wide.length());
  }
  wide.backward();

  const auto lags = fft_.samples();
  std::fill(lags.begin(), lags.end(), 0.0);
  for (std::size_t lag = 0; lag < cells; ++lag) {
    lags[lag] = wide.samples()[lag];
    if (lag > 0) lags[lags.size() - lag] = wide.samples()[lag];
  }
  fft_.forward();
  const double scale = 1.0 / static_cast<double>(fft_.length());
  const double period = static_cast<double>(fft_.length()) * spacing;
  for (std::size_t k = 0; k < fft_.components().size(); ++k) {
    response_.push_back(fft_.components()[k].real() * scale);
    symbol_.push_back(symbol(wave_number(k, period)));
  }
  inverse_.resize(symbol_.size());
}

void LineCompliance::filter(std::span<const double> in, std::span<const double> factors,
                            std::span<double> out) {
  const auto samples = fft_.samples();
  std::copy(in.begin(), in.end(), samples.begin());
  std::fill(samples.begin() + static_cast<std::ptrdiff_t>(cells_), samples.end(), 0.0);
  fft_.forward();
  const auto components = fft_.components();
  for (std::size_t k = 0; k < components.size(); ++k)
    components[k] *= factors[k];
  fft_.backward();
  std::copy_n(samples.begin(), cells_, out.begin());
  ++transform_pairs_;
}

void LineCompliance::apply(std::span<const double> pressure, std::span<double> displacement) {
  filter(pressure, response_, displacement);
}

void LineCompliance::precondition(std::span<const double> residual, double local,
                                  std::span<double> result) {
  if (local != inverse_local_) {
    const double scale = 1.0 / static_cast<double>(fft_.length());
    std::transform(symbol_.begin(), symbol_.end(), inverse_.begin(),
                   [&](double c) { return scale / (c + local); });
    inverse_local_ = local;
  }
  filter(residual, inverse_, result);
}

}  // namespace drumlin::sim
