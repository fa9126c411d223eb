#include "sim/fast/line_kernel.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <Eigen/Dense>

namespace drumlin::sim::fast {
namespace {

/// Step of the progression in log q and in log x. A cubic through nodes this far apart follows the
/// compliance of covers to 1e-5 (tests/verification/drum_law_test.cpp sees it as error of G).
constexpr double step = 0.125;
constexpr double first_log_wave_number = -9.0;
constexpr double first_log_distance = -6.0;
constexpr std::size_t weight_count = LineKernel::wave_numbers + LineKernel::distances;

/// Local cubic interpolation: the answer at s nodes from a node that alone carries 1.
double cardinal(double s) {
  s = std::abs(s);
  if (s >= 2.0) return 0.0;
  if (s <= 1.0) return (1.0 - s * s) * (2.0 - s) / 2.0;
  return (1.0 - s) * (2.0 - s) * (3.0 - s) / 6.0;
}

struct Weight {
  double even, odd;
};

/// (1/pi) int cardinal((u - centre) / step) f(e^u) e^-u du over one interval of the cardinal
/// function, f = 1 - cos and f = sin; four-point Gauss on parts that follow the wave.
Weight interval_weight(double centre, int interval) {
  // From there on the wave averages out: what is left of it is below 1e-7 of the whole.
  constexpr double averages_out = 3000.0;
  constexpr std::array<double, 4> points = {-0.8611363115940526, -0.3399810435848563,
                                            0.3399810435848563, 0.8611363115940526};
  constexpr std::array<double, 4> weights = {0.3478548451374538, 0.6521451548625461,
                                             0.6521451548625461, 0.3478548451374538};
  const double from = centre + interval * step;
  const bool averaged = std::exp(from) > averages_out;
  const int parts = averaged ? 4 : std::max(4, static_cast<int>(std::exp(from) * step * 0.7) + 1);
  const double width = step / parts;
  Weight sum{0.0, 0.0};
  for (int part = 0; part < parts; ++part) {
    for (std::size_t g = 0; g < points.size(); ++g) {
      const double u = from + width * (part + 0.5 + 0.5 * points[g]);
      const double product = std::exp(u);
      const double share =
          0.5 * width * weights[g] * cardinal((u - centre) / step) / (product * std::numbers::pi);
      const double half = std::sin(0.5 * product);
      sum.even += share * (averaged ? 1.0 : 2.0 * half * half);
      sum.odd += share * (averaged ? 0.0 : std::sin(product));
    }
  }
  return sum;
}

struct Weights {
  std::array<double, weight_count> even{}, odd{};
};

Weights make_weights() {
  Weights weights;
  for (std::size_t k = 0; k < weight_count; ++k) {
    const double centre =
        first_log_wave_number + first_log_distance + static_cast<double>(k) * step;
    for (int interval = -2; interval < 2; ++interval) {
      const Weight more = interval_weight(centre, interval);
      weights.even[k] += more.even;
      weights.odd[k] += more.odd;
    }
  }
  return weights;
}

/// Coefficients of the polynomial through eight equidistant values, about the interval in the
/// middle.
Eigen::Matrix<double, 8, 8> make_interpolation() {
  Eigen::Matrix<double, 8, 8> powers;
  for (int i = 0; i < 8; ++i) {
    for (int k = 0; k < 8; ++k)
      powers(i, k) = std::pow(static_cast<double>(i - 3), k);
  }
  return powers.inverse();
}

}  // namespace

double LineKernel::wave_number(std::size_t node) {
  static const auto nodes = [] {
    std::array<double, wave_numbers> values{};
    for (std::size_t i = 0; i < wave_numbers; ++i)
      values[i] = std::exp(first_log_wave_number + static_cast<double>(i) * step);
    return values;
  }();
  return nodes[node];
}

void LineKernel::tabulate(const Samples& samples) {
  static const Weights weights = make_weights();
  // Without a belt q C has settled long before the last node.
  const std::size_t last = wave_numbers - 1;
  const double limit = samples[last].real() * wave_number(last);
  const double earlier = samples[last - 16].real() * wave_number(last - 16);
  if (std::abs(limit / earlier - 1.0) < 0.01) half_space_ = limit;
  symmetric_ = std::all_of(samples.begin(), samples.end(),
                           [](std::complex<double> c) { return c.imag() == 0.0; });
  Values even{};
  Values odd{};
  for (std::size_t i = 0; i < wave_numbers; ++i) {
    for (std::size_t j = 0; j < distances; ++j)
      even[j] += samples[i].real() * weights.even[i + j];
  }
  for (std::size_t i = 0; i < wave_numbers && !symmetric_; ++i) {
    for (std::size_t j = 0; j < distances; ++j)
      odd[j] += samples[i].imag() * weights.odd[i + j];
  }
  // Below the first node C stays as it is there: a geometric series of weights. Of the odd part
  // only a term in proportion to x is left out.
  const double below =
      samples.front().real() * step * wave_number(0) / (2.0 * std::numbers::pi * std::expm1(step));
  for (std::size_t j = 0; j < distances; ++j)
    even[j] = even[j] / std::exp(first_log_distance + static_cast<double>(j) * step) + below;
  even_ = through(even);
  if (!symmetric_) odd_ = through(odd);
}

LineKernel::Polynomials LineKernel::through(const Values& values) {
  static const auto interpolation = make_interpolation();
  Polynomials polynomials;
  for (std::size_t s = 0; s < segments; ++s) {
    const Eigen::Map<const Eigen::Matrix<double, 8, 1>> points(&values[s]);
    Eigen::Map<Eigen::Matrix<double, 8, 1>> coefficients(polynomials[s].data());
    coefficients.noalias() = interpolation * points;
  }
  return polynomials;
}

LineKernel::Place LineKernel::place_of(double distance) noexcept {
  const double place = (std::log(distance) - first_log_distance) / step - 3.0;
  const auto segment =
      static_cast<std::size_t>(std::clamp(place, 0.0, static_cast<double>(segments - 1)));
  // Shorter than any cell, nothing changes any more but the logarithm of the half-space.
  return {segment, std::max(place - static_cast<double>(segment), -3.0)};
}

double LineKernel::at(const Polynomials& polynomials, const Place& place) noexcept {
  const auto& c = polynomials[place.segment];
  double value = c[order - 1];
  for (std::size_t k = order - 1; k-- > 0;)
    value = value * place.s + c[k];
  return value;
}

double LineKernel::operator()(double distance) const noexcept {
  const double x = std::abs(distance);
  return x > 0.0 ? at(even_, place_of(x)) * x * x : 0.0;
}

LineKernel::BothWays LineKernel::leaning(double distance) const noexcept {
  const double x = std::abs(distance);
  if (x <= 0.0) return {0.0, 0.0};
  const Place place = place_of(x);
  const double even = at(even_, place) * x * x;
  if (symmetric_) return {even, even};
  const double odd = at(odd_, place) * distance;
  return {even + odd, even - odd};
}

double LineKernel::half_space_constant() const noexcept {
  constexpr double near = 0.01;  // [mm]
  return 2.0 * (*this)(near) / (near * near) +
         half_space_ / std::numbers::pi * (std::log(near) - 1.5);
}

}  // namespace drumlin::sim::fast
