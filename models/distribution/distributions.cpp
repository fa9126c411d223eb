#include "models/distribution/distributions.hpp"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/normal.hpp>

namespace drumlin::models {
namespace {

/// What lies below three standard deviations under the mean.
constexpr double three_deviations = 0.0013498980316300945;

/// No promotion to long double, which would differ between machines; errors give infinities.
using Policy = boost::math::policies::policy<
    boost::math::policies::promote_double<false>,
    boost::math::policies::overflow_error<boost::math::policies::ignore_error>>;
const boost::math::normal_distribution<double, Policy> standard;

double standard_quantile(double u) noexcept {
  return boost::math::quantile(standard, u);
}

}  // namespace

double Uniform::quantile(double u) const noexcept {
  return low + u * (high - low);
}

double LogUniform::quantile(double u) const noexcept {
  return std::min(low * std::exp(u * std::log(high / low)), high);
}

double Triangular::quantile(double u) const noexcept {
  const double span = high - low;
  const double rising = mode - low;
  if (u * span < rising) return low + std::sqrt(u * span * rising);
  return high - std::sqrt((1.0 - u) * span * (high - mode));
}

double Normal::quantile(double u) const noexcept {
  return mean + deviation * standard_quantile(u);
}

double TruncatedNormal::quantile(double u) const noexcept {
  // In the upper half shares are counted from above, where the distribution function is too near to
  // one to tell values apart.
  const double a = (low - mean) / deviation;
  const double b = (high - mean) / deviation;
  double z = 0.0;
  if (a > 0.0) {
    const double above_a = boost::math::cdf(boost::math::complement(standard, a));
    const double above_b = boost::math::cdf(boost::math::complement(standard, b));
    z = boost::math::quantile(boost::math::complement(standard, above_a + u * (above_b - above_a)));
  } else {
    const double below_a = boost::math::cdf(standard, a);
    const double below_b = boost::math::cdf(standard, b);
    z = standard_quantile(below_a + u * (below_b - below_a));
  }
  return std::clamp(mean + deviation * z, low, high);
}

double Lognormal::quantile(double u) const noexcept {
  return median * std::exp(std::log(factor) * standard_quantile(u));
}

std::pair<double, double> range_of(const AnyDistribution& any) noexcept {
  const auto ends = [](const auto& d) -> std::pair<double, double> {
    if constexpr (requires { d.low; })
      return {d.low, d.high};
    else
      return {d.quantile(three_deviations), d.quantile(1.0 - three_deviations)};
  };
  return std::visit(ends, any);
}

}  // namespace drumlin::models
