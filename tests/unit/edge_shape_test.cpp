#include "sim/line/edge_shape.hpp"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "sim/line/surface.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;

namespace {

constexpr double spacing = 0.005;

/// Rounded corner of radius r on cells of 5 um: z = -(r - sqrt(r^2 - (r - u)^2)).
std::vector<double> arc(double r) {
  std::vector<double> z(400, 0.0);
  for (std::size_t i = 0; i < z.size(); ++i) {
    const double u = (static_cast<double>(i) + 0.5) * spacing;
    if (u < r) z[i] = -(r - std::sqrt(r * r - (r - u) * (r - u)));
  }
  return z;
}

/// Profile on cells of 5 um.
sim::line::EdgeRadius radius_of(const std::vector<double>& z, double readable_extent) {
  std::vector<double> u(z.size());
  for (std::size_t i = 0; i < u.size(); ++i)
    u[i] = (static_cast<double>(i) + 0.5) * spacing;
  return sim::line::edge_radius({u, z}, readable_extent);
}

}  // namespace

// Exact arcs give back their radius; the cell next to the flank, where the arc is steepest, costs
// about a cell's width at most.
TEST(EdgeRadius, GivesBackExactArcs) {
  for (const double r : {0.1, 0.2, 0.3, 0.5}) {
    const auto z = arc(r);
    const auto fit = radius_of(z, 2.0);
    EXPECT_NEAR(fit.radius, r, 0.005) << r;
    EXPECT_LT(fit.misfit, 0.002) << r;
  }
}

// A bevel 0.5 mm long and 0.02 mm deep leaves a corner of 88 degrees at the flank: to the finger it
// is sharp. A free circle through the bevel would have a radius of millimetres.
TEST(EdgeRadius, CallsAShallowBevelSharp) {
  std::vector<double> z(400, 0.0);
  for (std::size_t i = 0; i < 100; ++i) {
    z[i] = -0.02 * (1.0 - (static_cast<double>(i) + 0.5) / 100.0);
  }
  const auto fit = radius_of(z, 1.0);
  EXPECT_GT(fit.radius, 0.01);
  EXPECT_LT(fit.radius, 0.15);
  EXPECT_GT(fit.misfit, 0.002);
}

// The 45 degree chamfer of legs c lies between its inscribed corners; the closest tangent circle
// has (sqrt 2 - 1) r = c / sqrt 2 at equal depth on the diagonal, 1.7 c, and least squares over
// the whole zone lies near it (a tenth).
TEST(EdgeRadius, OfAChamferIsNearTheCircleOfEqualDepth) {
  std::vector<double> z(400, 0.0);
  const double c = 0.2;
  for (std::size_t i = 0; i < 40; ++i)
    z[i] = -(c - (static_cast<double>(i) + 0.5) * spacing);
  const auto fit = radius_of(z, 2.0);
  EXPECT_NEAR(fit.radius / (c / std::sqrt(2.0) / (std::sqrt(2.0) - 1.0)), 1.0, 0.15);
}

TEST(EdgeShape, MeasuresFromTheWornFace) {
  auto strip = tests::plain_strip(5000, spacing);
  for (double& z : strip.height)
    z = -0.010;
  strip.coating.assign(strip.size(), 0.012);
  // A burr 20 cells wide of which 5 um over the worn face are left, edge line 3 um under it.
  for (std::size_t i = 0; i < 20; ++i) {
    strip.height[2000 + i] = -0.005;
    strip.coating[2000 + i] = 0.0;
  }
  strip.height[2000] = -0.0104;  // falls 5.4 um per cell: 3.1 um under the face at the edge line
  for (std::size_t i = 20; i < 30; ++i)
    strip.coating[2000 + i] = 0.0;
  strip.coating[2031] = 0.004;
  const sim::line::StripEdge edge{.name = "e", .cell = 2000, .metal = +1, .reach = 20, .burr = {}};
  const auto shape = sim::line::edge_shape(strip, edge, 0.010, true);
  EXPECT_NEAR(*shape.burr_height, 0.005, 1e-12);
  EXPECT_NEAR(shape.drop, 0.0031, 1e-12);
  EXPECT_EQ(*shape.coating_left, 0.0);  // bare beside the root
  EXPECT_NEAR(*shape.bare_length, 30 * spacing, 1e-12);
  EXPECT_DOUBLE_EQ(sim::line::coating_left(strip, edge, 30 * spacing), 0.004);
  EXPECT_DOUBLE_EQ(sim::line::coating_left(strip, edge, 0.5), 0.012);
}

// A standing burr has no edge radius, and a face without coating no place where it begins.
TEST(EdgeShape, GivesNothingThatIsNotThere) {
  auto strip = tests::plain_strip(5000, spacing);
  for (std::size_t i = 0; i < 20; ++i)
    strip.height[2000 + i] = 0.05;
  const sim::line::StripEdge edge{.name = "e", .cell = 2000, .metal = +1, .reach = 20, .burr = {}};
  const auto shape = sim::line::edge_shape(strip, edge, 0.0, true);
  EXPECT_NEAR(shape.drop, -0.05, 1e-12);
  EXPECT_FALSE(shape.rounding);
  EXPECT_FALSE(shape.bare_length);
  EXPECT_EQ(*shape.coating_left, 0.0);
}

TEST(EdgeShape, GivesNoBurrHeightWhereNoneStood) {
  const auto strip = tests::plain_strip(5000, spacing);
  const sim::line::StripEdge edge{.name = "e", .cell = 2600, .metal = -1, .reach = 0, .burr = {}};
  const auto shape = sim::line::edge_shape(strip, edge, 0.0, false);
  EXPECT_FALSE(shape.burr_height);
  EXPECT_FALSE(shape.coating_left);
  EXPECT_EQ(shape.drop, 0.0);
  EXPECT_NEAR(shape.rounding->radius, 0.0, 1e-6);
}

namespace {

cases::Part panel() {
  cases::Part part;
  part.thickness = 1.5;
  const models::WallBurr wall{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 300};
  part.features = {
      {.name = "hole", .kind = cases::FeatureKind::hole, .size = 6.0, .side = {}, .burr = wall},
      {.name = "front",
       .kind = cases::FeatureKind::outer_edge,
       .size = {},
       .side = cases::Side::leading,
       .burr = wall},
      {.name = "flank",
       .kind = cases::FeatureKind::outer_edge,
       .size = {},
       .side = cases::Side::side,
       .burr = wall}};
  return part;
}

}  // namespace

// The drum travels towards -x: it comes from +x onto the trailing rim's metal, so that metal lies
// at +x of the rim; an outer leading edge has its metal at -x.
TEST(UnwornSurface, PutsRimsAndEdgesWhereTheFeedSays) {
  const auto surface = sim::line::unworn_surface(panel(), {}, 10.0, 10.0);
  ASSERT_EQ(surface.strips.size(), 2U);  // no section shows the side edge
  const auto& hole = surface.strips[0];
  ASSERT_EQ(hole.edges.size(), 2U);
  EXPECT_EQ(hole.edges[0].name, "hole:trailing");
  EXPECT_EQ(hole.edges[0].metal, +1);
  EXPECT_NEAR(hole.x(hole.edges[0].cell), 3.0 + hole.cells.unit / 2, 1e-9);
  EXPECT_EQ(hole.edges[1].name, "hole:leading");
  EXPECT_EQ(hole.edges[1].metal, -1);
  EXPECT_NEAR(hole.x(hole.edges[1].cell), -3.0 - hole.cells.unit / 2, 1e-9);
  const auto& front = surface.strips[1];
  EXPECT_EQ(front.edges[0].name, "front");
  EXPECT_EQ(front.edges[0].metal, -1);
}

// Flush with the edge, as wide as its root, as high as it is; no coating on it or under it.
TEST(UnwornSurface, SetsTheBurrFlushWithTheEdge) {
  auto part = panel();
  part.coating = cases::Coating{};
  part.coating->thickness = 0.02;
  const auto surface = sim::line::unworn_surface(part, {}, 10.0, 10.0);
  const auto& strip = surface.strips[0];
  const auto& edge = strip.edges[0];
  EXPECT_NEAR(static_cast<double>(edge.reach) * strip.cells.unit, 0.15, 1e-12);
  EXPECT_EQ(strip.metal[edge.cell - 1], 0);
  EXPECT_EQ(strip.height[edge.cell], 0.15);
  EXPECT_EQ(strip.coating[edge.cell], 0.0);
  EXPECT_EQ(strip.height[edge.cell + edge.reach - 1], 0.15);
  EXPECT_EQ(strip.height[edge.cell + edge.reach], 0.0);
  EXPECT_EQ(strip.coating[edge.cell + edge.reach], 0.02);
}
