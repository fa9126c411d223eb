// Quantile functions against closed forms and published quantiles, moments by integration over u.

#include "models/distribution/distributions.hpp"

#include <cmath>
#include <functional>

#include <boost/math/distributions/lognormal.hpp>
#include <boost/math/distributions/triangular.hpp>
#include <gtest/gtest.h>

namespace drumlin::models {
namespace {

/// Integral of f(x(u)) over u by the middle of N cells: of order 1/N where x is bounded, and good
/// to the tail's own share, about 1/N, where it is not.
constexpr int cells = 200000;
double mean_of(const AnyDistribution& any, const std::function<double(double)>& f) {
  double sum = 0;
  for (int i = 0; i < cells; ++i)
    sum += f(quantile(any, (i + 0.5) / cells));
  return sum / cells;
}
double mean(const AnyDistribution& any) {
  return mean_of(any, [](double x) { return x; });
}
double variance(const AnyDistribution& any) {
  const double m = mean(any);
  return mean_of(any, [m](double x) { return (x - m) * (x - m); });
}

// Quantiles of the standard normal to six digits: Abramowitz and Stegun (1964), table 26.5 (from
// memory).
TEST(TheNormalDistribution, HasThePublishedQuantiles) {
  const Normal normal{.mean = 10, .deviation = 2};
  EXPECT_NEAR(normal.quantile(0.5), 10, 1e-15);
  EXPECT_NEAR(normal.quantile(0.975), 10 + 2 * 1.959964, 2e-6);
  EXPECT_NEAR(normal.quantile(0.90), 10 + 2 * 1.281552, 2e-6);
  EXPECT_NEAR(normal.quantile(0.01), 10 - 2 * 2.326348, 2e-6);
}

TEST(TheNormalDistribution, HasItsMoments) {
  EXPECT_NEAR(mean(Normal{3, 0.5}), 3, 1e-12);
  EXPECT_NEAR(variance(Normal{3, 0.5}), 0.25, 0.25 * 1e-4);
}

TEST(TheUniformDistribution, HasItsMoments) {
  EXPECT_NEAR(mean(Uniform{2, 5}), 3.5, 1e-12);
  EXPECT_NEAR(variance(Uniform{2, 5}), 9.0 / 12, 1e-9);
  EXPECT_NEAR(std::log(quantile(LogUniform{1, 100}, 0.25)), 0.25 * std::log(100.0), 1e-14);
  // (b - a) / ln(b / a)
  EXPECT_NEAR(mean(LogUniform{1, 100}), 99 / std::log(100.0), 1e-6);
}

// (a + b + c) / 3 and (a^2 + b^2 + c^2 - ab - ac - bc) / 18.
TEST(TheTriangularDistribution, HasItsMomentsAndTheQuantilesOfBoost) {
  const double a = 1, c = 2, b = 5;
  const Triangular triangular{a, c, b};
  EXPECT_NEAR(mean(triangular), (a + b + c) / 3, 1e-9);
  // At both ends the quantile is a square root: N^-3/2, some 1e-8.
  EXPECT_NEAR(variance(triangular), (a * a + b * b + c * c - a * b - a * c - b * c) / 18, 1e-7);
  const boost::math::triangular_distribution<> judge(a, c, b);
  for (const double u : {1e-6, 0.1, 0.25, 0.26, 0.5, 0.9, 1 - 1e-6})
    EXPECT_NEAR(triangular.quantile(u), boost::math::quantile(judge, u), 1e-12) << u;
  EXPECT_NEAR(quantile(Triangular{0, 0, 1}, 0.75), 0.5, 1e-15);
  EXPECT_NEAR(quantile(Triangular{0, 1, 1}, 0.25), 0.5, 1e-15);
}

TEST(TheLognormalDistribution, HasTheQuantilesOfBoost) {
  const Lognormal lognormal{.median = 3e-5, .factor = 1.3};
  const boost::math::lognormal_distribution<> judge(std::log(3e-5), std::log(1.3));
  for (const double u : {1e-6, 0.1, 0.5, 0.9, 1 - 1e-6})
    EXPECT_NEAR(lognormal.quantile(u) / boost::math::quantile(judge, u), 1, 1e-12) << u;
  EXPECT_NEAR(lognormal.quantile(0.8413447460685429), 3e-5 * 1.3, 3e-5 * 1e-9);
}

// Symmetric ends at one deviation: variance 1 - 2 phi(1) / (2 Phi(1) - 1) = 0.2911252 (Johnson,
// Kotz and Balakrishnan 1994, vol. 1, ch. 13, from memory: the formula).
TEST(TheTruncatedNormalDistribution, HasItsMoments) {
  const TruncatedNormal cut{.mean = 0, .deviation = 1, .low = -1, .high = 1};
  const double phi = std::exp(-0.5) / std::sqrt(2 * std::acos(-1.0));
  const double inside = std::erf(1 / std::sqrt(2.0));
  EXPECT_NEAR(mean(cut), 0, 1e-12);
  EXPECT_NEAR(variance(cut), 1 - 2 * phi / inside, 1e-8);
}

TEST(TheTruncatedNormalDistribution, StaysBetweenItsEndsAndNearsTheWholeOne) {
  const TruncatedNormal wide{.mean = 1, .deviation = 0.1, .low = 0, .high = 2};
  const Normal whole{1, 0.1};
  for (const double u : {0.001, 0.2, 0.5, 0.99})
    EXPECT_NEAR(wide.quantile(u), whole.quantile(u), 1e-12);
  // Ten deviations out, either side: Q(x) = phi(x) / x (1 - 1/x^2 + ...), so that what lies above
  // a + t is exp(-a t - t^2 / 2) a / (a + t) of what lies above a, to 2 t / a^3.
  const TruncatedNormal far{.mean = 0, .deviation = 1, .low = 10, .high = 20};
  const TruncatedNormal mirrored{.mean = 0, .deviation = 1, .low = -20, .high = -10};
  for (const double u : {0.1, 0.5, 0.9}) {
    const double t = far.quantile(u) - 10;
    EXPECT_NEAR((10 * t + t * t / 2 + std::log1p(t / 10)) / -std::log1p(-u), 1, 5e-4);
    EXPECT_NEAR(mirrored.quantile(1 - u), -far.quantile(u), 1e-12);
  }
  EXPECT_GE(far.quantile(1e-16), 10);
  EXPECT_LE(far.quantile(1 - 1e-16), 20);
}

}  // namespace
}  // namespace drumlin::models
