#include "sim/numerics/line_response.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/numerics/fft.hpp"

namespace drumlin::sim {

LineResponse::LineResponse(const Symbol& symbol, double spacing, std::size_t reach, double window)
    : reach_(reach) {
  const auto wanted = static_cast<std::size_t>(std::llround(window / spacing));
  RealFft wide(std::max(RealFft::nearest_good_length(wanted), RealFft::good_length(2 * reach)));
  const std::size_t length = wide.length();
  window_ = static_cast<double>(length) * spacing;
  const auto components = wide.components();
  const double scale = 1.0 / static_cast<double>(length);
  for (std::size_t k = 0; k < components.size(); ++k) {
    const double q = 2.0 * std::numbers::pi * static_cast<double>(k) / window_;
    components[k] = symbol(q) * scale;
    symmetric_ = symmetric_ && components[k].imag() == 0.0;
  }
  wide.backward();
  lags_.resize(2 * reach - 1);
  for (std::size_t lag = 0; lag < reach; ++lag) {
    lags_[reach - 1 + lag] = wide.samples()[lag];
    lags_[reach - 1 - lag] = wide.samples()[lag > 0 ? length - lag : 0];
  }
}

}  // namespace drumlin::sim
