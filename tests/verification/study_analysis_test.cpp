// What a finished study says: shares of the variance, ranks, corners, limits and odd rows, from
// tables whose truth is known.

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

#include <boost/math/distributions/normal.hpp>
#include <gtest/gtest.h>

#include "sim/design/pick_freeze.hpp"
#include "sim/design/sobol.hpp"
#include "sim/statistics/given_data.hpp"
#include "sim/statistics/percentile.hpp"
#include "sim/statistics/rank_correlation.hpp"
#include "sim/study_analysis/analyse.hpp"
#include "sim/study_analysis/reason_kind.hpp"
#include "tests/support/ishigami.hpp"
#include "tests/support/table_in_memory.hpp"

namespace drumlin::sim {
namespace {

using cases::DesignKind;
using support::TableInMemory;

const double gap = std::numeric_limits<double>::quiet_NaN();

cases::StudyWishes wishes(DesignKind kind, std::size_t factors) {
  cases::StudyWishes wishes;
  wishes.file = "study.toml";
  wishes.design = kind;
  wishes.varied.assign(factors, "0 to 1, evenly");
  return wishes;
}

cases::StudyWishes aimed_at(cases::StudyWishes wishes, std::vector<std::string> columns) {
  for (const std::string& column : columns) {
    cases::Aim aim;
    aim.column = column;
    wishes.aims.push_back(aim);
  }
  return wishes;
}

/// Three factors by a design, and Ishigami's function of them.
template <class Design>
TableInMemory ishigami_table(std::uint64_t rows, const Design& design, double (*second)(double)) {
  TableInMemory table(rows);
  std::vector<std::vector<double>> factors(3, std::vector<double>(rows));
  std::vector<double> output(rows);
  std::vector<double> other(rows);
  for (std::uint64_t i = 0; i < rows; ++i) {
    std::array<double, 3> u{};
    for (std::size_t k = 0; k < 3; ++k)
      factors[k][i] = u[k] = design.at(i, k);
    output[i] = support::ishigami(u);
    other[i] = second(u[0]);
  }
  for (std::size_t k = 0; k < 3; ++k)
    table.add({"u" + std::to_string(k), "1", "", "factor"}, factors[k]);
  table.add({"f", "1", "", "output"}, output);
  table.add({"g", "1", "", "output"}, other);
  table.finish();
  return table;
}

TEST(APickFreezeDesign, FreezesAllFactorsButOne) {
  const PickFreezePoints points(3, 11);
  for (std::uint64_t j = 0; j < 40; ++j)
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t k = 0; k < 3; ++k)
        EXPECT_EQ(points.at(5 * j + 2 + i, k), points.at(5 * j + (i == k ? 1 : 0), k));
}

TEST(APickFreezeDesign, HasTwoHalvesThatHaveNothingToDoWithEachOther) {
  const PickFreezePoints points(3, 4);
  std::vector<double> a;
  std::vector<double> b;
  for (std::uint64_t j = 0; j < 4096; ++j) {
    a.push_back(points.at(5 * j, 1));
    b.push_back(points.at(5 * j + 1, 1));
  }
  // Independent ones correlate by 1/sqrt(4096) = 0.016.
  EXPECT_LT(std::abs(rank_correlation(a, b)->value), 0.03);
  EXPECT_NEAR(moments(a).mean, 0.5, 1e-3);
  EXPECT_NEAR(moments(b).mean, 0.5, 1e-3);
}

// Published shares through the design's own rows and a table that is read in stretches.
TEST(SharesOfAStudy, AgreeWithThePublishedOnesOfIshigamisFunction) {
  constexpr std::uint64_t points = 1 << 13;
  const TableInMemory table =
      ishigami_table(5 * points, PickFreezePoints(3, 2), [](double u) { return u; });
  const StudyAnalysis study =
      analyse(table.table(), aimed_at(wishes(DesignKind::pick_freeze, 3), {"f", "g"}));
  ASSERT_EQ(study.shares.size(), 2U);
  EXPECT_EQ(study.shares[0].points, points);
  EXPECT_EQ(study.looked_at, 2 * points) << "rows A and B alone are independent";
  for (std::size_t k = 0; k < 3; ++k) {
    const FactorShare& share = study.shares[0].factors[k];
    // Four errors; half a unit of the published numbers' last digit.
    EXPECT_NEAR(share.first->value, support::ishigami_first[k], 4 * share.first->error + 5e-5);
    EXPECT_NEAR(share.total->value, support::ishigami_total[k], 4 * share.total->error + 5e-5);
    EXPECT_LT(share.total->error, 0.02);
    // The second output is u0 itself.
    EXPECT_NEAR(study.shares[1].factors[k].total->value, k == 0 ? 1 : 0, 0.05);
  }
}

// The error falls with the points: the estimate converges on the exact value.
TEST(SharesOfAStudy, ConvergeOnTheExactValue) {
  std::vector<double> worst;
  for (const std::uint64_t points : {64U, 512U, 4096U}) {
    double rms = 0;
    constexpr int repetitions = 8;
    for (std::uint64_t seed = 0; seed < repetitions; ++seed) {
      const TableInMemory table =
          ishigami_table(5 * points, PickFreezePoints(3, seed), [](double u) { return u; });
      const StudyAnalysis study =
          analyse(table.table(), aimed_at(wishes(DesignKind::pick_freeze, 3), {"f", "g"}));
      for (std::size_t k = 0; k < 3; ++k)
        rms += std::pow(study.shares[0].factors[k].total->value - support::ishigami_total[k], 2) /
               (3 * repetitions);
    }
    worst.push_back(std::sqrt(rms));
  }
  // Independent points gain sqrt(8) = 2.8 a step; a digital net no less, but for chance.
  EXPECT_LT(worst[1], worst[0] / 2);
  EXPECT_LT(worst[2], worst[1] / 2);
}

TEST(SharesOfAStudy, LeaveOutPointsOfWhichARowHasNoNumber) {
  constexpr std::uint64_t points = 512;
  const PickFreezePoints design(2, 1);
  TableInMemory table(4 * points);
  std::vector<double> u0;
  std::vector<double> u1;
  std::vector<double> f;
  std::vector<std::string> statuses;
  for (std::uint64_t i = 0; i < 4 * points; ++i) {
    u0.push_back(design.at(i, 0));
    u1.push_back(design.at(i, 1));
    const bool fails = i % 40 == 3;
    f.push_back(fails ? gap : u0.back() + u1.back());
    statuses.emplace_back(fails ? "not converged" : "done");
  }
  table.add({"u0", "1", "", "factor"}, u0);
  table.add({"u1", "1", "", "factor"}, u1);
  table.add({"f", "1", "", "output"}, f);
  table.finish(statuses, std::vector<std::string>(4 * points));
  const StudyAnalysis study =
      analyse(table.table(), aimed_at(wishes(DesignKind::pick_freeze, 2), {"f", "u0"}));
  ASSERT_EQ(study.shares.size(), 1U) << "a factor is no output, though it may be an aim";
  EXPECT_EQ(study.shares[0].incomplete, 52U);  // rows 3, 43, ..., 2043: each in a point of its own
  EXPECT_EQ(study.shares[0].points, points - 52);
  EXPECT_NEAR(study.shares[0].factors[0].total->value, 0.5, 0.1);
}

// Classes of a factor on points of another design.
TEST(SharesByClasses, AgreeWithIshigamisFirstOrderOnes) {
  constexpr std::uint64_t rows = 1 << 14;
  const TableInMemory table = ishigami_table(rows, Sobol(3, 6), [](double u) { return u; });
  const StudyAnalysis study =
      analyse(table.table(), aimed_at(wishes(DesignKind::sobol, 3), {"f", "g"}));
  for (std::size_t k = 0; k < 3; ++k) {
    const FactorShare& share = study.shares[0].factors[k];
    EXPECT_FALSE(share.total) << "total shares need their own design";
    // 25 classes: inside one, sin^2 runs through 2 * 2 pi / 25 of its phase and keeps
    // (0.5)^2 / 12 = 2 % of its share to itself.
    EXPECT_NEAR(share.first->value, support::ishigami_first[k],
                4 * share.first->error + 0.02 * support::ishigami_first[k]);
  }
  EXPECT_NEAR(study.shares[1].factors[0].first->value, 1, 0.01);
}

// A factor without effect has no share on average, however few the rows: the classes' chance is
// taken off. Without that it would be (m - 1)/(n - 1) = 3 / 63.
TEST(SharesByClasses, OfAFactorWithoutEffectAreZeroOnAverage) {
  std::mt19937_64 random(8);
  const auto draw = [&] { return static_cast<double>(random() >> 11U) * 0x1p-53; };
  std::vector<double> found;
  for (int repetition = 0; repetition < 400; ++repetition) {
    std::vector<double> x;
    std::vector<double> y;
    for (int i = 0; i < 64; ++i) {
      x.push_back(draw());
      y.push_back(draw());
    }
    found.push_back(given_data_share(x, y, 1, 0)->value);
  }
  const Moments scatter = moments(found);
  EXPECT_NEAR(scatter.mean, 0, 4 * scatter.deviation / std::sqrt(400.0));
  EXPECT_LT(scatter.deviation / std::sqrt(400.0) * 4, 3.0 / 63) << "the test can tell";
}

TEST(SharesByClasses, TakeEachValueOfAFactorOfFewValues) {
  std::vector<double> x;
  std::vector<double> y;
  for (int i = 0; i < 300; ++i) {
    x.push_back(i % 3);
    y.push_back(i % 3 == 1 ? 4.0 : -1.0);
  }
  EXPECT_NEAR(given_data_share(x, y, 1)->value, 1, 1e-12);
  EXPECT_FALSE(given_data_share(x, std::vector<double>(300, 2.0), 1));
  EXPECT_FALSE(given_data_share(std::vector<double>{1, 2}, std::vector<double>{1, 2}, 1));
}

// Two normal quantities that correlate by rho: Spearman's is (6 / pi) asin(rho / 2) (Pearson 1907).
TEST(ARankCorrelation, OfTwoNormalQuantitiesHasAClosedForm) {
  constexpr std::uint64_t rows = 1 << 14;
  const Sobol points(2, 3);
  const boost::math::normal normal;
  for (const double rho : {-0.9, 0.0, 0.5}) {
    std::vector<double> a;
    std::vector<double> b;
    for (std::uint64_t i = 0; i < rows; ++i) {
      const double x = quantile(normal, points.at(i, 0));
      const double y = quantile(normal, points.at(i, 1));
      a.push_back(x);
      b.push_back(std::exp(rho * x + std::sqrt(1 - rho * rho) * y));  // ranks see no exp
    }
    const auto found = rank_correlation(a, b);
    const double exact = 6 / std::numbers::pi * std::asin(rho / 2);
    // A net of 2^14 points errs far less than independent rows, 1 / sqrt(2^14) = 0.008.
    EXPECT_NEAR(found->value, exact, 0.003) << rho;
    EXPECT_LT(found->low, exact);
    EXPECT_GT(found->high, exact);
  }
}

// Worked example with ties, by hand: ranks 1, 2.5, 2.5, 4 against 1, 3, 2, 4.
TEST(ARankCorrelation, SharesRanksAmongEqualValues) {
  const std::vector<double> a{1, 5, 5, 9};
  EXPECT_EQ(ranks(a), (std::vector<double>{1, 2.5, 2.5, 4}));
  const auto found = rank_correlation(a, std::vector<double>{10, 30, 20, 40});
  EXPECT_NEAR(found->value, 4.5 / std::sqrt(4.5 * 5), 1e-15);
  EXPECT_EQ(rank_correlation(a, std::vector<double>{1, 2, 2, 3})->value, 1);
  EXPECT_FALSE(rank_correlation(a, std::vector<double>(4, 1.0)));
}

// Its interval holds the true value as often as it says.
TEST(ARankCorrelation, StatesAnIntervalThatHolds) {
  std::mt19937_64 random(2);
  const boost::math::normal normal;
  const auto draw = [&] {
    return quantile(normal, (static_cast<double>(random() >> 11U) + 0.5) * 0x1p-53);
  };
  const double rho = 0.6;
  const double exact = 6 / std::numbers::pi * std::asin(rho / 2);
  int held = 0;
  constexpr int times = 1000;
  for (int t = 0; t < times; ++t) {
    std::vector<double> a;
    std::vector<double> b;
    for (int i = 0; i < 60; ++i) {
      a.push_back(draw());
      b.push_back(rho * a.back() + std::sqrt(1 - rho * rho) * draw());
    }
    const auto found = rank_correlation(a, b);
    if (found->low <= exact && exact <= found->high) ++held;
  }
  // 950 with a scatter of 7, and the formula's own error of about 1 %.
  EXPECT_NEAR(held, 950, 35);
}

/// A table over two factors of which some rows fail.
template <class Fails>
StudyAnalysis with_failures(const Fails& fails) {
  constexpr std::uint64_t rows = 4000;
  const Sobol points(2, 9);
  TableInMemory table(rows);
  std::vector<double> u0;
  std::vector<double> u1;
  std::vector<double> f;
  std::vector<std::string> statuses;
  std::vector<std::string> reasons;
  for (std::uint64_t i = 0; i < rows; ++i) {
    u0.push_back(points.at(i, 0));
    u1.push_back(points.at(i, 1));
    const bool bad = fails(i, u0.back());
    f.push_back(bad ? gap : u0.back() - u1.back());
    statuses.emplace_back(bad ? "bad input" : "done");
    reasons.emplace_back(bad ? "too deep\nfor row " + std::to_string(i) : "");
  }
  table.add({"u0", "mm", "", "factor"}, u0);
  table.add({"u1", "mm", "", "factor"}, u1);
  table.add({"limit.f.margin_um", "um", "", "output"}, f);
  table.add({"face.removal_um", "um", "", "output"}, f);
  table.finish(statuses, reasons);
  return analyse(table.table(), wishes(DesignKind::sobol, 2));
}

TEST(FailuresOfAStudy, AreToldToLieInACorner) {
  const StudyAnalysis study = with_failures([](std::uint64_t, double u0) { return u0 > 0.99; });
  ASSERT_EQ(study.failed.size(), 2U);
  EXPECT_TRUE(study.failed[0].differs);
  EXPECT_FALSE(study.failed[1].differs);
  EXPECT_EQ(study.failed[0].groups.front().hits, 0U);
  EXPECT_EQ(study.failed[0].groups.back().hits, 40U);
  EXPECT_NEAR(study.failed[0].groups.back().share.value, 0.04, 1e-4);
  ASSERT_EQ(study.reasons.size(), 1U) << "what differs from row to row is not told apart";
  EXPECT_EQ(study.reasons[0].text, "bad input: too deep");
  EXPECT_EQ(study.reasons[0].rows, 40U);
  EXPECT_TRUE(study.not_accepted.empty());
}

TEST(FailuresOfAStudy, AreCountedByKindNotByTheirNumbers) {
  EXPECT_EQ(
      reason_kind("/a/b/panel.toml:20:34: error: part.feature[0].burr.height: 0.1 mm is more, with "
                  "an interference of 7.4e-05 mm at most -3, for hole-6 of 2 m/min\nmore"),
      "panel.toml:20:34: error: part.feature[0].burr.height: ... mm is more, with an "
      "interference of ... mm at most ..., for hole-6 of ... m/min");
  EXPECT_EQ(reason_kind("\"16 mm\" 3rd 1.5mm"), "\"... mm\" 3rd 1.5mm");
}

TEST(FailuresOfAStudy, AreToldToBeSpread) {
  const StudyAnalysis study = with_failures([](std::uint64_t i, double) { return i % 97 == 0; });
  ASSERT_EQ(study.failed.size(), 2U);
  EXPECT_FALSE(study.failed[0].differs);
  EXPECT_FALSE(study.failed[1].differs);
}

// u0 - u1 >= 0 in half of the square.
TEST(ALimitOfAStudy, IsMetByTheShareOfRowsWithoutANegativeMargin) {
  const StudyAnalysis study = with_failures([](std::uint64_t i, double) { return i % 97 == 0; });
  ASSERT_EQ(study.limits.size(), 1U);
  EXPECT_EQ(study.limits[0].rows, 4000U - 42);
  EXPECT_NEAR(study.limits[0].met.value, 0.5, 0.01);
  EXPECT_LT(study.limits[0].met.low, 0.5);
  EXPECT_GT(study.limits[0].met.high, 0.5);
  // Percentiles of a triangular density on -1 to 1: the p-th is sqrt(2 p) - 1 below the middle.
  const auto found = std::find_if(study.spreads.begin(), study.spreads.end(),
                                  [](const OutputSpread& s) { return s.rows == 4000U - 42; });
  ASSERT_NE(found, study.spreads.end());
  const std::array<double, 5> exact{std::sqrt(0.1) - 1, std::sqrt(0.5) - 1, 0, 1 - std::sqrt(0.5),
                                    1 - std::sqrt(0.1)};
  for (std::size_t i = 0; i < exact.size(); ++i)
    // Independent rows: sqrt(p (1 - p) / 4000) over the density there, at most 0.011; three of it.
    EXPECT_NEAR(found->percentiles[i], exact[i], 0.033);
}

// Rows on a quadratic surface but for one.
TEST(OddRowsOfAStudy, AreThoseThatTheSurfaceDoesNotKnow) {
  constexpr std::uint64_t rows = 600;
  const Sobol points(2, 1);
  TableInMemory table(rows);
  std::vector<double> u0;
  std::vector<std::string> grit;
  std::vector<double> f;
  for (std::uint64_t i = 0; i < rows; ++i) {
    const double x = points.at(i, 0);
    u0.push_back(x);
    grit.emplace_back(i % 3 == 0 ? "P80" : i % 3 == 1 ? "P120" : "P240");
    f.push_back(2 - 3 * x + 5 * x * x + (i % 3 == 0 ? 10 : 0) + 1e-3 * points.at(i, 1));
  }
  f[417] += 0.5;
  table.add({"u0", "1", "", "factor"}, u0);
  table.add({"grit", "text", "", "factor"}, grit);
  table.add({"f", "um", "", "output"}, f);
  table.add({"g", "um", "", "output"}, u0);
  table.finish();
  const StudyAnalysis study =
      analyse(table.table(), aimed_at(wishes(DesignKind::sobol, 2), {"f", "g"}));
  ASSERT_EQ(study.odd_rows.size(), 5U);
  EXPECT_EQ(study.odd_rows[0].row, 417U);
  EXPECT_NEAR(study.odd_rows[0].value - study.odd_rows[0].expected, 0.5, 0.01);
  EXPECT_FALSE(study.shares[0].factors[1].rank) << "words have no rank";
  EXPECT_GT(study.shares[0].factors[1].first->value, 0.8) << "but a share";
}

// More rows than are looked at: one of each stretch, whatever steps the study has.
TEST(ALongStudy, IsLookedAtEvenlyAndWithinItsCap) {
  constexpr std::uint64_t rows = 2'500'000;
  TableInMemory table(rows);
  std::vector<double> u(rows);
  for (std::uint64_t i = 0; i < rows; ++i)
    u[i] = static_cast<double>(i % 3);  // as a grid whose last factor has three values
  table.add({"u", "1", "", "factor"}, u);
  table.add({"face.removal_um", "um", "", "output"}, u);
  table.finish();
  const StudyAnalysis study = analyse(table.table(), wishes(DesignKind::grid, 1));
  EXPECT_LE(study.looked_at, most_rows_looked_at);
  EXPECT_GE(study.looked_at, most_rows_looked_at / 2);
  // A fixed step of three would have met one value only.
  EXPECT_EQ(study.spreads.at(0).percentiles, (std::array<double, 5>{0, 0, 1, 2, 2}));
  EXPECT_EQ(study.statuses.at(0).rows, rows) << "counts are of all rows";
}

}  // namespace
}  // namespace drumlin::sim
