#include "models/heat/burr_fin.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drumlin::models {
namespace {

constexpr double pi = std::numbers::pi;

/// E1(x) = -Ei(-x); nothing beyond where it has fallen below 1e-17.
double exponential_integral(double x) noexcept {
  return x > 36.0 ? 0.0 : -std::expint(-x);
}

}  // namespace

double fin_rise(const BurrFin& burr, const ThermalMetal& metal, double heat, double film) noexcept {
  const double across = metal.conductivity * burr.root;
  if (film <= 0.0) return heat * burr.height / across;
  const double m = std::sqrt(2.0 * film / across);
  return heat * std::tanh(m * burr.height) / (across * m);
}

double fin_rise_after(const BurrFin& burr, const ThermalMetal& metal, double heat,
                      double time) noexcept {
  if (time <= 0.0) return 0.0;
  const double steady = fin_rise(burr, metal, heat, 0.0);
  const double fourier = diffusivity(metal) * time / (burr.height * burr.height);
  if (fourier < 0.01) return steady * 2.0 * std::sqrt(fourier / pi);
  double open = 0.0;
  for (int n = 1;; n += 2) {
    const double term = std::exp(-0.25 * n * n * pi * pi * fourier) / (static_cast<double>(n) * n);
    open += term;
    if (term < 1e-12) break;
  }
  return steady * (1.0 - 8.0 / (pi * pi) * open);
}

double root_rise_after(const BurrFin& burr, const ThermalMetal& metal, double heat, int place,
                       double time) noexcept {
  if (time <= 0.0) return 0.0;
  const double spread = 2.0 * std::sqrt(diffusivity(metal) * time);
  const double flux = heat / burr.root;
  // Mirrored in the flank the strip is 2 t_b wide. At its middle both halves lie within t_b; at its
  // end one of twice the width does, and half as much.
  const double y = (place == 0 ? 1.0 : 2.0) * burr.root / spread;
  const double half = place == 0 ? 1.0 : 0.5;
  const double own = half * flux * spread / (std::sqrt(pi) * metal.conductivity) *
                     (std::erf(y) + y / std::sqrt(pi) * exponential_integral(y * y));
  double images = 0.0;
  for (int n = 1;; ++n) {
    const double far = 2.0 * n * burr.sheet / spread;
    const double term = exponential_integral(far * far);
    images += 2.0 * term;
    if (term <= 1e-9 * std::max(images, 1.0)) break;
  }
  return own + heat / (pi * metal.conductivity) * images;
}

BurrRise burr_rise(const BurrFin& burr, const ThermalMetal& metal, double heat,
                   double time) noexcept {
  const double delay = burr.height * burr.height / (2.0 * diffusivity(metal));
  const double felt = time - delay;
  BurrRise rise;
  rise.root = root_rise_after(burr, metal, heat, 0, felt);
  rise.beside = root_rise_after(burr, metal, heat, 1, felt);
  rise.tip = rise.root + fin_rise_after(burr, metal, heat, time);
  return rise;
}

}  // namespace drumlin::models
