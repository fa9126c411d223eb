// The trade-off front and its knee: against comparing every row with every other, a published test
// problem, and shapes whose knee is known.

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <set>

#include <gtest/gtest.h>

#include "sim/study_analysis/front_archive.hpp"
#include "sim/study_analysis/knee.hpp"

namespace drumlin::sim {
namespace {

using Rows = std::vector<std::vector<double>>;

std::set<std::uint64_t> by_brute_force(const Rows& rows) {
  std::set<std::uint64_t> front;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    bool beaten = false;
    for (std::size_t j = 0; j < rows.size() && !beaten; ++j) {
      bool level = true;
      bool better = false;
      for (std::size_t k = 0; k < rows[i].size(); ++k) {
        level = level && rows[j][k] <= rows[i][k];
        better = better || rows[j][k] < rows[i][k];
      }
      beaten = level && better;
    }
    if (!beaten) front.insert(i);
  }
  return front;
}

FrontArchive archive_of(const Rows& rows, std::size_t most = FrontArchive::most) {
  FrontArchive archive(rows.front().size(), most);
  for (std::size_t i = 0; i < rows.size(); ++i)
    archive.offer(i, rows[i]);
  return archive;
}

std::set<std::uint64_t> rows_in(const FrontArchive& archive) {
  std::set<std::uint64_t> rows;
  for (const auto& point : archive.points())
    rows.insert(point.row);
  return rows;
}

/// Random rows; rounded, so that aims and whole rows are equal here and there.
Rows random_rows(std::size_t count, std::size_t aims, double step, unsigned seed) {
  std::mt19937_64 random(seed);
  Rows rows(count, std::vector<double>(aims));
  for (auto& row : rows)
    for (double& aim : row)
      aim = step * std::round(static_cast<double>(random() >> 11U) * 0x1p-53 / step);
  return rows;
}

std::vector<FrontPoint> points_of(const Rows& rows) {
  std::vector<FrontPoint> points;
  for (std::size_t i = 0; i < rows.size(); ++i)
    points.push_back({i, rows[i]});
  return points;
}

TEST(AFront, IsWhatComparingEveryRowWithEveryOtherGives) {
  for (const std::size_t aims : {2U, 3U, 5U})
    for (const double step : {1e-9, 0.05, 0.5}) {
      const Rows rows = random_rows(1500, aims, step, static_cast<unsigned>(aims));
      const FrontArchive archive = archive_of(rows);
      EXPECT_EQ(rows_in(archive), by_brute_force(rows)) << aims << " aims, step " << step;
      EXPECT_FALSE(archive.thinned());
    }
}

TEST(AFront, DoesNotDependOnTheOrderOfItsRows) {
  const Rows rows = random_rows(800, 3, 0.02, 9);
  Rows turned(rows.rbegin(), rows.rend());
  std::set<std::uint64_t> back;
  for (const std::uint64_t i : rows_in(archive_of(turned)))
    back.insert(rows.size() - 1 - i);
  EXPECT_EQ(back, rows_in(archive_of(rows)));
}

// ZDT1 of Zitzler, Deb and Thiele (2000), Evol. Comput. 8, 173: f1 = x, f2 = g (1 - sqrt(x / g));
// its front is f2 = 1 - sqrt(f1), where g = 1.
TEST(AFront, OfZdt1IsItsClosedForm) {
  Rows rows;
  std::set<std::uint64_t> expected;
  for (int i = 0; i <= 200; ++i)
    for (const double g : {4.0, 1.0, 2.5, 1.01}) {
      const double x = i / 200.0;
      if (g == 1.0) expected.insert(rows.size());
      rows.push_back({x, g * (1 - std::sqrt(x / g))});
    }
  EXPECT_EQ(rows_in(archive_of(rows)), expected);
  for (const auto& point : archive_of(rows).points())
    EXPECT_NEAR(point.aims[1], 1 - std::sqrt(point.aims[0]), 1e-15);
}

TEST(AFront, LongerThanItsArchiveIsAPartThatNoRowBeats) {
  Rows rows = random_rows(6000, 4, 1e-9, 3);
  FrontArchive archive = archive_of(rows, 40);
  ASSERT_TRUE(archive.thinned());
  for (const auto& row : rows)
    archive.strike(row);
  const std::set<std::uint64_t> whole = by_brute_force(rows);
  const std::set<std::uint64_t> part = rows_in(archive);
  EXPECT_GE(part.size(), 1U);
  EXPECT_LE(part.size(), 40U);
  EXPECT_TRUE(std::includes(whole.begin(), whole.end(), part.begin(), part.end()));
}

// Where every row is on the front, none of the part is lost again.
TEST(AFront, LongerThanItsArchiveKeepsHalfOfItAtLeast) {
  Rows rows;
  for (int i = 0; i < 5000; ++i) {
    const double x = (i * 1229 % 5000) / 5000.0;
    rows.push_back({x, 1 - std::sqrt(x)});
  }
  FrontArchive archive = archive_of(rows, 400);
  for (const auto& row : rows)
    archive.strike(row);
  EXPECT_TRUE(archive.thinned());
  EXPECT_GE(archive.points().size(), 200U);
  EXPECT_EQ(archive.offered(), 5000U);
  EXPECT_EQ(archive.points().front().aims, (std::vector<double>{0, 1})) << "its ends are kept";
  EXPECT_EQ(archive.points().back().aims[0], 4999 / 5000.0);
}

// A quarter circle, hollow towards the worse: the point farthest from its chord is at 45 degrees,
// 1 - 1/sqrt(2) from it.
TEST(TheKnee, OfAQuarterCircleIsAtFortyFiveDegrees) {
  Rows rows;
  for (int i = 0; i <= 90; ++i) {
    const double angle = i * std::numbers::pi / 180;
    rows.push_back({1 - std::cos(angle), 1 - std::sin(angle)});
  }
  const auto found = knee_of(points_of(rows), {false, false}).knee;
  ASSERT_TRUE(found);
  EXPECT_EQ(found->point, 45U);
  EXPECT_NEAR(found->distance, 1 - 1 / std::sqrt(2.0), 1e-12);
}

TEST(TheKnee, OfZdt1IsAtAQuarter) {
  // sqrt(x) - x, the distance from the chord times sqrt(2), is greatest at x = 1/4.
  Rows rows;
  for (int i = 0; i <= 400; ++i)
    rows.push_back({i / 400.0, 1 - std::sqrt(i / 400.0)});
  const auto found = knee_of(points_of(rows), {false, false}).knee;
  ASSERT_TRUE(found);
  EXPECT_EQ(found->point, 100U);
  EXPECT_NEAR(found->distance, 0.25 / std::sqrt(2.0), 1e-12);
}

TEST(TheKnee, IsTheSameInOtherUnitsAndSaysWhatIsGivenUpOnBothSides) {
  Rows rows;
  for (int i = 0; i <= 400; ++i) {
    const double x = i / 400.0;
    rows.push_back({20 - 1000 * x, 7 + 0.01 * (1 - std::sqrt(x))});  // the first is wanted large
  }
  const auto found = knee_of(points_of(rows), {true, false}).knee;
  ASSERT_TRUE(found);
  EXPECT_EQ(found->point, 100U);
  ASSERT_EQ(found->sides.size(), 2U);
  EXPECT_EQ(found->sides[0].end, 0U);
  EXPECT_NEAR(found->sides[0].change[0], 250, 1e-9);
  EXPECT_NEAR(found->sides[0].change[1], 0.005, 1e-12);  // from 1 - sqrt(1/4) to 1
  EXPECT_EQ(found->sides[1].end, 400U);
  EXPECT_NEAR(found->sides[1].change[0], -750, 1e-9);
  EXPECT_NEAR(found->sides[1].change[1], -0.005, 1e-12);
}

// An eighth of a sphere: by symmetry the knee is where all three are equal, 3 / sqrt(3) - 1 above
// the plane x + y + z = 2 over sqrt(3): (2 - (3 - sqrt(3))) / sqrt(3) = 1 - 1 / sqrt(3).
TEST(TheKnee, OfAnEighthOfASphereIsItsMiddle) {
  Rows rows;
  const double third = 1 / std::sqrt(3.0);
  rows.push_back({1 - third, 1 - third, 1 - third});
  for (int i = 0; i <= 20; ++i)
    for (int j = 0; j <= 20; ++j) {
      const double a = i * std::numbers::pi / 40;
      const double b = j * std::numbers::pi / 40;
      rows.push_back(
          {1 - std::cos(a) * std::cos(b), 1 - std::cos(a) * std::sin(b), 1 - std::sin(a)});
    }
  const auto found = knee_of(points_of(rows), {false, false, false}).knee;
  ASSERT_TRUE(found);
  EXPECT_EQ(found->point, 0U);
  EXPECT_NEAR(found->distance, 1 - third, 1e-12);
}

TEST(TheKnee, IsAbsentWithItsReason) {
  Rows line;
  Rows bulge;
  for (int i = 0; i <= 20; ++i) {
    const double x = i / 20.0;
    line.push_back({x, 1 - x});
    bulge.push_back({x, std::sqrt(1 - x * x)});
  }
  EXPECT_FALSE(knee_of(points_of(line), {false, false}).knee);
  EXPECT_EQ(knee_of(points_of(bulge), {false, false}).reason,
            "the front is straight or bulges away from the better values");
  EXPECT_EQ(knee_of(points_of({{1, 2}, {2, 1}}), {false, false}).reason,
            "the front has fewer than three points");
  EXPECT_EQ(knee_of(points_of({{1, 2}, {1, 2}, {1, 2}}), {false, false}).reason,
            "an aim is the same all along the front");
}

}  // namespace
}  // namespace drumlin::sim
