#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "models/burr/fold.hpp"
#include "sim/fast/burr_columns.hpp"
#include "sim/fast/folding.hpp"
#include "sim/fast/hanging_lip.hpp"
#include "tests/support/fast_cases.hpp"

using namespace drumlin;
using cases::Side;
using sim::fast::Abrasion;
using sim::fast::BurrLoad;
using sim::fast::Section;
using sim::fast::SectionRim;
using tests::belt_line;
using tests::fast_answer;
using tests::outer_edge;

namespace {

constexpr models::WallBurr feather{.height = 0.12, .root = 0.02, .taper = 0, .flow_stress = 220};
constexpr models::Bead bead{
    .width = 1.2, .height = 0.3, .specific_energy = 30000, .bond_strength = 1e6};

/// A leading edge: metal towards -x, its line at x = 0.
Section leading_edge(const models::AnyBurr& burr, double across = 1.0) {
  return sim::fast::unworn_section(
      "edge", {{.name = "edge", .x = 0, .metal = -1, .burr = burr, .across = across}},
      {.widest = 0.5, .extent = 10, .coating = 0.01, .top = 0});
}

double metal_of(const Section& section) {
  double area = 0.0;
  for (std::size_t i = 0; i < section.size(); ++i)
    area += section.burr[i] * section.width(i);
  return area;
}

Abrasion rubbing(double friction, double spacing) {
  Abrasion abrasion;
  abrasion.friction = friction;
  abrasion.grain_spacing = spacing;
  return abrasion;
}

/// Fine grains on a drum that takes little, so that a burr folds as high as it was.
sim::BeltSetup folding_station() {
  auto station = tests::belted_drum(40);
  station.grain_spacing = 0.3;
  station.substrate.law = models::Preston{1e-7, 0.0};
  station.coating = station.substrate;
  return station;
}

}  // namespace

// By hand: mu f h = 0.4 * 0.2 * 0.12 = 9.6e-3 N against (2/sqrt 3) 220 * 0.02^2 / 4 = 25.4e-3 N.
// Grains 0.3 mm apart bring 0.09 / (2 * 0.12 * 0.02) = 18.75 times that to one place of the root.
TEST(FastFolding, AsksOfAWallWhatTheHingeLawSays) {
  const Section section = leading_edge(feather);
  const BurrLoad load{.force = 0.2, .eccentricity = 0, .width = 0.02};
  const double hinge = 2.0 / std::sqrt(3.0) * 220 * 0.02 * 0.02 / 4.0;
  const auto asked = [&](double spacing) {
    return sim::fast::demand(section.rims[0], load, 0.12, rubbing(0.4, spacing));
  };
  EXPECT_NEAR(asked(0.0), 0.4 * 0.2 * 0.12 / hinge, 1e-12);
  EXPECT_LT(asked(0.0), 1.0);
  // One grain on 0.09 mm2: 0.09 / (0.02 (2 0.12 + 0.02)).
  EXPECT_NEAR(asked(0.3) / asked(0.0), 0.09 / (0.02 * 0.26), 1e-9);
  // At an edge askew by 60 degrees half the drag acts across it.
  const Section askew = leading_edge(feather, 0.5);
  EXPECT_NEAR(sim::fast::demand(askew.rims[0], load, 0.12, rubbing(0.4, 0.0)) / asked(0.0), 0.5,
              1e-12);
}

// A wall no higher than half its root would lie inside its edge line: it does not count as folded.
TEST(FastFolding, LeavesLowWallsStanding) {
  const Section section = leading_edge(feather);
  const BurrLoad load{.force = 100, .eccentricity = 0, .width = 0.02};
  EXPECT_EQ(sim::fast::demand(section.rims[0], load, 0.0099, rubbing(0.4, 0.0)), 0.0);
  EXPECT_GT(sim::fast::demand(section.rims[0], load, 0.0101, rubbing(0.4, 0.0)), 1.0);
}

// Pressed on the outermost of three even cells alone the centroid lies a third of the root outwards
// of the hinge: with the drag that points that way it bends, against it it holds.
TEST(FastFolding, CountsTheCentroidTowardsTheDrag) {
  const Section section = leading_edge(feather);
  Eigen::VectorXd pressure = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(section.size()));
  pressure(static_cast<Eigen::Index>(section.rims[0].cell)) = 3.0;
  const BurrLoad outwards = sim::fast::burr_load(section, section.rims[0], pressure, +1);
  EXPECT_NEAR(outwards.force, 3.0 * 0.02 / 3.0, 1e-12);
  EXPECT_NEAR(outwards.width, 0.02 / 3.0, 1e-12);
  EXPECT_NEAR(outwards.eccentricity, 0.02 / 3.0, 1e-12);
  const BurrLoad inwards = sim::fast::burr_load(section, section.rims[0], pressure, -1);
  EXPECT_NEAR(inwards.eccentricity, -0.02 / 3.0, 1e-12);
}

// Peel 6 mu f h / w^2 - f / w, shear mu f / w; tall beads peel, flat ones shear.
TEST(FastFolding, AsksOfABeadWhatItsBondSays) {
  const Section section = leading_edge(bead);
  const BurrLoad load{.force = 2.0, .eccentricity = 0, .width = 1.2};
  const auto stress = [&](double height) {
    return sim::fast::demand(section.rims[0], load, height, rubbing(0.5, 0.0)) * bead.bond_strength;
  };
  EXPECT_NEAR(stress(0.6), 6.0 * 0.5 * 2.0 * 0.6 / 1.44 - 2.0 / 1.2, 1e-9);
  EXPECT_NEAR(stress(0.1), 0.5 * 2.0 / 1.2, 1e-9);
}

// Cells hold the metal that the profile says: a wall its rectangle, a bead the circle's segment.
TEST(FastFolding, LaysTheProfilesMetalIntoCells) {
  EXPECT_NEAR(metal_of(leading_edge(feather)), 0.12 * 0.02, 1e-15);
  const double half = 0.5 * bead.width;
  const double rho = 0.5 * (half * half + bead.height * bead.height) / bead.height;
  const double angle = 2.0 * std::asin(half / rho);
  EXPECT_NEAR(metal_of(leading_edge(bead)), 0.5 * rho * rho * (angle - std::sin(angle)), 1e-12);
  const models::WallBurr leaning{.height = 0.1, .root = 0.1, .taper = 0.3, .flow_stress = 220};
  // Rectangle less the triangle that the inner flank leans back by.
  EXPECT_NEAR(metal_of(leading_edge(leaning)), 0.01 - 0.5 * 0.1 * 0.1 * std::tan(0.3), 1e-12);
}

// A folded wall is as much metal as it was: a lip L t, or the same laid on the face.
TEST(FastFolding, KeepsTheMetalOfWhatItFolds) {
  for (const double across : {1.0, 0.8}) {
    const double area = 0.12 * 0.02;
    Section beyond = leading_edge(feather, across);
    sim::fast::give_way(beyond, beyond.rims[0], +1, 0.0);
    ASSERT_TRUE(beyond.rims[0].lip && beyond.rims[0].beyond);
    EXPECT_NEAR(beyond.rims[0].lip->length * beyond.rims[0].lip->thickness, area, 1e-15);
    EXPECT_NEAR(models::overhang(*beyond.rims[0].lip), 0.12 - 0.5 * 0.02, 1e-12);
    Section onto = leading_edge(feather, across);
    sim::fast::give_way(onto, onto.rims[0], -1, 0.0);
    ASSERT_TRUE(onto.rims[0].lip && !onto.rims[0].beyond);
    EXPECT_NEAR(across * metal_of(onto), area, 1e-15);
    EXPECT_GT(onto.rims[0].laid, 0U);
  }
}

// A belt that hardly presses leaves a lip lying; one that presses turns it until the moment of what
// still presses, here by hand over its stretches, is back at the plastic moment, within a turn's
// step of 1e-3 rad.
TEST(FastFolding, PushesALipDownToWhatItsHingeTakes) {
  constexpr double give = 1e-3;
  const auto press = [&](Section& section, double pressure) {
    SectionRim& rim = section.rims[0];
    sim::fast::give_way(section, rim, +1, 0.0);
    const double belt = 0.01 - give * pressure;  // on the lip as it lies, half its thickness high
    sim::fast::press_lip(section, rim,
                         {.belt = belt, .give = give, .wear = 0, .friction = 0, .grain_spacing = 0},
                         0.0);
    return belt;
  };
  const double limit = models::plastic_moment(220, 0.02);
  Section light = leading_edge(feather);
  press(light, 0.5 * limit / (0.5 * 0.12 * 0.12));
  EXPECT_DOUBLE_EQ(light.rims[0].lip->turn, 0.5 * std::numbers::pi);
  Section heavy = leading_edge(feather);
  const double belt = press(heavy, 20.0);
  const auto moment = [&](double turn) {
    models::Lip lip = *heavy.rims[0].lip;
    lip.turn = turn;
    const auto bounds = sim::fast::lip_bounds(lip);
    double sum = 0.0;
    for (std::size_t k = 0; k + 1 < bounds.size(); ++k) {
      const double arm = 0.5 * (bounds[k] + bounds[k + 1]);
      const double over = models::top(lip, 0.01 + arm) - belt;
      sum += std::max(over, 0.0) / give * (bounds[k + 1] - bounds[k]) * arm;
    }
    return sum;
  };
  const double turn = heavy.rims[0].lip->turn;
  EXPECT_GT(turn, 0.5 * std::numbers::pi);
  EXPECT_LE(moment(turn), limit);
  EXPECT_GT(moment(turn - 1e-3), limit);
  EXPECT_LT(sim::fast::overhang(heavy.rims[0]), 0.12 - 0.01);
}

// With the feed the belt leaves the metal at the leading edge, against it at the trailing one.
TEST(FastFolding, FoldsBeyondTheEdgeWhereTheBeltLeavesTheMetal) {
  for (const bool with_feed : {true, false}) {
    auto station = folding_station();
    station.with_feed = with_feed;
    const auto answer =
        fast_answer(belt_line(station, {outer_edge("front", Side::leading, feather),
                                        outer_edge("back", Side::trailing, feather)}));
    const auto& left = answer.part.features[with_feed ? 0 : 1];
    const auto& met = answer.part.features[with_feed ? 1 : 0];
    EXPECT_EQ(left.outcome, "folded beyond the edge");
    EXPECT_EQ(met.outcome, "folded onto the face");
    EXPECT_EQ(met.secondary_burr->value, 0.0);
    EXPECT_EQ(left.side, left.fed_as);
    // Hardly worn before it folds: lying flat it would reach as far as it was high.
    EXPECT_GT(left.secondary_burr->value, 0.0);
    EXPECT_LE(left.secondary_burr->value, 0.12 - 0.01);
    EXPECT_NEAR(left.fold_start->value, 0.12, 0.05 * 0.12);
    // Metal over height is no more than the root, less what its foot loses on the way down: that
    // stands proud by up to half a thickness, and grains press on it with all their force.
    EXPECT_LE(left.lip_thickness->value, 1.001 * 0.02);
    EXPECT_GT(left.lip_thickness->value, 0.5 * 0.02);
  }
}

// Even force (grains at no distance): when it folds, mu f h + f e is M_p. The centroid lies within
// a third of the root from the hinge, 3 % of mu h here; force and height are read within one step.
TEST(FastFolding, FoldsAtTheForceThatTheHingeLawAsks) {
  const models::WallBurr tall{.height = 0.3, .root = 0.01, .taper = 0, .flow_stress = 220};
  auto station = folding_station();
  station.grain_spacing = 0.0;
  const auto answer = fast_answer(belt_line(station, {outer_edge("front", Side::leading, tall)}));
  const auto& edge = answer.part.features[0];
  ASSERT_EQ(edge.outcome, "folded beyond the edge");
  const double moment = 0.4 * edge.peak_line_force->value * edge.fold_start->value;
  EXPECT_NEAR(moment / models::plastic_moment(220, 0.01), 1.0, 0.05);
}

// A thick root is ground where a thin one folds.
TEST(FastFolding, GrindsWhatItCannotFold) {
  auto thick = feather;
  thick.root = 0.15;
  auto station = tests::belted_drum(40);
  station.grain_spacing = 0.3;
  const auto answer = fast_answer(belt_line(station, {outer_edge("thin", Side::leading, feather),
                                                      outer_edge("thick", Side::leading, thick)}));
  EXPECT_EQ(answer.part.features[0].outcome, "folded beyond the edge");
  EXPECT_EQ(answer.part.features[1].outcome, "ground off");
  EXPECT_EQ(answer.part.features[1].secondary_burr->value, 0.0);
  EXPECT_FALSE(answer.part.features[1].lip_thickness || answer.part.features[1].fold_start);
}
