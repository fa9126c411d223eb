#include "models/heat/transient_band.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/tools/toms748_solve.hpp>

namespace drumlin::models {

double band_rise_after(const HeatedBand& band, const ThermalMetal& metal, double x, double t) {
  if (t <= 0.0) return 0.0;
  const double alpha = diffusivity(metal);
  const double l = band.half_width;
  // r = sqrt s takes the root's pole away.
  const auto share = [&](double r) {
    if (r <= 0.0) return std::abs(x) < l ? 2.0 : 0.0;
    const double reach = 2.0 * std::sqrt(alpha) * r;
    const double gone = x + band.feed * r * r;
    return std::erf((gone + l) / reach) - std::erf((gone - l) / reach);
  };
  // Where the band's edges have gone by the place, the integrand turns sharply.
  const double end = std::sqrt(t);
  const double turn = std::sqrt(std::max(l - x, 0.0) / band.feed);
  using Rule = boost::math::quadrature::gauss_kronrod<double, 31>;
  const double middle = std::min(turn, end);
  double sum = 0.0;
  if (middle > 0.0) sum += Rule::integrate(share, 0.0, middle, 12, 1e-9);
  if (end > middle) sum += Rule::integrate(share, middle, end, 12, 1e-9);
  return band.flux / metal.conductivity * std::sqrt(alpha / std::numbers::pi) * sum;
}

double way_to_steady(const HeatedBand& band, const ThermalMetal& metal, double open) {
  const double L = band_speed_number(band, metal);
  const BandPeak peak = band_peak(L);
  const double x = peak.place * band.half_width;
  const double wanted = (1.0 - open) * band_scale(band, metal) * peak.warming;
  const auto missing = [&](double log_t) {
    return band_rise_after(band, metal, x, std::exp(log_t)) / wanted - 1.0;
  };
  // Contact time, or the time in which heat spreads over the band: the shorter.
  const double contact = 2.0 * band.half_width / band.feed;
  const double low = std::log(1e-4 * std::min(1.0, L) * contact);
  const double high = std::log(100.0 * contact * (1.0 + 1.0 / (L * L)));
  std::uintmax_t steps = 80;
  const auto close = [](double a, double b) { return std::abs(a - b) < 1e-5; };
  const auto found = boost::math::tools::toms748_solve(missing, low, high, close, steps);
  return band.feed * std::exp(0.5 * (found.first + found.second));
}

}  // namespace drumlin::models
