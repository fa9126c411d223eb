#include "models/heat/moving_band.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include <boost/math/special_functions/bessel.hpp>
#include <boost/math/tools/toms748_solve.hpp>

namespace drumlin::models {
namespace {

/// e^z K0(z) and e^z K1(z).
struct ScaledBessel {
  double k0 = 0;
  double k1 = 0;
};

/// From here on the asymptotic series to its eighth term is good to 1e-12 and nothing overflows.
constexpr double asymptotic_from = 50.0;

/// sqrt(pi / 2z) (1 + (m-1)/(8z) + (m-1)(m-9)/(2! (8z)^2) + ...), m = 4 order^2.
double asymptotic(double m, double z) noexcept {
  double term = 1.0;
  double sum = 1.0;
  for (int n = 1; n <= 8; ++n) {
    const double odd = 2.0 * n - 1.0;
    term *= (m - odd * odd) / (8.0 * z * n);
    sum += term;
  }
  return std::sqrt(std::numbers::pi / (2.0 * z)) * sum;
}

ScaledBessel scaled(double z) noexcept {
  if (z > asymptotic_from) return {asymptotic(0.0, z), asymptotic(4.0, z)};
  const double up = std::exp(z);
  return {up * boost::math::cyl_bessel_k(0, z), up * boost::math::cyl_bessel_k(1, z)};
}

double scaled_k0(double z) noexcept {
  if (z > asymptotic_from) return asymptotic(0.0, z);
  return std::exp(z) * boost::math::cyl_bessel_k(0, z);
}

/// Integral of e^t K0(t) from 0 to z: what lies behind a heated place.
double behind(double z) noexcept {
  if (z <= 0.0) return 0.0;
  const ScaledBessel k = scaled(z);
  return z * (k.k0 + k.k1) - 1.0;
}

/// Integral of e^-t K0(t) from 0 to z: what lies ahead.
double ahead(double z) noexcept {
  if (z <= 0.0) return 0.0;
  const ScaledBessel k = scaled(z);
  return z * std::exp(-2.0 * z) * (k.k0 - k.k1) + 1.0;
}

}  // namespace

double band_speed_number(const HeatedBand& band, const ThermalMetal& metal) noexcept {
  return band.feed * band.half_width / (2.0 * diffusivity(metal));
}

double band_warming(double X, double L) noexcept {
  // Each of the two legs is an integral from 0; where the band has passed they are subtracted.
  const auto leg_behind = [](double z) { return z >= 0.0 ? behind(z) : -ahead(-z); };
  const auto leg_ahead = [](double z) { return z >= 0.0 ? ahead(z) : -behind(-z); };
  return leg_behind(L - X) + leg_ahead(L + X);
}

BandPeak band_peak(double L) {
  // ln b against ln: both sides fall over decades.
  const auto open = [&](double log_b) {
    const double b = std::exp(log_b);
    return std::log(scaled_k0(b)) - 2.0 * b - std::log(scaled_k0(2.0 * L - b));
  };
  // Fast bands: e^-b K0(b) = sqrt(pi / 4L), b falls as exp(-sqrt(pi/4L)...): slowly; b is below L
  // and never below a tenth of min(L, 1 / (1 + sqrt L)).
  double low = std::log(0.02 * std::min(L, 1.0 / (1.0 + L)));
  double high = std::log(L);
  std::uintmax_t steps = 60;
  const auto close = [](double a, double b) { return std::abs(a - b) < 1e-7; };
  const auto found = boost::math::tools::toms748_solve(open, low, high, close, steps);
  const double b = std::exp(0.5 * (found.first + found.second));
  return {.place = b / L - 1.0, .warming = behind(2.0 * L - b) + ahead(b)};
}

double band_mean(double L) noexcept {
  // (1/2L) integral over the band = integral from 0 to w = 2L of (1 - s/w)(e^s + e^-s) K0(s).
  const double w = 2.0 * L;
  const ScaledBessel k = scaled(w);
  const double fall = std::exp(-2.0 * w);
  // Integrals of s e^(+-s) K0(s): (s^2 e^(+-s)(K0 +- K1) - s e^(+-s) K1 + 1) / 3.
  const double up = (w * w * (k.k0 + k.k1) - w * k.k1 + 1.0) / 3.0;
  const double down = (fall * (w * w * (k.k0 - k.k1) - w * k.k1) + 1.0) / 3.0;
  return behind(w) + ahead(w) - (up + down) / w;
}

double fast_band_peak(double L) noexcept {
  return std::sqrt(4.0 * std::numbers::pi * L);
}

double band_scale(const HeatedBand& band, const ThermalMetal& metal) noexcept {
  return 2.0 * band.flux * diffusivity(metal) / (std::numbers::pi * metal.conductivity * band.feed);
}

double peak_rise(const HeatedBand& band, const ThermalMetal& metal) {
  return band_scale(band, metal) * band_peak(band_speed_number(band, metal)).warming;
}

}  // namespace drumlin::models
