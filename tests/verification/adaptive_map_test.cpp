#include "sim/window/adaptive_map.hpp"

#include <cmath>
#include <numbers>
#include <set>
#include <vector>

#include <gtest/gtest.h>

namespace {

using drumlin::sim::adaptive_map;
using drumlin::sim::AdaptiveMap;
using drumlin::sim::MapCell;
using drumlin::sim::MapPlan;
using drumlin::sim::MapPoint;
using drumlin::sim::widest_box;
using drumlin::sim::WidestBox;

/// Map of a function of two numbers over 0..1; counts the evaluations.
template <class Kind>
AdaptiveMap mapped(Kind kind, const MapPlan& plan, std::size_t* evaluations = nullptr) {
  const auto n = static_cast<double>(plan.cells());
  return adaptive_map(plan, [&](std::span<const MapPoint> points) {
    std::vector<int> kinds;
    for (const MapPoint& point : points)
      kinds.push_back(kind(static_cast<double>(point.i) / n, static_cast<double>(point.j) / n));
    if (evaluations != nullptr) *evaluations += points.size();
    return kinds;
  });
}

int disc(double x, double y) {
  return std::hypot(x - 0.47, y - 0.53) < 0.31 ? 0 : 1;
}

double area(const AdaptiveMap& map, int kind) {
  double cells = 0;
  for (const MapCell& leaf : map.leaves) {
    const auto size = static_cast<double>(leaf.side * leaf.side);
    if (leaf.at_border)
      cells += size / 2;
    else if (leaf.kind == kind)
      cells += size;
  }
  return cells / static_cast<double>(map.cells * map.cells);
}

// Border cells, half of them counted, are one cell wide: the area's error is of the order of the
// scatter of their shares, far below a ring of one cell.
TEST(AnAdaptiveMap, FindsTheAreaOfADiscWithinAFractionOfAFineCellAllAround) {
  std::size_t evaluations = 0;
  const MapPlan plan{.coarse = 16, .levels = 3, .most_evaluations = 2000};
  const AdaptiveMap map = mapped(disc, plan, &evaluations);
  const double exact = std::numbers::pi * 0.31 * 0.31;
  const double ring = 2 * std::numbers::pi * 0.31 / 128;
  EXPECT_NEAR(area(map, 0), exact, 0.2 * ring);
  EXPECT_FALSE(map.stopped_early);
  EXPECT_EQ(evaluations, map.points.size()) << "no point twice";
  EXPECT_LE(evaluations, 2000U);
  EXPECT_LT(evaluations, 129U * 129U / 8) << "an eighth of the full grid";
}

TEST(AnAdaptiveMap, HasEveryBorderInItsFinestCellsAndTellsEveryPointRight) {
  const AdaptiveMap map = mapped(disc, {.coarse = 16, .levels = 3, .most_evaluations = 2000});
  std::set<MapPoint> covered;
  for (const MapCell& leaf : map.leaves) {
    if (leaf.at_border) {
      EXPECT_EQ(leaf.side, 1U);
    }
    for (std::size_t j = 0; j < leaf.side; ++j)
      for (std::size_t i = 0; i < leaf.side; ++i)
        EXPECT_TRUE(covered.insert({leaf.corner.i + i, leaf.corner.j + j}).second) << "overlap";
  }
  EXPECT_EQ(covered.size(), 128U * 128U);
  for (std::size_t j = 0; j <= 128; ++j)
    for (std::size_t i = 0; i <= 128; ++i)
      EXPECT_EQ(map.kind_at({i, j}),
                disc(static_cast<double>(i) / 128, static_cast<double>(j) / 128))
          << i << ' ' << j;
}

// A spur thinner than a coarse cell that starts at the border is followed, cell by cell.
TEST(AnAdaptiveMap, FollowsABorderThroughSidesThatTheCoarseGridThoughtPlain) {
  const auto spur = [](double x, double y) {
    return x < 0.3 || (std::abs(y - 0.53) < 0.02 && x < 0.8) ? 0 : 1;
  };
  const AdaptiveMap map = mapped(spur, {.coarse = 8, .levels = 4, .most_evaluations = 4000});
  EXPECT_EQ(map.kind_at({96, 68}), 0) << "x = 0.75, y = 0.53: inside the spur";
  EXPECT_NEAR(area(map, 0), 0.3 + 0.5 * 0.04, 0.01);
}

TEST(AnAdaptiveMap, KeepsToItsEvaluationsAndSaysSo) {
  std::size_t evaluations = 0;
  const AdaptiveMap map =
      mapped(disc, {.coarse = 16, .levels = 5, .most_evaluations = 800}, &evaluations);
  EXPECT_TRUE(map.stopped_early);
  EXPECT_LE(evaluations, 800U);
}

TEST(AnAdaptiveMap, OfOneKindNeedsTheCoarseGridOnly) {
  const AdaptiveMap map = mapped([](double, double) { return 4; }, MapPlan{});
  EXPECT_EQ(map.points.size(), 17U * 17U);
  EXPECT_EQ(area(map, 4), 1);
}

// The widest square inside a disc of radius r has half-side r / sqrt 2 about its middle.
TEST(TheWidestBox, OfADiscIsItsInscribedSquare) {
  const AdaptiveMap map = mapped(disc, {.coarse = 16, .levels = 4, .most_evaluations = 4000});
  const WidestBox box = widest_box(map, 0);
  constexpr double n = 256;
  EXPECT_NEAR(static_cast<double>(box.middle.i) / n, 0.47, 2 / n);
  EXPECT_NEAR(static_cast<double>(box.middle.j) / n, 0.53, 2 / n);
  const double exact = 0.31 / std::numbers::sqrt2;
  EXPECT_LE(static_cast<double>(box.reach) / n, exact) << "never beyond the border";
  EXPECT_NEAR(static_cast<double>(box.reach) / n, exact, 2.5 / n);
}

TEST(TheWidestBox, IsNoneWhereNothingIsOfTheKind) {
  EXPECT_EQ(widest_box(mapped(disc, MapPlan{}), 7).reach, 0U);
}

}  // namespace
