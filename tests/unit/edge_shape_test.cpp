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

namespace {

/// Mean depth of cells under a profile z(u), u from the edge line.
template <class Profile>
std::vector<double> cell_means(const Profile& z, double width) {
  constexpr int parts = 50;
  std::vector<double> means;
  for (double u = 0.0; u < 3.0; u += width) {
    double sum = 0.0;
    for (int k = 0; k < parts; ++k)
      sum += z(u + (k + 0.5) * width / parts);
    means.push_back(sum / parts);
  }
  return means;
}

auto rounded(double r) {
  return [r](double u) { return u < r ? -(r - std::sqrt(r * r - (r - u) * (r - u))) : 0.0; };
}
auto bevelled(double along, double down) {
  return [=](double u) { return u < along ? -down * (1.0 - u / along) : 0.0; };
}

struct Profile {
  std::vector<double> u, z;
  [[nodiscard]] sim::line::EdgeProfile view() const { return {u, z}; }
};
template <class Shape>
Profile profile_of(const Shape& shape, double width = spacing) {
  Profile profile{{}, cell_means(shape, width)};
  for (std::size_t i = 0; i < profile.z.size(); ++i)
    profile.u.push_back((static_cast<double>(i) + 0.5) * width);
  return profile;
}

}  // namespace

// A circle r has the size r along face and flank, whatever its size against the thresholds of the
// reading: the thresholds alone would miss 0.2 mm of an arc of 0.5 mm. Half a cell is what a
// profile of cell means can tell; the law that an arc follows exactly fits a chamfer to 3e-3.
TEST(EdgeExtents, GiveAnArcItsRadiusAndAChamferItsLegs) {
  for (const double size : {0.03, 0.05, 0.1, 0.2, 0.3, 0.5, 1.0, 2.0}) {
    const auto arc_extents = sim::line::edge_extents(profile_of(rounded(size)).view());
    ASSERT_TRUE(arc_extents);
    EXPECT_NEAR(arc_extents->face, size, 0.5 * spacing + 1e-3 * size) << size;
    EXPECT_NEAR(arc_extents->flank, size, 0.6 * spacing + 1e-3 * size) << size;
    const auto chamfer = sim::line::edge_extents(profile_of(bevelled(size, size)).view());
    ASSERT_TRUE(chamfer);
    EXPECT_NEAR(chamfer->face, size, 0.5 * spacing + 3e-3 * size) << size;
    EXPECT_NEAR(chamfer->flank, size, 0.6 * spacing + 2e-3 * size) << size;
  }
}

// Halved cells halve what is left of the error.
TEST(EdgeExtents, NearTheRadiusAsCellsGetFiner) {
  const double r = 0.05;
  const auto error = [&](double width) {
    return std::abs(sim::line::edge_extents(profile_of(rounded(r), width).view())->flank - r);
  };
  EXPECT_LT(error(0.0025), 0.7 * error(0.005));
  EXPECT_LT(error(0.005), 0.7 * error(0.010));
}

// Half a millimetre along the face and 20 um down the flank: an edge size counts the larger.
TEST(EdgeExtents, TellFaceAndFlankApart) {
  const auto extents = sim::line::edge_extents(profile_of(bevelled(0.5, 0.02)).view());
  ASSERT_TRUE(extents);
  EXPECT_NEAR(extents->face, 0.5, 0.01);  // thresholds are a tenth of so small a drop
  EXPECT_NEAR(extents->flank, 0.02, 1e-4);
}

TEST(EdgeExtents, AreNoneOnAnIdealCornerAndUnknownBeyondTheProfile) {
  const auto ideal = sim::line::edge_extents(profile_of([](double) { return 0.0; }).view());
  ASSERT_TRUE(ideal);
  EXPECT_EQ(ideal->face, 0.0);
  EXPECT_EQ(ideal->flank, 0.0);
  EXPECT_FALSE(sim::line::edge_extents(profile_of(bevelled(5.0, 0.1)).view()));
}

// The local radius of an arc is its radius; cells of 5 um leave 15 % at 0.05 mm, where they see ten
// of the arc's 90 degrees at a time, and a tenth above.
TEST(MinimumRadius, OfAnArcIsItsRadius) {
  for (const double r : {0.05, 0.1, 0.2, 0.5, 1.0, 2.0}) {
    const auto profile = profile_of(rounded(r));
    const auto extents = sim::line::edge_extents(profile.view());
    const double least = sim::line::minimum_radius(profile.view(), *extents);
    EXPECT_NEAR(least / r, 1.0, r < 0.08 ? 0.15 : 0.13) << r;
  }
}

// However long and flat the bevel, at the flank it leaves a corner: less than half a cell.
TEST(MinimumRadius, ShowsTheCornerThatABevelLeaves) {
  for (const double down : {0.01, 0.02, 0.05, 0.1, 0.5}) {
    const auto profile = profile_of(bevelled(0.5, down));
    const auto extents = sim::line::edge_extents(profile.view());
    EXPECT_LT(sim::line::minimum_radius(profile.view(), *extents), 0.5 * spacing) << down;
  }
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

// A rounding of 0.2 mm worn into cells of 5 um reads as it does on paper, from either side.
TEST(EdgeShape, ReadsAnArcInAStrip) {
  const double r = 0.2;
  const auto means = cell_means(rounded(r), spacing);
  for (const int metal : {+1, -1}) {
    auto strip = tests::plain_strip(6000, spacing);
    sim::line::StripEdge edge;
    edge.cell = 3000;
    edge.metal = metal;
    for (std::size_t i = 0; i < means.size(); ++i)
      strip.height[sim::line::Strip::inward(edge, i)] = means[i] - 0.010;
    for (double& z : strip.height)
      z = std::min(z, -0.010);
    const auto shape = sim::line::edge_shape(strip, edge, 0.010, false);
    EXPECT_NEAR(shape.rounding->radius, r, 0.1 * spacing);
    EXPECT_NEAR(shape.extents->face, r, 0.5 * spacing);
    EXPECT_NEAR(shape.extents->flank, r, 0.5 * spacing);
    EXPECT_NEAR(*shape.minimum_radius, r, 0.1 * r);
  }
}

// Coating over the length of the surface itself: down a bevel of 3 along and 4 down it is 5 long.
TEST(EdgeShape, TellsTheCoatingAlongTheSurface) {
  auto strip = tests::plain_strip(6000, spacing);
  strip.coating.assign(strip.size(), 0.020);
  const std::size_t bevel = 60;  // 0.3 mm
  for (std::size_t i = 0; i < bevel; ++i) {
    strip.height[2000 + i] = -0.4 * (1.0 - (static_cast<double>(i) + 0.5) / bevel);
    strip.coating[2000 + i] = 0.0;
  }
  strip.coating[2000 + bevel] = 0.003;
  sim::line::StripEdge edge;
  edge.cell = 2000;
  edge.metal = +1;
  const auto shape = sim::line::edge_shape(strip, edge, 0.0, true, 0.005);
  ASSERT_TRUE(shape.coating);
  ASSERT_EQ(shape.coating->arc.size(), 2000U);  // 10 mm are read
  EXPECT_NEAR(shape.coating->arc[bevel - 1], 0.5 * (bevel - 0.5) / bevel, 1e-9);
  EXPECT_EQ(shape.coating->left[bevel - 1], 0.0);
  EXPECT_EQ(shape.coating->left[bevel], 0.003);
  // Thinner than 5 um counts as bare here: one cell more than where zinc begins.
  EXPECT_NEAR(*shape.bare_length, 0.3 + spacing, 1e-9);
  EXPECT_NEAR(*sim::line::edge_shape(strip, edge, 0.0, true).bare_length, 0.3, 1e-9);
}

// A lip that hangs from the edge hides it; once broken off the edge can be read again.
TEST(EdgeShape, HasNoRoundingUnderAHangingLip) {
  auto strip = tests::plain_strip(6000, spacing);
  sim::line::StripEdge edge;
  edge.cell = 2000;
  edge.metal = +1;
  edge.lip = models::Lip{.length = 0.1, .thickness = 0.02, .turn = 1.5};
  for (std::size_t i = 1960; i < 2000; ++i) {
    strip.height[i] = 0.02;  // lies beyond the edge line: no metal of the part
    strip.lip[i] = 1;
  }
  auto shape = sim::line::edge_shape(strip, edge, 0.0, false);
  EXPECT_FALSE(shape.rounding);
  EXPECT_FALSE(shape.extents);
  EXPECT_FALSE(shape.minimum_radius);
  EXPECT_EQ(shape.drop, 0.0);
  edge.broken_off = true;
  shape = sim::line::edge_shape(strip, edge, 0.0, false);
  EXPECT_TRUE(shape.rounding);
  EXPECT_EQ(shape.extents->face, 0.0);
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
  EXPECT_FALSE(shape.extents);
  EXPECT_FALSE(shape.minimum_radius);
  EXPECT_FALSE(shape.bare_length);
  EXPECT_EQ(*shape.coating_left, 0.0);
}

TEST(EdgeShape, GivesNoBurrHeightWhereNoneStood) {
  const auto strip = tests::plain_strip(5000, spacing);
  const sim::line::StripEdge edge{.name = "e", .cell = 2600, .metal = -1, .reach = 0, .burr = {}};
  const auto shape = sim::line::edge_shape(strip, edge, 0.0, false);
  EXPECT_FALSE(shape.burr_height);
  EXPECT_FALSE(shape.coating_left);
  EXPECT_FALSE(shape.coating);
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
