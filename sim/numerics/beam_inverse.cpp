#include "sim/numerics/beam_inverse.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace drumlin::sim {

Beam closest_beam(const Symbol& symbol, double bending_stiffness, double lowest, double highest) {
  constexpr std::size_t count = 48;
  std::array<double, count> q2{};
  std::array<double, count> target{};
  const double ratio = highest / lowest;
  for (std::size_t i = 0; i < count; ++i) {
    const double q = lowest * std::pow(ratio, static_cast<double>(i) / (count - 1));
    q2[i] = q * q;
    target[i] = std::log(1.0 / symbol(q).real());
  }
  // Gauss-Newton on the logarithms of tension and bedding, from a beam that fits both ends.
  double tension = std::log(std::exp(target[count / 2]) / q2[count / 2]);
  double bedding = target[0];
  for (int step = 0; step < 40; ++step) {
    double tt = 1e-6;
    double tk = 0.0;
    double kk = 1e-6;
    double rt = 0.0;
    double rk = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
      const double t = std::exp(tension) * q2[i];
      const double k = std::exp(bedding);
      const double sum = bending_stiffness * q2[i] * q2[i] + t + k;
      const double off = target[i] - std::log(sum);
      tt += t * t / (sum * sum);
      tk += t * k / (sum * sum);
      kk += k * k / (sum * sum);
      rt += off * t / sum;
      rk += off * k / sum;
    }
    const double det = tt * kk - tk * tk;
    tension += std::clamp((kk * rt - tk * rk) / det, -1.0, 1.0);
    bedding += std::clamp((tt * rk - tk * rt) / det, -1.0, 1.0);
    // Far below the others it no longer matters how far.
    tension = std::clamp(tension, -40.0, 40.0);
    bedding = std::clamp(bedding, -40.0, 40.0);
  }
  return {bending_stiffness, std::exp(tension), std::exp(bedding)};
}

BeamInverse::BeamInverse(const Beam& beam, std::span<const double> middles,
                         std::span<const double> widths)
    : diagonal_(middles.size(), 0.0),
      beside_(middles.size(), 0.0),
      beyond_(middles.size(), 0.0),
      widths_(widths.begin(), widths.end()) {
  const std::size_t n = middles.size();
  for (std::size_t i = 0; i < n; ++i)
    diagonal_[i] += beam.bedding * widths[i];
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const double stiffness = beam.tension / (middles[i + 1] - middles[i]);
    diagonal_[i] += stiffness;
    diagonal_[i + 1] += stiffness;
    beside_[i] -= stiffness;
  }
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const double left = middles[i] - middles[i - 1];
    const double right = middles[i + 1] - middles[i];
    const double mean = 0.5 * (left + right);
    // Curvature from three cells: a u_(i-1) + b u_i + c u_(i+1).
    const double a = 1.0 / (left * mean);
    const double c = 1.0 / (right * mean);
    const double b = -a - c;
    const double stiffness = beam.bending_stiffness * mean;
    diagonal_[i - 1] += stiffness * a * a;
    diagonal_[i] += stiffness * b * b;
    diagonal_[i + 1] += stiffness * c * c;
    beside_[i - 1] += stiffness * a * b;
    beside_[i] += stiffness * b * c;
    beyond_[i - 1] += stiffness * a * c;
  }
}

void BeamInverse::prepare(std::size_t first, std::span<const std::uint8_t> free,
                          std::span<const double> give) {
  const std::size_t n = free.size();
  first_ = first;
  for (auto* v : {&spring_, &inverse_give_, &inverse_pivot_, &lower1_, &lower2_, &u_})
    v->resize(n);
  for (std::size_t i = 0; i < n; ++i) {
    inverse_give_[i] = free[i] != 0 ? 1.0 / give[i] : 0.0;
    spring_[i] = widths_[first + i] * inverse_give_[i];
  }
  for (std::size_t i = 0; i < n; ++i) {
    double pivot = diagonal_[first + i] + spring_[i];
    double l1 = 0.0;
    double l2 = 0.0;
    if (i >= 2) {
      l2 = beyond_[first + i - 2] * inverse_pivot_[i - 2];
      pivot -= l2 * beyond_[first + i - 2];
    }
    if (i >= 1) {
      double side = beside_[first + i - 1];
      if (i >= 2) side -= beyond_[first + i - 2] * lower1_[i - 1];
      l1 = side * inverse_pivot_[i - 1];
      pivot -= l1 * side;
    }
    lower1_[i] = l1;
    lower2_[i] = l2;
    inverse_pivot_[i] = 1.0 / pivot;
  }
}

void BeamInverse::solve(std::span<const double> residual, std::span<double> result) {
  const std::size_t n = residual.size();
  double before = 0.0;
  double last = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    const double value = spring_[i] * residual[i] - lower1_[i] * last - lower2_[i] * before;
    before = last;
    last = value;
    u_[i] = value;
  }
  double after = 0.0;
  double beyond = 0.0;
  for (std::size_t i = n; i-- > 0;) {
    double value = u_[i] * inverse_pivot_[i];
    if (i + 1 < n) value -= lower1_[i + 1] * after;
    if (i + 2 < n) value -= lower2_[i + 2] * beyond;
    beyond = after;
    after = value;
    result[i] = (residual[i] - value) * inverse_give_[i];
  }
}

}  // namespace drumlin::sim
