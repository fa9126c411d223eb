#include "sim/brush/edge_wear.hpp"

#include <cmath>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "models/brush/edge.hpp"

using namespace drumlin;
using sim::EdgeColumn;
using sim::EdgeWear;
using sim::EdgeWork;
using sim::wear_edge;

namespace {

/// A square edge in even columns, 3 mm of it.
std::vector<EdgeColumn> square(double cell) {
  std::vector<EdgeColumn> columns;
  for (int i = 0; (i + 1) * cell < 3.0; ++i)
    columns.push_back({i * cell, (i + 1) * cell, 0.0, 0.0});
  return columns;
}

void take(std::vector<EdgeColumn>& columns, const EdgeWear& wear) {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    columns[i].height -= wear.depth[i];
    columns[i].burr -= std::min(columns[i].burr, wear.depth[i]);
  }
}

double area(const std::vector<EdgeColumn>& columns, const EdgeWear& wear) {
  double sum = 0.0;
  for (std::size_t i = 0; i < columns.size(); ++i)
    sum += wear.depth[i] * (columns[i].to - columns[i].from);
  return sum;
}

constexpr double corner = 1.0 - 0.25 * std::numbers::pi;  // area over r^2 that an arc has cost
constexpr EdgeWork work{.sharp = 4e-4, .per_radius = 2e-3};

/// The work of a brush that comes to these two numbers.
models::EdgeWork brush_work(const EdgeWork& asked, double radius) {
  const models::FilamentBrush brush{.filament = {1.0, 40, 3500, 1.25e-9, 0.35},
                                    .radius = 150,
                                    .fill = 0.4,
                                    .rows = 0,
                                    .abrasion = {}};
  const double speed = 10000.0;
  const double feed = 50.0;
  const double passing = models::filaments_per_angle(brush) * speed / brush.radius / feed;
  const double K = 1e-6;
  models::EdgeContact contact;
  contact.crossing = asked.per_radius / (0.5 * std::numbers::pi * K * passing);
  contact.slide = asked.sharp / (K * passing) - contact.crossing * brush.filament.diameter;
  return models::edge_work(brush, contact, speed, feed, K, radius);
}

}  // namespace

// (2 - pi/2) r dr = (sharp + per_radius r) dn from a sharp edge on, in closed form. Radii that are
// looked at lie a tenth apart, and between them the rate is taken in the middle: 0.3 %.
TEST(EdgeWear, RoundsASquareEdgeAsTheClosedFormDoes) {
  for (const EdgeWork& asked : {work, EdgeWork{2e-3, 1e-2}, EdgeWork{1e-4, 1e-5}}) {
    const auto exact = brush_work(asked, 0.0);
    const EdgeWear wear = wear_edge(square(0.0025), asked, 1.0, 1.5);
    EXPECT_NEAR(wear.radius / exact.radius, 1.0, 3e-3);
  }
}

// The columns hold means of the arc over their width, so the area is exact however coarse they are.
TEST(EdgeWear, TakesTheAreaThatTheRadiusHasCost) {
  for (const double cell : {0.0025, 0.01, 0.05}) {
    const auto columns = square(cell);
    const EdgeWear wear = wear_edge(columns, work, 1.0, 1.5);
    EXPECT_NEAR(area(columns, wear) / (corner * wear.radius * wear.radius), 1.0, 1e-3) << cell;
  }
}

// The profile alone tells where the next arc begins: two half passes are a whole one. What is lost
// is the rounding of the arc's foot to columns: a hundredth with a twentieth of the radius per
// cell.
TEST(EdgeWear, GoesOnWhereItEnded) {
  auto columns = square(0.0025);
  const EdgeWork half{0.5 * work.sharp, 0.5 * work.per_radius};
  take(columns, wear_edge(columns, half, 1.0, 1.5));
  const double twice = wear_edge(columns, half, 1.0, 1.5).radius;
  EXPECT_NEAR(twice / brush_work(work, 0.0).radius, 1.0, 1e-2);
}

// Radii found in coarser columns come closer to the closed form as these get finer.
TEST(EdgeWear, ConvergesWithItsColumns) {
  const auto error = [](double cell) {
    auto columns = square(cell);
    const EdgeWork half{0.5 * work.sharp, 0.5 * work.per_radius};
    take(columns, wear_edge(columns, half, 1.0, 1.5));
    return std::abs(wear_edge(columns, half, 1.0, 1.5).radius / brush_work(work, 0.0).radius - 1.0);
  };
  EXPECT_LT(error(0.0025), error(0.02));
  EXPECT_LT(error(0.02), 0.1);
}

// A burr larger than the work keeps the edge under it as it was; of the burr exactly the work goes,
// by its own ease.
TEST(EdgeWear, SpendsItselfOnTheBurrFirst) {
  auto columns = square(0.01);
  for (std::size_t i = 0; i < 5; ++i)
    columns[i].height = columns[i].burr = 0.1 + 0.02 * static_cast<double>(i);
  const EdgeWear some = wear_edge(columns, work, 2.0, 1.5);
  EXPECT_EQ(some.radius, 0.0);
  EXPECT_NEAR(area(columns, some), 2.0 * work.sharp, 1e-12);
  EXPECT_EQ(some.depth[0], 0.0);  // the lowest column last
  const EdgeWear all = wear_edge(columns, {40.0 * work.sharp, 0.0}, 1.0, 1.5);
  const double burr = 0.01 * (0.10 + 0.12 + 0.14 + 0.16 + 0.18);
  EXPECT_NEAR(area(columns, all), 40.0 * work.sharp, 1e-3 * 40.0 * work.sharp);
  EXPECT_NEAR(corner * all.radius * all.radius, 40.0 * work.sharp - burr, 2e-3 * burr);
}

// Beside an edge that a belt has dished the arc leaves no step: it is tangent to the slope there.
TEST(EdgeWear, IsTangentToADishedFace) {
  auto columns = square(0.0025);
  for (EdgeColumn& column : columns)
    column.height = -0.02 * std::exp(-0.5 * (column.from + column.to) / 0.4);
  const auto before = columns;
  const EdgeWear wear = wear_edge(columns, work, 1.0, 1.5);
  take(columns, wear);
  for (std::size_t i = 1; i < columns.size(); ++i) {
    EXPECT_GE(columns[i].height, columns[i - 1].height - 1e-12) << i;
    if (columns[i].from > wear.radius) {
      EXPECT_EQ(columns[i].height, before[i].height) << i;
    }
  }
}

TEST(EdgeWear, EndsAtTheLargestRadiusAndDoesNothingWithoutWork) {
  EXPECT_NEAR(wear_edge(square(0.01), {1.0, 0.0}, 1.0, 0.5).radius, 0.5, 1e-12);
  const EdgeWear none = wear_edge(square(0.01), {}, 1.0, 0.5);
  EXPECT_EQ(none.radius, 0.0);
  for (const double depth : none.depth)
    EXPECT_EQ(depth, 0.0);
}
