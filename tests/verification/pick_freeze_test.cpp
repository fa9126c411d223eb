// The pick-freeze design from one Sobol sequence: published test functions, closed forms, and how
// fast its errors fall.

#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <vector>

#include <boost/math/distributions/normal.hpp>
#include <gtest/gtest.h>

#include "models/distribution/distributions.hpp"
#include "sim/scatter/pick_freeze_design.hpp"
#include "sim/statistics/percentile.hpp"
#include "sim/statistics/proportion.hpp"
#include "sim/statistics/sobol_indices.hpp"

namespace {

using namespace drumlin::sim;
using Function = std::function<double(const std::vector<double>&)>;

PickFreeze over(const PickFreezeDesign& design, const Function& f) {
  PickFreeze values;
  values.ab.resize(design.inputs());
  for (std::size_t set = 0; set < design.sets(); ++set) {
    std::vector<double>& into = set == 0 ? values.a : set == 1 ? values.b : values.ab[set - 2];
    for (std::uint64_t point = 0; point < design.size(); ++point)
      into.push_back(f(design.at(set, point)));
  }
  return values;
}

TEST(ThePickFreezeDesign, TakesOneColumnAtATimeFromTheOtherSet) {
  const PickFreezeDesign design(3, 8, 5);
  EXPECT_EQ(design.sets(), 5U);
  for (std::uint64_t point = 0; point < 8; ++point) {
    const auto a = design.at(0, point);
    const auto b = design.at(1, point);
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t j = 0; j < 3; ++j)
        EXPECT_EQ(design.at(2 + i, point)[j], i == j ? b[j] : a[j]);
  }
}

// Ishigami and Homma (1990): sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1, even over -pi..pi. Indices in
// closed form: V = a^2/8 + b pi^4/5 + b^2 pi^8/18 + 1/2, V1 = (1 + b pi^4/5)^2 / 2, V2 = a^2/8,
// V13 = 8 b^2 pi^8/225; S = 0.314, 0.442, 0 and T = 0.558, 0.442, 0.244, as Saltelli et al. (2008)
// print them (from memory).
TEST(ThePickFreezeDesign, FindsThePublishedIndicesOfIshigamisFunction) {
  const auto f = [](const std::vector<double>& u) {
    std::array<double, 3> x{};
    for (std::size_t i = 0; i < 3; ++i)
      x[i] = std::numbers::pi * (2 * u[i] - 1);
    return std::sin(x[0]) + 7 * std::pow(std::sin(x[1]), 2) +
           0.1 * std::pow(x[2], 4) * std::sin(x[0]);
  };
  const SobolIndices found = sobol_indices(over(PickFreezeDesign(3, 4096, 1), f), 1, 20);
  constexpr std::array<double, 3> first{0.3139, 0.4424, 0.0};
  constexpr std::array<double, 3> total{0.5576, 0.4424, 0.2437};
  // Independent points would err by 0.01 to 0.03 here; a quarter of that is asked.
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(found.first[i].value, first[i], 0.005) << i;
    EXPECT_NEAR(found.total[i].value, total[i], 0.005) << i;
  }
}

/// Sobol's g-function: product of (|4 u - 2| + a) / (1 + a).
struct GFunction {
  std::vector<double> a;

  double operator()(const std::vector<double>& u) const {
    double product = 1;
    for (std::size_t i = 0; i < a.size(); ++i)
      product *= (std::abs(4 * u[i] - 2) + a[i]) / (1 + a[i]);
    return product;
  }
  [[nodiscard]] double part(std::size_t i) const { return 1 / (3 * std::pow(1 + a[i], 2)); }
  [[nodiscard]] double variance() const {
    double product = 1;
    for (std::size_t i = 0; i < a.size(); ++i)
      product *= 1 + part(i);
    return product - 1;
  }
  [[nodiscard]] double first(std::size_t i) const { return part(i) / variance(); }
  [[nodiscard]] double total(std::size_t i) const {
    return part(i) * (1 + variance()) / (1 + part(i)) / variance();
  }
};

// Sobol (1993) with a = 0, 1, 4.5, 9, 99, 99, 99, 99: Saltelli et al. (2008) print first-order
// indices 0.716, 0.179, 0.024, 0.007 and 0.0001 (from memory).
TEST(ThePickFreezeDesign, FindsThePublishedIndicesOfTheGFunction) {
  const GFunction g{{0, 1, 4.5, 9, 99, 99, 99, 99}};
  EXPECT_NEAR(g.first(0), 0.716, 5e-4);
  EXPECT_NEAR(g.first(1), 0.179, 5e-4);
  EXPECT_NEAR(g.first(2), 0.024, 5e-4);
  EXPECT_NEAR(g.first(3), 0.007, 5e-4);
  const SobolIndices found = sobol_indices(over(PickFreezeDesign(8, 4096, 1), g), 1, 20);
  for (std::size_t i = 0; i < 8; ++i) {
    EXPECT_NEAR(found.first[i].value, g.first(i), 0.01) << i;
    EXPECT_NEAR(found.total[i].value, g.total(i), 0.01) << i;
  }
}

/// Removal as a product: K lognormal, line load lognormal (models/theory/scatter.md).
struct Product {
  drumlin::models::Lognormal k{4e-5, 1.2};
  drumlin::models::Lognormal load{0.6, 1.1};
  [[nodiscard]] double operator()(const std::vector<double>& u) const {
    return k.quantile(u[0]) * load.quantile(u[1]);
  }
  [[nodiscard]] double variance_of_log() const {
    return std::pow(std::log(k.factor), 2) + std::pow(std::log(load.factor), 2);
  }
  [[nodiscard]] double mean() const {
    return k.median * load.median * std::exp(0.5 * variance_of_log());
  }
  [[nodiscard]] double limit(double share) const {
    return k.median * load.median *
           std::exp(std::sqrt(variance_of_log()) *
                    boost::math::quantile(boost::math::normal(), share));
  }
  [[nodiscard]] double total_of_k() const {
    const double one = std::pow(std::log(k.factor), 2);
    const double other = std::pow(std::log(load.factor), 2);
    return std::exp(other) * std::expm1(one) / std::expm1(one + other);
  }
};

/// Slope of log2 of the rms error over seeds between 64 and 4096 points.
template <class Error>
double order_of(const Error& error) {
  constexpr int seeds = 24;
  const auto rms = [&](std::uint64_t size) {
    double sum = 0;
    for (std::uint64_t seed = 1; seed <= seeds; ++seed)
      sum += std::pow(error(PickFreezeDesign(2, size, seed)), 2);
    return std::sqrt(sum / seeds);
  };
  return std::log2(rms(64) / rms(4096)) / 6;
}

TEST(ThePickFreezeDesign, NearsMeanPercentileAndShareFasterThanChance) {
  const Product f;
  const auto both = [&](const PickFreezeDesign& design) {
    const PickFreeze values = over(design, f);
    std::vector<double> all = values.a;
    all.insert(all.end(), values.b.begin(), values.b.end());
    return all;
  };
  const double mean = order_of(
      [&](const PickFreezeDesign& design) { return moments(both(design)).mean / f.mean() - 1; });
  const double share = order_of([&](const PickFreezeDesign& design) {
    return sobol_indices(over(design, f), 1, 0).total[0].value - f.total_of_k();
  });
  const double limit = f.limit(0.9);
  const double probability = order_of([&](const PickFreezeDesign& design) {
    double met = 0;
    for (const double value : both(design))
      met += value <= limit ? 1 : 0;
    return met / (2.0 * static_cast<double>(design.size())) - 0.9;
  });
  RecordProperty("mean", std::to_string(mean));
  RecordProperty("share", std::to_string(share));
  RecordProperty("probability", std::to_string(probability));
  // Chance falls as n^-0.5. A share of draws is a step in two inputs: n^-0.75 is what a sequence of
  // so many dimensions gives it (Owen 2003), and a tenth is left for 24 seeds.
  EXPECT_GT(mean, 0.8) << "order of the mean";
  EXPECT_GT(share, 0.8) << "order of the total share";
  EXPECT_GT(probability, 0.65) << "order of the probability";
}

// Exact for independent draws, wide for these: of 200 seeds 95 % less twice the error of that share
// have to hold the truth.
TEST(TheIntervalOfAProbability, HoldsTheTruthAtLeastAsOftenAsItSays) {
  const Product f;
  for (const double truth : {0.5, 0.9, 0.99}) {
    const double limit = f.limit(truth);
    int held = 0;
    constexpr int seeds = 200;
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
      const PickFreezeDesign design(2, 64, seed);
      std::uint64_t met = 0;
      for (const std::size_t set : {0U, 1U})
        for (std::uint64_t point = 0; point < design.size(); ++point)
          met += f(design.at(set, point)) <= limit ? 1U : 0U;
      const Proportion p = proportion(met, 2 * design.size());
      held += p.low <= truth && truth <= p.high ? 1 : 0;
    }
    RecordProperty("held_" + std::to_string(static_cast<int>(100 * truth)), held);
    EXPECT_GE(held, static_cast<int>(seeds * (0.95 - 2 * std::sqrt(0.95 * 0.05 / seeds)))) << truth;
  }
}

}  // namespace
