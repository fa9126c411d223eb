// How the part lies, and what its edges are called then.

#include "sim/turned.hpp"

#include <numbers>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "sim/answer.hpp"
#include "sim/fast/part.hpp"
#include "sim/line/line_result.hpp"
#include "sim/line/side_pass.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;
using cases::Side;

namespace {

constexpr double degree = std::numbers::pi / 180.0;

struct Turned {
  double angle;  // [deg]
  Side drawn;
  std::vector<Side> fed;
  double skew;  // [deg]
};

cases::Part blank() {
  cases::Part part;
  part.thickness = 1.5;
  part.width = 200.0;
  part.length = 300.0;
  part.features.push_back(
      {.name = "rim", .kind = cases::FeatureKind::outer_edge, .size = {}, .side = {}});
  return part;
}

}  // namespace

// By a drawing: a rectangle seen from above, the feed to the right, turned counter-clockwise. At 90
// degrees the leading edge has become the left side, and of the two sides the right one leads.
TEST(FedEdges, FollowThePartAsItIsTurned) {
  const std::vector<Turned> table{
      {0, Side::leading, {Side::leading}, 0},
      {0, Side::trailing, {Side::trailing}, 0},
      {0, Side::side, {Side::side}, 0},
      {90, Side::leading, {Side::side}, 0},
      {90, Side::trailing, {Side::side}, 0},
      {90, Side::side, {Side::trailing, Side::leading}, 0},
      {180, Side::leading, {Side::trailing}, 0},
      {180, Side::trailing, {Side::leading}, 0},
      {180, Side::side, {Side::side}, 0},
      {270, Side::leading, {Side::side}, 0},
      {270, Side::trailing, {Side::side}, 0},
      {270, Side::side, {Side::leading, Side::trailing}, 0},
      {15, Side::leading, {Side::leading}, 15},
      {15, Side::trailing, {Side::trailing}, 15},
      {15, Side::side, {Side::side}, 15},
      // At 45 degrees every edge counts as an end.
      {45, Side::leading, {Side::leading}, 45},
      {45, Side::trailing, {Side::trailing}, 45},
      {45, Side::side, {Side::trailing, Side::leading}, 45},
  };
  for (const auto& row : table) {
    const auto fed = sim::fed_edges(row.angle * degree, row.drawn);
    ASSERT_EQ(fed.size(), row.fed.size()) << row.angle;
    for (std::size_t i = 0; i < fed.size(); ++i) {
      EXPECT_EQ(fed[i].side, row.fed[i]) << row.angle;
      EXPECT_NEAR(fed[i].skew / degree, row.skew, 1e-9) << row.angle;
    }
  }
}

TEST(FedAs, NamesBothEndsOfATurnedSide) {
  cases::Part part = blank();
  EXPECT_EQ(sim::fed_as(part, Side::side), "side");
  part.angle = 90 * degree;
  EXPECT_EQ(sim::fed_as(part, Side::leading), "side");
  EXPECT_EQ(sim::fed_as(part, Side::side), "trailing and leading");
  part.angle = 180 * degree;
  EXPECT_EQ(sim::fed_as(part, Side::leading), "trailing");
}

// A strip along the drum for every result whose edge is fed as a side, under the drawn name.
TEST(UnwornSides, AreTheEdgesThatLieAlongTheFeed) {
  cases::Part part = blank();
  const auto names = [&] {
    std::vector<std::string> found;
    for (const auto& strip : sim::line::unworn_sides(part, {}, sim::FaceSide::burrs)) {
      EXPECT_EQ(strip.edges.front().name, strip.name);
      found.push_back(strip.name);
    }
    return found;
  };
  EXPECT_EQ(names(), std::vector<std::string>{"rim:side"});
  part.angle = 90 * degree;
  EXPECT_EQ(names(), (std::vector<std::string>{"rim:leading", "rim:trailing"}));
  part.angle = 180 * degree;
  EXPECT_EQ(names(), std::vector<std::string>{"rim:side"});
  part.angle = 45 * degree;
  EXPECT_TRUE(names().empty());
}

// The reverse has the same edges, its own coating and no burr.
TEST(UnwornSides, CarryNoBurrOnTheReverse) {
  cases::Part part = blank();
  part.features[0].burr =
      models::WallBurr{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 300};
  part.coating.emplace();
  part.coating->thickness = 0.020;
  part.coating->reverse_thickness = 0.012;
  const auto burrs = sim::line::unworn_sides(part, {}, sim::FaceSide::burrs);
  const auto reverse = sim::line::unworn_sides(part, {}, sim::FaceSide::reverse);
  const auto& standing = burrs[0].edges[0];
  EXPECT_NEAR(static_cast<double>(standing.reach) * burrs[0].cells.unit, 0.15, 1e-9);
  EXPECT_EQ(burrs[0].height[standing.cell], 0.15);
  EXPECT_EQ(burrs[0].coating[standing.cell], 0.0);
  EXPECT_EQ(burrs[0].coating.back(), 0.020);
  EXPECT_EQ(reverse[0].edges[0].reach, 0U);
  EXPECT_EQ(reverse[0].coating[reverse[0].edges[0].cell], 0.012);
}

// A bead is a segment: nothing at its feet, its height in the middle; it grinds with its own
// energy.
TEST(UnwornSides, SetABeadOnTheFaceAndNotALip) {
  cases::Part part = blank();
  part.material.specific_energy.value = 20000;
  part.features[0].burr =
      models::Bead{.width = 1.0, .height = 0.4, .specific_energy = 10000, .bond_strength = 100};
  const auto bead = sim::line::unworn_sides(part, {}, sim::FaceSide::burrs).front();
  const auto& edge = bead.edges.front();
  EXPECT_EQ(edge.ease, 2.0);
  EXPECT_LT(bead.height[edge.cell], 0.02);
  EXPECT_NEAR(bead.height[sim::line::Strip::inward(edge, edge.reach / 2)], 0.4, 1e-3);
  part.features[0].burr =
      models::RolledBurr{.overhang = 0.1, .thickness = 0.02, .flow_stress = 300};
  const auto rolled = sim::line::unworn_sides(part, {}, sim::FaceSide::burrs).front();
  EXPECT_EQ(rolled.edges.front().reach, 0U);
}

// A bead lies on the coating, a wall is drawn up through it: alike on ends, on sides and in the
// fast model's columns.
TEST(UnwornEdges, KeepTheCoatingUnderABeadOnly) {
  cases::Part part = blank();
  part.material.specific_energy.value = 20000;
  part.coating.emplace();
  part.coating->thickness = 0.020;
  const auto coating_at_edge = [&](const models::AnyBurr& burr) {
    part.features[0].burr = burr;
    const auto ends = sim::line::unworn_surface(part, {}, 10.0, 10.0).strips.front();
    const auto side = sim::line::unworn_sides(part, {}, sim::FaceSide::burrs).front();
    const auto fast = sim::fast::unworn_part_face(part, {}, sim::FaceSide::burrs).sections.front();
    return std::vector{ends.coating[ends.edges[0].cell], side.coating[side.edges[0].cell],
                       fast.coating[fast.rims[0].cell]};
  };
  const models::Bead bead{
      .width = 1.0, .height = 0.4, .specific_energy = 10000, .bond_strength = 100};
  const models::WallBurr wall{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 300};
  EXPECT_EQ(coating_at_edge(bead), (std::vector{0.020, 0.020, 0.020}));
  EXPECT_EQ(coating_at_edge(wall), (std::vector{0.0, 0.0, 0.0}));
}

// The behind of an outer edge is as deep as the part: its width at 0 degrees, its length at 90.
TEST(UnwornSides, ShowTheOtherSideOfANarrowPart) {
  cases::Part part = blank();
  part.width = 20.0;
  EXPECT_EQ(sim::line::unworn_sides(part, {}, sim::FaceSide::burrs).front().edges.size(), 2U);
  part.angle = 90 * degree;
  EXPECT_EQ(sim::line::unworn_sides(part, {}, sim::FaceSide::burrs).front().edges.size(), 1U);
}

namespace {

sim::FeatureResult edge(double burr, double radius, double coating) {
  sim::FeatureResult result;
  result.burr_height = sim::known(burr);
  result.edge_radius = sim::known(radius);
  result.coating_left = sim::known(coating);
  result.coating_beyond = {{1.0, sim::known(coating)}};
  return result;
}

}  // namespace

TEST(WorseOf, TakesTheWorseValueOfEach) {
  const auto worse = sim::worse_of(edge(0.01, 0.2, 0.009), edge(0.02, 0.3, 0.005));
  EXPECT_EQ(worse.burr_height->value, 0.02);
  EXPECT_EQ(worse.edge_radius->value, 0.2);
  EXPECT_EQ(worse.coating_left->value, 0.005);
  EXPECT_EQ(worse.coating_beyond[0].left->value, 0.005);
}

TEST(WorseOf, HasNoRadiusWhereOneEndHasNone) {
  auto burred = edge(0.08, 0.0, 0.01);
  burred.edge_radius.reset();
  burred.edge_size = sim::known(0.08);
  burred.size_class = "+0.1";
  burred.outcome = "stands";
  auto clear = edge(-0.01, 0.2, 0.01);
  clear.edge_size = sim::known(-0.4);
  clear.size_class = "-0.5";
  clear.outcome = "ground off";
  for (const auto& worse : {sim::worse_of(burred, clear), sim::worse_of(clear, burred)}) {
    EXPECT_FALSE(worse.edge_radius);
    EXPECT_EQ(worse.edge_size->value, 0.08);
    EXPECT_EQ(worse.size_class, "+0.1");
    EXPECT_EQ(worse.outcome, "stands");
  }
}

namespace {

/// A made-up answer: strips as a model would leave them, none of them worn.
sim::line::LineAnswer answer_with(std::vector<sim::line::Strip> strips,
                                  std::vector<sim::line::Strip> sides) {
  sim::line::LineAnswer answer;
  sim::line::StationPass pass;
  pass.part.burrs.strips = std::move(strips);
  pass.part.burrs.sides = std::move(sides);
  answer.static_nips = {std::nullopt};
  answer.first = answer.last = {pass};
  return answer;
}

sim::line::Strip end_strip(std::string name, double drop) {
  auto strip = tests::plain_strip(4000, 0.005);
  strip.name = name;
  sim::line::StripEdge edge;
  edge.name = std::move(name);
  edge.cell = 1000;
  edge.metal = +1;
  for (std::size_t i = 0; i < 100; ++i)
    strip.height[1000 + i] = -drop * (1.0 - (static_cast<double>(i) + 0.5) / 100.0);
  strip.edges.push_back(edge);
  return strip;
}

sim::Setup turned_setup(double angle) {
  sim::Setup setup;
  setup.scenario.part = blank();
  setup.scenario.part.angle = angle * degree;
  setup.scenario.part.flank_oxide = 0.015;
  setup.stations = {sim::FlipSetup{.description = "part turned over"}};
  return setup;
}

}  // namespace

// Fed at 90 degrees a drawn side is both ends: its drop is the larger, its radius the smaller, and
// the note says so. The station itself is none with a nip.
TEST(LineResult, StatesTheWorseEndOfATurnedSide) {
  const auto setup = turned_setup(90);
  const auto answer =
      answer_with({end_strip("rim:side", 0.02), end_strip("rim:side#2", 0.05)},
                  sim::line::unworn_sides(setup.scenario.part, {}, sim::FaceSide::burrs));
  const auto stated = sim::line::state(setup, answer, false);
  const auto& station = stated.stations.front();
  EXPECT_EQ(station.kind, "flip");
  EXPECT_EQ(station.description, "part turned over");
  EXPECT_FALSE(station.line_load);
  ASSERT_EQ(station.after.features.size(), 3U);
  const auto& side = station.after.features[2];
  EXPECT_EQ(side.name, "rim:side");
  EXPECT_EQ(side.side, "side");
  EXPECT_EQ(side.fed_as, "trailing and leading");
  EXPECT_NEAR(side.edge_drop->value, 0.05, 1e-9);
  EXPECT_NEAR(side.flank_reach->value, 0.02, 1e-9);
  EXPECT_NEAR(side.oxide_left->value, 1.0 - 0.02 / 1.5, 1e-9);  // the end that keeps more of it
  EXPECT_NE(side.note.find("worse of both"), std::string::npos);
  const auto& leading = station.after.features[0];
  EXPECT_EQ(leading.fed_as, "side");
  EXPECT_TRUE(leading.section.empty());  // no picture of a strip along the drum
  EXPECT_EQ(leading.edge_size->value, 0.0);
  EXPECT_EQ(leading.size_class, "-0.02");
}

// Turned by 90 degrees, results swap what they read: a strip read at 0 degrees as an end is read as
// a side at 90, value for value, since both pass through one statement.
TEST(LineResult, SwapsSidesWithEndsAtARightAngle) {
  const auto at = [](double angle, std::size_t feature) {
    const auto setup = turned_setup(angle);
    std::vector<sim::line::Strip> ends;
    std::vector<sim::line::Strip> sides;
    if (angle == 0.0) {
      ends = {end_strip("rim:leading", 0.03), end_strip("rim:trailing", 0.03)};
      sides = {end_strip("rim:side", 0.06)};
    } else {
      ends = {end_strip("rim:side", 0.03), end_strip("rim:side#2", 0.03)};
      sides = {end_strip("rim:leading", 0.06), end_strip("rim:trailing", 0.06)};
    }
    return sim::line::state(setup, answer_with(ends, sides), false).part.features[feature];
  };
  const auto same = [](const sim::FeatureResult& a, const sim::FeatureResult& b) {
    EXPECT_EQ(a.edge_radius->value, b.edge_radius->value);
    EXPECT_EQ(a.edge_drop->value, b.edge_drop->value);
    EXPECT_EQ(a.edge_size->value, b.edge_size->value);
    EXPECT_EQ(a.size_class, b.size_class);
    EXPECT_EQ(a.minimum_radius->value, b.minimum_radius->value);
  };
  same(at(0, 0), at(90, 2));
  same(at(0, 2), at(90, 0));
  same(at(0, 2), at(90, 1));
}

// The reverse goes through the same statement: its own face, the same edges, no burr.
TEST(LineResult, StatesTheReverseWithoutBurrs) {
  auto setup = turned_setup(0);
  setup.scenario.part.coating.emplace();
  setup.scenario.part.coating->thickness = 0.020;
  setup.scenario.part.coating->reverse_thickness = 0.010;
  setup.scenario.part.coating->top = cases::TopLayer{.material = {}, .thickness = 0.004};
  setup.scenario.part.features[0].burr =
      models::WallBurr{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 300};
  auto answer = answer_with({}, {end_strip("rim:side", 0.03)});
  auto& part = answer.last.front().part;
  part.burrs.face = {.removed = 0.001, .coating = 0.019, .top = 0.003};
  part.reverse = part.burrs;
  part.reverse->face = {.removed = 0.005, .coating = 0.005, .top = 0.0};
  const auto after = sim::line::state(setup, answer, false).part;
  EXPECT_NEAR(after.face.coating_left_fraction->value, 0.95, 1e-12);
  EXPECT_EQ(after.face.top_left->value, 0.003);
  ASSERT_TRUE(after.reverse);
  EXPECT_NEAR(after.reverse->face.coating_left_fraction->value, 0.5, 1e-12);
  EXPECT_EQ(after.reverse->face.top_left->value, 0.0);
  ASSERT_EQ(after.reverse->features.size(), 3U);
  EXPECT_EQ(after.features[2].burr, "wall");
  EXPECT_EQ(after.reverse->features[2].burr, "none");
  EXPECT_TRUE(after.reverse->features[2].edge_drop);
  EXPECT_FALSE(after.reverse->features[0].edge_drop);  // no strip shows it
  EXPECT_FALSE(after.reverse->features[0].note.empty());
}
