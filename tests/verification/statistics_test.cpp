#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <random>
#include <vector>

#include <boost/math/distributions/binomial.hpp>
#include <gtest/gtest.h>

#include "sim/statistics/percentile.hpp"
#include "sim/statistics/proportion.hpp"
#include "sim/statistics/sobol_indices.hpp"

namespace {

using drumlin::sim::Moments;
using drumlin::sim::moments;
using drumlin::sim::percentiles;
using drumlin::sim::PickFreeze;
using drumlin::sim::Proportion;
using drumlin::sim::proportion;
using drumlin::sim::sobol_indices;
using drumlin::sim::SobolIndices;

// The definition itself: at the ends, seeing so many (so few) has the probability of one tail.
TEST(AProportion, EndsWhereTheBinomialTailsAreTwoAndAHalfPerCent) {
  for (const auto& [k, n] : {std::pair{3, 20}, std::pair{1, 7}, std::pair{90, 100}}) {
    const Proportion p = proportion(static_cast<std::uint64_t>(k), static_cast<std::uint64_t>(n));
    const boost::math::binomial low(n, p.low);
    const boost::math::binomial high(n, p.high);
    EXPECT_NEAR(1 - cdf(low, k - 1), 0.025, 1e-9) << k << " of " << n;
    EXPECT_NEAR(cdf(high, k), 0.025, 1e-9) << k << " of " << n;
    EXPECT_DOUBLE_EQ(p.value, static_cast<double>(k) / n);
  }
}

// With no failure in n trials the upper end solves (1 - p)^n = 0.025. For 0.95 one-sided this is
// the "rule of three", 3 / n (Hanley and Lippman-Hand 1983).
TEST(AProportion, OfNothingAndOfAllHasClosedForms) {
  const Proportion none = proportion(0, 50);
  EXPECT_EQ(none.low, 0);
  EXPECT_NEAR(none.high, 1 - std::pow(0.025, 1.0 / 50), 1e-12);
  const Proportion all = proportion(50, 50);
  EXPECT_EQ(all.high, 1);
  EXPECT_NEAR(all.low, std::pow(0.025, 1.0 / 50), 1e-12);
  EXPECT_NEAR(proportion(0, 1000, 0.90).high, 3.0 / 1000, 0.01 * 3.0 / 1000);
}

TEST(APercentile, InterpolatesBetweenNeighboursAndLeavesGapsOut) {
  const double gap = std::numeric_limits<double>::quiet_NaN();
  const std::vector<double> values{4, 1, gap, 3, 2};
  const auto found = percentiles(values, std::vector<double>{0, 25, 50, 100});
  EXPECT_DOUBLE_EQ(found[0], 1);
  EXPECT_DOUBLE_EQ(found[1], 1.75);  // (n - 1) p = 0.75 of the way from the first to the second
  EXPECT_DOUBLE_EQ(found[2], 2.5);
  EXPECT_DOUBLE_EQ(found[3], 4);
  EXPECT_TRUE(std::isnan(percentiles(std::vector<double>{gap}, std::vector<double>{50})[0]));
}

TEST(TheMoments, KeepTheirDigitsBesideALargeMean) {
  std::vector<double> values;
  for (int i = 0; i < 1000; ++i)
    values.push_back(1e9 + (i % 2 == 0 ? 1 : -1));
  const Moments found = moments(values);
  EXPECT_DOUBLE_EQ(found.mean, 1e9);
  EXPECT_NEAR(found.deviation, std::sqrt(1000.0 / 999), 1e-9);
}

/// Values of a function of three inputs, each even over 0..1, at independent points.
template <class Function>
PickFreeze sampled(Function f, std::size_t points) {
  std::mt19937_64 random(7);
  const auto draw = [&] { return static_cast<double>(random() >> 11U) * 0x1p-53; };
  PickFreeze values;
  values.ab.resize(3);
  for (std::size_t k = 0; k < points; ++k) {
    const std::array<double, 3> a{draw(), draw(), draw()};
    const std::array<double, 3> b{draw(), draw(), draw()};
    values.a.push_back(f(a));
    values.b.push_back(f(b));
    for (std::size_t i = 0; i < 3; ++i) {
      std::array<double, 3> mixed = a;
      mixed[i] = b[i];
      values.ab[i].push_back(f(mixed));
    }
  }
  return values;
}

double ishigami(const std::array<double, 3>& u) {
  const auto angle = [](double x) { return std::numbers::pi * (2 * x - 1); };
  const double x1 = angle(u[0]);
  const double x2 = angle(u[1]);
  const double x3 = angle(u[2]);
  return std::sin(x1) + 7 * std::pow(std::sin(x2), 2) + 0.1 * std::pow(x3, 4) * std::sin(x1);
}

// Ishigami and Homma (1990), a = 7, b = 0.1: the exact shares follow from
// V = a^2/8 + b pi^4/5 + b^2 pi^8/18 + 1/2, V1 = (1 + b pi^4/5)^2 / 2, V2 = a^2/8, V13 = 8 b^2
// pi^8/225.
TEST(TheSobolIndices, AgreeWithTheClosedFormsOfIshigamisFunction) {
  const double pi4 = std::pow(std::numbers::pi, 4);
  const double v1 = std::pow(1 + 0.1 * pi4 / 5, 2) / 2;
  const double v2 = 49.0 / 8;
  const double v13 = 8 * 0.01 * pi4 * pi4 / 225;
  const double v = v1 + v2 + v13;
  EXPECT_NEAR(v, 49.0 / 8 + 0.1 * pi4 / 5 + 0.01 * pi4 * pi4 / 18 + 0.5, 1e-9);
  const SobolIndices found = sobol_indices(sampled(ishigami, 1 << 15), 1);
  const std::array<double, 3> first{v1 / v, v2 / v, 0};
  const std::array<double, 3> total{(v1 + v13) / v, v2 / v, v13 / v};
  for (std::size_t i = 0; i < 3; ++i) {
    // Four standard errors: each of six passes by chance with 0.99994.
    EXPECT_NEAR(found.first[i].value, first[i], 4 * found.first[i].error) << i;
    EXPECT_NEAR(found.total[i].value, total[i], 4 * found.total[i].error) << i;
    EXPECT_LT(found.first[i].error, 0.02);
    EXPECT_LT(found.total[i].error, 0.02);
  }
  EXPECT_NEAR(found.variance, v, 0.03 * v);
  EXPECT_NEAR(found.mean, 3.5, 0.05) << "a / 2";
}

// The stated error is the scatter that repetitions show.
TEST(TheSobolIndices, StateTheErrorThatRepetitionsShow) {
  std::vector<double> repeated;
  double stated = 0;
  constexpr int times = 60;
  for (int repetition = 0; repetition < times; ++repetition) {
    std::mt19937_64 random(static_cast<std::uint64_t>(repetition));
    const auto shift = static_cast<double>(random() >> 11U) * 0x1p-53;
    PickFreeze values = sampled(
        [&](std::array<double, 3> u) {
          for (double& x : u)
            x = std::fmod(x + shift, 1.0);
          return ishigami(u);
        },
        512);
    const SobolIndices found = sobol_indices(values, 1);
    repeated.push_back(found.total[0].value);
    stated += found.total[0].error / times;
  }
  // The spread of 60 values is known to 1/sqrt(2 * 60) = 9 %, and they share their points' grid.
  EXPECT_NEAR(stated, moments(repeated).deviation, 0.4 * stated);
}

// A sum of independent parts: shares are w_i^2 / sum, nothing is shared.
TEST(TheSobolIndices, OfASumAreTheSharesOfItsParts) {
  const auto sum = [](const std::array<double, 3>& u) { return 3 * u[0] + 2 * u[1] + u[2]; };
  const SobolIndices found = sobol_indices(sampled(sum, 1 << 14), 3);
  for (std::size_t i = 0; i < 3; ++i) {
    const double share = std::pow(3.0 - static_cast<double>(i), 2) / 14;
    EXPECT_NEAR(found.first[i].value, share, 4 * found.first[i].error) << i;
    EXPECT_NEAR(found.total[i].value, share, 4 * found.total[i].error) << i;
  }
}

TEST(TheSobolIndices, AreTheSameForASeedAndLeaveFailedPointsOut) {
  PickFreeze values = sampled(ishigami, 256);
  const SobolIndices once = sobol_indices(values, 5);
  const SobolIndices again = sobol_indices(values, 5);
  EXPECT_EQ(once.first[1].error, again.first[1].error);
  values.a.push_back(std::numeric_limits<double>::quiet_NaN());
  values.b.push_back(0);
  for (auto& list : values.ab)
    list.push_back(0);
  EXPECT_EQ(sobol_indices(values, 5).total[0].value, once.total[0].value);
}

TEST(TheSobolIndices, OfAConstantAreZeroAndOfNothingAreAbsent) {
  const auto constant = [](const std::array<double, 3>&) { return 2.5; };
  EXPECT_EQ(sobol_indices(sampled(constant, 64), 1).total[2].value, 0);
  EXPECT_TRUE(sobol_indices({{1}, {1}, {{1}}}, 1).first.empty());
}

}  // namespace
