// Borders, contours and boxes of maps of functions that are known in closed form.

#include <cmath>
#include <functional>
#include <numbers>

#include <gtest/gtest.h>

#include "sim/window/border_field.hpp"
#include "sim/window/robust_box.hpp"

namespace drumlin::sim {
namespace {

struct Mapped {
  AdaptiveMap map;
  std::vector<WindowPoint> points;
  std::vector<WindowLine> border;
};

/// Map over the unit square of limits whose margins are these functions.
Mapped mapped(const MapPlan& plan,
              const std::vector<std::function<double(double, double)>>& margins) {
  Mapped m;
  const auto n = static_cast<double>(plan.cells());
  std::map<MapPoint, WindowPoint> points;
  m.map = adaptive_map(plan, [&](std::span<const MapPoint> some) {
    std::vector<int> kinds;
    for (const MapPoint& at : some) {
      WindowPoint point{.at = at, .kind = 0, .margins = {}, .reason = {}};
      for (const auto& margin : margins)
        point.margins.push_back(
            margin(static_cast<double>(at.i) / n, static_cast<double>(at.j) / n));
      point.kind = failing_kind(point.margins);
      kinds.push_back(point.kind);
      points[at] = point;
    }
    return kinds;
  });
  for (const auto& [at, point] : points)
    m.points.push_back(point);
  m.border = lines_of(m.map, BorderField(m.points));
  return m;
}

double length_of(const std::vector<WindowLine>& lines) {
  double length = 0;
  for (const WindowLine& line : lines)
    for (std::size_t k = 0; k + 1 < line.places.size(); ++k)
      length += std::hypot(line.places[k + 1][0] - line.places[k][0],
                           line.places[k + 1][1] - line.places[k][1]);
  return length;
}

/// Area inside one closed line.
double area_of(const WindowLine& line) {
  double twice = 0;
  for (std::size_t k = 0; k + 1 < line.places.size(); ++k)
    twice += line.places[k][0] * line.places[k + 1][1] - line.places[k + 1][0] * line.places[k][1];
  return std::abs(twice) / 2;
}

constexpr double radius = 0.31;
double disc(double x, double y) {
  return 1 - (std::pow(x - 0.47, 2) + std::pow(y - 0.53, 2)) / (radius * radius);
}

// Straight lines between zeros of a smooth margin: second order in the cell. Area pi R^2, length
// 2 pi R.
TEST(ABorder, OfADiscIsOneClosedLineOfItsAreaAndLengthToSecondOrder) {
  const auto errors = [](std::size_t levels) {
    const Mapped m = mapped({.coarse = 16, .levels = levels, .most_evaluations = 100000}, {disc});
    EXPECT_EQ(m.border.size(), 1U);
    const WindowLine& line = m.border.front();
    EXPECT_EQ(line.places.front(), line.places.back()) << "closed";
    return std::array{std::abs(area_of(line) - std::numbers::pi * radius * radius),
                      std::abs(length_of(m.border) - 2 * std::numbers::pi * radius)};
  };
  const auto coarse = errors(1);
  const auto fine = errors(3);
  // Two levels: a factor of 16 each; the place of single zeros in their cells scatters a little.
  EXPECT_NEAR(std::log2(coarse[0] / fine[0]) / 2, 2.0, 0.25);
  EXPECT_GT(std::log2(coarse[1] / fine[1]) / 2, 1.7);
  EXPECT_LT(fine[0], 1e-4) << "of an area of 0.3: far below a ring of half a cell, 8e-3";
}

// A limit that is linear in both settings is interpolated without error.
TEST(ABorder, OfALinearMarginIsExactAndSaysWhatLiesBeyond) {
  const auto first = [](double x, double y) { return 0.9 - x - 0.4 * y; };
  const auto second = [](double x, double y) { return 0.2 + y - 1.5 * x; };
  const Mapped m = mapped({.coarse = 8, .levels = 2, .most_evaluations = 5000}, {first, second});
  int places = 0;
  for (const WindowLine& line : m.border)
    for (std::size_t k = 0; k < line.places.size(); ++k, ++places) {
      const auto [x, y] = line.places[k];
      EXPECT_NEAR(std::min(first(x, y), second(x, y)), 0, 1e-12);
      const double of_kind = line.kinds[k] == 1 ? first(x, y) : second(x, y);
      EXPECT_NEAR(of_kind, 0, 0.02) << "but where both meet, its limit is the one that is lost";
    }
  EXPECT_GT(places, 20);
}

TEST(ABorder, IsHalfWayToWhatCannotBeComputed) {
  std::vector<WindowPoint> points{{{0, 0}, accepted_kind, {1.0}, {}},
                                  {{1, 0}, not_computed_kind, {std::nan("")}, "no case"}};
  const BorderField field(points);
  EXPECT_DOUBLE_EQ(field.turn({0, 0}, {1, 0}).share, 0.5);
  EXPECT_EQ(field.turn({0, 0}, {1, 0}).kind, not_computed_kind);
}

// Along the axes a disc's border is a half-chord away.
TEST(DistancesToABorder, OfADiscAreItsHalfChords) {
  const Mapped m = mapped({.coarse = 16, .levels = 4, .most_evaluations = 100000}, {disc});
  const auto d = distances_from({0.47, 0.63}, accepted_kind, m.border);
  const double half = std::sqrt(radius * radius - 0.01);
  EXPECT_NEAR(d[0][0].share.value(), half, 1e-4);
  EXPECT_NEAR(d[0][1].share.value(), half, 1e-4);
  EXPECT_NEAR(d[1][0].share.value(), radius + 0.10, 1e-4);
  EXPECT_NEAR(d[1][1].share.value(), radius - 0.10, 1e-4);
  EXPECT_EQ(d[1][1].beyond, 1);
  const auto outside = distances_from({0.05, 0.53}, 1, m.border);
  EXPECT_NEAR(outside[0][1].share.value(), 0.47 - radius - 0.05, 1e-4);
  EXPECT_EQ(outside[0][1].beyond, accepted_kind);
  EXPECT_FALSE(outside[0][0].share) << "no border before the map ends";
}

// Between y = 0.5 - 0.4 x and y = 0.5 + 0.4 x the widest square ends at the rim x = 1 and has its
// left corners on both lines: r = 0.4 (1 - 2 r).
TEST(TheRobustBox, InAWedgeIsTheClosedFormsWidestSquare) {
  const auto lower = [](double x, double y) { return y - 0.5 + 0.4 * x; };
  const auto upper = [](double x, double y) { return 0.5 + 0.4 * x - y; };
  const Mapped m = mapped({.coarse = 16, .levels = 3, .most_evaluations = 5000}, {lower, upper});
  const auto box = robust_box(m.map, m.border);
  ASSERT_TRUE(box);
  const double reach = 0.4 / 1.8;
  // The zooming grid stops at 1e-5 of a cell of 1/128.
  EXPECT_NEAR(box->reach, reach, 1e-6);
  EXPECT_NEAR(box->middle[0], 1 - reach, 1e-6);
  EXPECT_NEAR(box->middle[1], 0.5, 1e-6);
  EXPECT_TRUE(box->at_rim);
  EXPECT_EQ(box->held_by[0][1], rim_kind);
  EXPECT_EQ(box->held_by[1][0], 1) << "the lower line holds it from below";
  EXPECT_EQ(box->held_by[1][1], 2);
}

// In a square on its corner, |x| + |y| <= a about the middle, the widest square has reach a / 2.
TEST(TheRobustBox, InASquareOnItsCornerIsHalfAsWide) {
  const auto diamond = [](double x, double y) {
    return 0.4 - std::abs(x - 0.52) - std::abs(y - 0.47);
  };
  const Mapped m = mapped({.coarse = 16, .levels = 3, .most_evaluations = 5000}, {diamond});
  const auto box = robust_box(m.map, m.border);
  ASSERT_TRUE(box);
  EXPECT_NEAR(box->reach, 0.2, 1e-6);
  EXPECT_NEAR(box->middle[0], 0.52, 1e-6);
  EXPECT_FALSE(box->at_rim);
}

TEST(TheRobustBox, OfADiscIsItsInscribedSquareToSecondOrder) {
  const Mapped m = mapped({.coarse = 16, .levels = 3, .most_evaluations = 5000}, {disc});
  const auto box = robust_box(m.map, m.border);
  ASSERT_TRUE(box);
  // Sagitta of a chord over one cell: h^2 / (8 R).
  EXPECT_NEAR(box->reach, radius / std::numbers::sqrt2, 1.0 / (128 * 128 * 8 * radius));
}

TEST(TheRobustBox, IsNoneWhereNothingIsAcceptedAllOver) {
  const Mapped m = mapped(MapPlan{}, {[](double, double) { return -1.0; }});
  EXPECT_FALSE(robust_box(m.map, m.border));
  EXPECT_TRUE(m.border.empty());
}

// Two limits that fail by the same are one failure: the first is named, and no border is sought.
TEST(LimitsThatFailTogether, AreNamedByTheFirst) {
  const std::vector<double> margins{-0.2, -0.203, 0.1};
  EXPECT_EQ(failing_kind(margins), 1);
  const std::vector<double> apart{-0.2, -0.21, 0.1};
  EXPECT_EQ(failing_kind(apart), 2);
  const std::vector<double> kept{0.0, std::nan(""), 0.1};
  EXPECT_EQ(failing_kind(kept), accepted_kind);
}

}  // namespace
}  // namespace drumlin::sim
