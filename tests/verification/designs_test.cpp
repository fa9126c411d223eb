// Point sets against what they are defined by, published points and exact integrals.

#include <array>
#include <cmath>
#include <set>
#include <vector>

#include <gtest/gtest.h>

#include "sim/design/draws.hpp"
#include "sim/design/latin_hypercube.hpp"
#include "sim/design/sobol.hpp"

namespace drumlin::sim {
namespace {

// First ten points in three dimensions, Joe and Kuo's notes on generating Sobol sequences (2008)
// (from memory).
TEST(TheSobolSequence, BeginsAsPublished) {
  constexpr std::array<std::array<double, 3>, 10> published = {{{0, 0, 0},
                                                                {0.5, 0.5, 0.5},
                                                                {0.75, 0.25, 0.25},
                                                                {0.25, 0.75, 0.75},
                                                                {0.375, 0.375, 0.625},
                                                                {0.875, 0.875, 0.125},
                                                                {0.625, 0.125, 0.875},
                                                                {0.125, 0.625, 0.375},
                                                                {0.1875, 0.3125, 0.9375},
                                                                {0.6875, 0.8125, 0.4375}}};
  const Sobol sobol(3);
  for (std::size_t i = 0; i < published.size(); ++i)
    for (std::size_t j = 0; j < 3; ++j)
      EXPECT_NEAR(sobol.at(i, j), published[i][j], 0x1p-52) << i << ", " << j;
}

// Whatever the shift: 2^k points fall one into each 2^-k of every dimension, and of the first two
// dimensions one into each of the 2^k boxes of any shape (a (0, k, 2)-net).
TEST(TheSobolSequence, FillsEveryPartOnce) {
  constexpr unsigned k = 8;
  constexpr std::uint64_t n = 1U << k;
  for (const auto shift : {std::optional<std::uint64_t>{}, std::optional<std::uint64_t>{42}}) {
    const Sobol sobol(20, shift);
    for (std::size_t j = 0; j < 20; ++j) {
      std::set<int> parts;
      for (std::uint64_t i = 0; i < n; ++i)
        parts.insert(static_cast<int>(sobol.at(i, j) * n));
      EXPECT_EQ(parts.size(), n) << j;
    }
    for (unsigned across = 0; across <= k; ++across) {
      std::set<std::pair<int, int>> boxes;
      for (std::uint64_t i = 0; i < n; ++i)
        boxes.insert({static_cast<int>(sobol.at(i, 0) * (1U << across)),
                      static_cast<int>(sobol.at(i, 1) * (1U << (k - across)))});
      EXPECT_EQ(boxes.size(), n) << across;
    }
  }
}

/// Error of the mean of prod (1 + (x_j - 1/2) c_j), whose exact mean is 1, over shifts: rms.
template <class Coordinate>
double rms_error(const Coordinate& at, std::uint64_t points) {
  constexpr std::size_t dimensions = 5;
  constexpr std::uint64_t repeats = 16;
  double square = 0;
  for (std::uint64_t r = 0; r < repeats; ++r) {
    double sum = 0;
    const auto coordinate = at(r, points, dimensions);
    for (std::uint64_t i = 0; i < points; ++i) {
      double product = 1;
      for (std::size_t j = 0; j < dimensions; ++j)
        product *= 1 + (coordinate(i, j) - 0.5) * 2.0 / static_cast<double>(j + 1);
      sum += product;
    }
    const double error = sum / static_cast<double>(points) - 1;
    square += error * error;
  }
  return std::sqrt(square / repeats);
}

double order_between(double coarse, double fine, double ratio) {
  return std::log(coarse / fine) / std::log(ratio);
}

// Random points err as N^-1/2, Sobol's about as 1/N on a smooth function of few dimensions; 16
// repeats know an rms to a fifth, which over a factor of 16 is 0.1 of an order.
TEST(TheSobolSequence, IntegratesAboutAsOneOverN) {
  const auto sobol = [](std::uint64_t r, std::uint64_t, std::size_t dimensions) {
    return [points = Sobol(dimensions, 100 + r)](std::uint64_t i, std::size_t j) {
      return points.at(i, j);
    };
  };
  const auto random = [](std::uint64_t r, std::uint64_t, std::size_t) {
    return [r](std::uint64_t i, std::size_t j) { return draw(100 + r, DrawFor::row, i, j); };
  };
  const double order = order_between(rms_error(sobol, 256), rms_error(sobol, 4096), 16);
  RecordProperty("sobol_order", std::to_string(order));
  EXPECT_GT(order, 0.85);
  EXPECT_NEAR(order_between(rms_error(random, 256), rms_error(random, 4096), 16), 0.5, 0.2);
  EXPECT_LT(rms_error(sobol, 4096), 0.05 * rms_error(random, 4096));
}

TEST(ALatinHypercube, HasOnePointInEveryPart) {
  for (const std::uint64_t n : {1U, 2U, 3U, 7U, 64U, 1000U, 4097U}) {
    const LatinHypercube cube(5, n);
    for (std::uint64_t j = 0; j < 4; ++j) {
      std::vector<bool> met(n, false);
      for (std::uint64_t i = 0; i < n; ++i) {
        const double x = cube.at(i, j);
        ASSERT_TRUE(x > 0 && x < 1);
        const auto part = static_cast<std::size_t>(x * static_cast<double>(n));
        ASSERT_LT(part, n);
        EXPECT_FALSE(met[part]) << n << " points, dimension " << j;
        met[part] = true;
      }
    }
  }
}

// Dimensions that are paired at random correlate as 1/sqrt(n): four deviations over ten pairs.
TEST(ALatinHypercube, PairsItsDimensionsAtRandom) {
  constexpr std::uint64_t n = 1000;
  const LatinHypercube cube(11, n);
  for (std::uint64_t a = 0; a < 5; ++a)
    for (std::uint64_t b = 0; b < a; ++b) {
      double product = 0;
      for (std::uint64_t i = 0; i < n; ++i)
        product += (cube.at(i, a) - 0.5) * (cube.at(i, b) - 0.5);
      EXPECT_LT(std::abs(12 * product / n), 4 / std::sqrt(static_cast<double>(n))) << a << b;
    }
}

// A sum of functions of one dimension each errs as n^-3/2 (Stein 1987, Technometrics 29, 143): by
// far less than random points.
TEST(ALatinHypercube, IntegratesSumsFarBetterThanRandomPoints) {
  constexpr std::uint64_t n = 1000;
  const LatinHypercube cube(3, n);
  double sum = 0;
  for (std::uint64_t i = 0; i < n; ++i)
    for (std::uint64_t j = 0; j < 3; ++j)
      sum += std::pow(cube.at(i, j), 2);
  // Random points: deviation sqrt(3 * 4/45 / n) = 0.016.
  EXPECT_NEAR(sum / n, 1.0, 2e-4);
}

TEST(ADraw, IsUniformAndItsPurposesHaveNothingToDoWithEachOther) {
  constexpr int n = 100000;
  double sum = 0;
  double square = 0;
  double product = 0;
  for (std::uint64_t i = 0; i < n; ++i) {
    const double u = draw(1, DrawFor::row, i, 0);
    const double v = draw(1, DrawFor::place, i, 0);
    sum += u;
    square += u * u;
    product += (u - 0.5) * (v - 0.5);
  }
  // Four deviations: sqrt(1/12 n), sqrt(4/45 n), 1/(12 sqrt n).
  EXPECT_NEAR(sum / n, 0.5, 4 * 0.2887 / std::sqrt(n));
  EXPECT_NEAR(square / n, 1.0 / 3, 4 * 0.2981 / std::sqrt(n));
  EXPECT_NEAR(product / n, 0, 4.0 / 12 / std::sqrt(n));
}

}  // namespace
}  // namespace drumlin::sim
