#include "sim/numerics/line_response.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/numerics/fft.hpp"
#include "sim/numerics/long_waves.hpp"

namespace drumlin::sim {

namespace {

/// Inverse transform of C, or of what of it the long waves leave, at every lag of one period.
RealFft responses(const Symbol& symbol, std::size_t length, double spacing, bool short_waves,
                  bool& symmetric) {
  RealFft fft(length);
  const double window = static_cast<double>(length) * spacing;
  const double scale = 1.0 / static_cast<double>(length);
  const auto components = fft.components();
  for (std::size_t k = 0; k < components.size(); ++k) {
    const double q = 2.0 * std::numbers::pi * static_cast<double>(k) / window;
    const double share = short_waves ? 1.0 - LongWaves::share(q) : 1.0;
    components[k] = share > 0.0 ? symbol(q) * (share * scale) : 0.0;
    symmetric = symmetric && components[k].imag() == 0.0;
  }
  fft.backward();
  return fft;
}

}  // namespace

LineResponse::LineResponse(const Symbol& symbol, double spacing, std::size_t reach, double window)
    : reach_(reach) {
  const auto wanted = static_cast<std::size_t>(std::llround(window / spacing));
  const std::size_t length =
      std::max(RealFft::nearest_good_length(wanted), RealFft::good_length(2 * reach));
  window_ = static_cast<double>(length) * spacing;
  RealFft wide = responses(symbol, length, spacing, false, symmetric_);
  lags_.resize(2 * reach - 1);
  for (std::size_t lag = 0; lag < reach; ++lag) {
    lags_[reach - 1 + lag] = wide.samples()[lag];
    lags_[reach - 1 - lag] = wide.samples()[lag > 0 ? length - lag : 0];
  }
}

LineResponse::LineResponse(const Symbol& symbol, double spacing, std::size_t reach,
                           const LongWaves& long_waves)
    : reach_(reach), window_(long_waves.window()), symmetric_(long_waves.symmetric()) {
  const auto length =
      RealFft::good_length(static_cast<std::size_t>(std::ceil(LongWaves::short_window / spacing)));
  RealFft narrow = responses(symbol, length, spacing, true, symmetric_);
  lags_.resize(2 * reach - 1);
  for (std::size_t lag = 0; lag < reach; ++lag) {
    const double distance = static_cast<double>(lag) * spacing;
    double ahead = spacing * long_waves(distance);
    double behind = symmetric_ ? ahead : spacing * long_waves(-distance);
    if (2 * lag < length) {
      ahead += narrow.samples()[lag];
      behind += narrow.samples()[lag > 0 ? length - lag : 0];
    }
    lags_[reach - 1 - lag] = behind;
    lags_[reach - 1 + lag] = ahead;
  }
}

}  // namespace drumlin::sim
