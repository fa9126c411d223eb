#include "sim/fast/line_kernel.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include <Eigen/Dense>

namespace drumlin::sim::fast {
namespace {

/// Step of the progression in log q and in log x. A cubic through nodes this far apart follows the
/// compliance of covers to 1e-5 (tests/verification/drum_law_test.cpp sees it as error of G).
constexpr double step = 0.125;
constexpr double first_log_wave_number = -9.0;
constexpr double first_log_distance = -6.0;
constexpr double shortest = 1e-300;  // [mm] stands for none, where the logarithm has no value
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
  for (auto& segment : polynomials_)
    segment.fill(Coefficient::Zero());
  set(0, even);
  if (!symmetric_) set(1, odd);
}

void LineKernel::set(Eigen::Index part, const Values& values) {
  static const auto interpolation = make_interpolation();
  for (std::size_t s = 0; s < segments; ++s) {
    const Eigen::Map<const Eigen::Matrix<double, 8, 1>> points(&values[s]);
    const Eigen::Matrix<double, 8, 1> coefficients = interpolation * points;
    for (std::size_t k = 0; k < order; ++k)
      polynomials_[s][k](part) = coefficients(static_cast<Eigen::Index>(k));
  }
}

LineKernel::LineKernel(std::span<const LineKernel* const> of, std::span<const double> shares)
    : symmetric_(of.front()->symmetric_) {
  constexpr auto count = static_cast<Eigen::Index>(2 * order * segments);
  Eigen::Map<Eigen::ArrayXd, Eigen::Aligned16> sum(polynomials_.front().front().data(), count);
  sum.setZero();
  for (std::size_t i = 0; i < of.size(); ++i) {
    sum += shares[i] * Eigen::Map<const Eigen::ArrayXd, Eigen::Aligned16>(
                           of[i]->polynomials_.front().front().data(), count);
    half_space_ += shares[i] * of[i]->half_space_;
  }
}

LineKernel::Place LineKernel::place_of(double place) noexcept {
  const auto segment =
      static_cast<std::size_t>(std::clamp(place, 0.0, static_cast<double>(segments - 1)));
  // Shorter than any cell, nothing changes any more but the logarithm of the half-space.
  return {segment, std::max(place - static_cast<double>(segment), -3.0)};
}

LineKernel::Places::Places(std::vector<double> distances)
    : distance_(std::move(distances)), along_(distance_.size()), segment_(distance_.size()) {
  const auto n = static_cast<Eigen::Index>(distance_.size());
  Eigen::Map<Eigen::ArrayXd> along(along_.data(), n);
  along = Eigen::Map<const Eigen::ArrayXd>(distance_.data(), n).abs().max(shortest).log();
  along = (along - first_log_distance) / step - 3.0;
  for (std::size_t i = 0; i < along_.size(); ++i) {
    const Place place = place_of(along_[i]);
    segment_[i] = static_cast<std::uint32_t>(place.segment);
    along_[i] = place.s;
  }
}

double LineKernel::even_at(std::size_t segment, double s) const noexcept {
  const auto& c = polynomials_[segment];
  double value = c[order - 1](0);
  for (std::size_t k = order - 1; k-- > 0;)
    value = value * s + c[k](0);
  return value;
}

LineKernel::BothWays LineKernel::leaning_at(std::size_t segment, double s,
                                            double distance) const noexcept {
  const auto& c = polynomials_[segment];
  Coefficient value = c[order - 1];
  for (std::size_t k = order - 1; k-- > 0;)
    value = value * s + c[k];
  const double even = value(0) * distance * distance;
  const double odd = value(1) * distance;
  return {even + odd, even - odd};
}

double LineKernel::operator()(double distance) const noexcept {
  const double x = std::abs(distance);
  if (x <= 0.0) return 0.0;
  const Place place = place_of((std::log(x) - first_log_distance) / step - 3.0);
  return even_at(place.segment, place.s) * x * x;
}

void LineKernel::even(const Places& places, std::span<double> values) const noexcept {
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double x = places.distance_[i];
    values[i] = even_at(places.segment_[i], places.along_[i]) * x * x;
  }
}

LineKernel::BothWays LineKernel::leaning(double distance) const noexcept {
  if (distance == 0.0) return {0.0, 0.0};
  const Place place = place_of((std::log(std::abs(distance)) - first_log_distance) / step - 3.0);
  return leaning_at(place.segment, place.s, distance);
}

void LineKernel::leaning(const Places& places, std::span<BothWays> values) const noexcept {
  for (std::size_t i = 0; i < places.size(); ++i)
    values[i] = leaning_at(places.segment_[i], places.along_[i], places.distance_[i]);
}

double LineKernel::half_space_constant() const noexcept {
  constexpr double near = 0.01;  // [mm]
  return 2.0 * (*this)(near) / (near * near) +
         half_space_ / std::numbers::pi * (std::log(near) - 1.5);
}

}  // namespace drumlin::sim::fast
