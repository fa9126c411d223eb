#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "tests/support/fast_cases.hpp"

using namespace drumlin;
using cases::Side;
using tests::belt_line;
using tests::fast_answer;
using tests::outer_edge;

namespace {

constexpr models::WallBurr wall{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 300};
constexpr models::Bead bead{
    .width = 1.2, .height = 0.3, .specific_energy = 15000, .bond_strength = 1e6};

void coat(sim::Setup& setup, double thickness, double reverse) {
  setup.scenario.part.coating.emplace();
  setup.scenario.part.coating->thickness = thickness;
  setup.scenario.part.coating->reverse_thickness = reverse;
}

double left_on(const models::AnyBurr& burr) {
  return fast_answer(belt_line(tests::belted_drum(40), {outer_edge("edge", Side::leading, burr)}))
      .part.features[0]
      .burr_height->value;
}

}  // namespace

// A knock-off breaks what stands above its clearance and clings with less than F / w (shear) or
// 6 F c / w^2 (peel): here w 1.2, c 0.1 and 0.25.
TEST(FastStations, KnocksOffBeadsThatStandTooHighAndClingTooLittle) {
  const auto outcome = [](double clearance, double force, double bond) {
    auto weak = bead;
    weak.bond_strength = bond;
    auto setup = belt_line(tests::belted_drum(40), {outer_edge("edge", Side::leading, weak)});
    setup.stations = {sim::KnockOffSetup{clearance, force, "edges"}};
    const auto answer = fast_answer(setup);
    EXPECT_EQ(answer.stations[0].kind, "knock-off");
    EXPECT_FALSE(answer.stations[0].line_load || answer.stations[0].power);
    return answer.part.features[0].outcome;
  };
  const double shear = 24.0 / 1.2;
  EXPECT_EQ(outcome(0.1, 24.0, 0.99 * shear), "broken off");
  EXPECT_EQ(outcome(0.1, 24.0, 1.01 * shear), "stands");
  EXPECT_EQ(outcome(0.31, 24.0, 0.99 * shear), "untouched");
  const double peel = 6.0 * 24.0 * 0.25 / 1.44;
  EXPECT_EQ(outcome(0.25, 24.0, 0.99 * peel), "broken off");
  EXPECT_EQ(outcome(0.25, 24.0, 1.01 * peel), "stands");
}

// A bead of the base metal's energy grinds as that does; harder slag stays higher, and one that
// clings by nothing breaks off at the first touch.
TEST(FastStations, GrindsABeadByItsOwnEnergyOrBreaksIt) {
  auto hard = bead;
  hard.specific_energy = 60000;
  EXPECT_GT(left_on(hard), left_on(bead) + 0.01);
  auto loose = bead;
  loose.bond_strength = 1e-3;
  const auto answer =
      fast_answer(belt_line(tests::belted_drum(40), {outer_edge("edge", Side::leading, loose)}));
  EXPECT_EQ(answer.part.features[0].outcome, "broken off");
}

// A lip that lies from the start is pushed down where grains press on it, and lies on where an even
// force asks less of its hinge than it takes: p L^2 / 2 under M_p, 13 MPa here.
TEST(FastStations, LeavesARolledBurrLyingUnderAnEvenForce) {
  const models::RolledBurr rolled{.overhang = 0.1, .thickness = 0.04, .flow_stress = 220};
  const auto edge =
      fast_answer(belt_line(tests::belted_drum(40), {outer_edge("edge", Side::leading, rolled)}))
          .part.features[0];
  EXPECT_NEAR(edge.secondary_burr->value, 0.1, 1e-12);
  EXPECT_LE(edge.lip_thickness->value, 0.04);
  EXPECT_EQ(edge.outcome, "folded beyond the edge");
  EXPECT_FALSE(edge.fold_start);
  EXPECT_GT(edge.peak_line_force->value, 0.0);
}

// What sticks out of the edge stays; the ridge on it is ground as a wall of its size is.
TEST(FastStations, GrindsAStubsRidgeAndLeavesItSticking) {
  const models::Stub stub{.protrusion = 0.4, .height = 0.15, .root = 0.15};
  auto feature = outer_edge("joint", Side::leading, stub);
  feature.kind = cases::FeatureKind::stub;
  feature.size = 1.0;
  const auto edge = fast_answer(belt_line(tests::belted_drum(40), {feature})).part.features[0];
  EXPECT_EQ(edge.protrusion->value, 0.4);
  EXPECT_NEAR(edge.burr_height->value, left_on(wall), 1e-12);
}

// Turned over and back between two belts nothing has changed, bit for bit.
TEST(FastStations, DoNothingByTurningThePartTwice) {
  auto two = belt_line(tests::belted_drum(40), {outer_edge("edge", Side::trailing, wall)});
  two.stations.push_back(two.stations.front());
  auto turned = two;
  turned.stations.insert(turned.stations.begin() + 1,
                         {sim::FlipSetup{"over"}, sim::FlipSetup{"back"}});
  const auto a = fast_answer(two);
  const auto b = fast_answer(turned);
  EXPECT_EQ(a.part.face.removal->value, b.part.face.removal->value);
  EXPECT_EQ(a.part.features[0].burr_height->value, b.part.features[0].burr_height->value);
  EXPECT_FALSE(b.part.reverse);
  EXPECT_EQ(b.stations[1].kind, "flip");
}

// The second belt meets the other face: it takes there what a first belt takes, off its own
// coating, and leaves the burrs' face alone.
TEST(FastStations, WorkTheOtherFaceOnceThePartIsTurned) {
  auto one = belt_line(tests::belted_drum(40), {outer_edge("edge", Side::trailing, wall)});
  coat(one, 0.02, 0.007);
  auto turned = one;
  turned.stations.emplace_back(sim::FlipSetup{"over"});
  turned.stations.push_back(one.stations.front());
  const auto a = fast_answer(one);
  const auto b = fast_answer(turned);
  EXPECT_FALSE(a.part.reverse);
  ASSERT_TRUE(b.part.reverse);
  EXPECT_EQ(b.part.face.removal->value, a.part.face.removal->value);
  EXPECT_EQ(b.part.features[0].burr_height->value, a.part.features[0].burr_height->value);
  // Coating and base metal wear alike here, so the depth is the same on either face.
  EXPECT_NEAR(b.part.reverse->face.removal->value, a.part.face.removal->value, 1e-12);
  EXPECT_NEAR(b.part.reverse->face.coating_left->value,
              std::max(0.007 - a.part.face.removal->value, 0.0), 1e-12);
  EXPECT_TRUE(b.part.reverse->features[0].outcome.empty());
  EXPECT_FALSE(b.part.reverse->features[0].burr_height);
}

// Burrs down, a belt never touches them.
TEST(FastStations, LeaveBurrsUntouchedThatLieBelow) {
  auto setup = belt_line(tests::belted_drum(40), {outer_edge("edge", Side::trailing, wall)});
  setup.scenario.part.burr_side = cases::BurrSide::down;
  const auto part = fast_answer(setup).part;
  EXPECT_EQ(part.features[0].outcome, "untouched");
  EXPECT_DOUBLE_EQ(part.features[0].burr_height->value, 0.15);
  EXPECT_EQ(part.face.removal->value, 0.0);
  EXPECT_GT(part.reverse->face.removal->value, 0.0);
}

// The part that one run leaves is the part that the next one finds: two runs are one line.
TEST(FastStations, ChainAsOneLine) {
  const auto first = belt_line(tests::belted_drum(40), {outer_edge("edge", Side::trailing, wall)});
  auto second = first;
  second.belt(0).substrate.law = models::Preston{1e-5, 0.0};
  auto line = first;
  line.stations.push_back(second.stations.front());
  sim::fast::Drums drums;
  const auto half = sim::fast::simulate(first, drums);
  const auto chained =
      sim::fast::state(second, sim::fast::simulate(second, drums, {}, &half.last[0].part), false);
  const auto whole = fast_answer(line);
  EXPECT_EQ(chained.part.face.removal->value, whole.part.face.removal->value);
  EXPECT_EQ(chained.part.features[0].burr_height->value, whole.part.features[0].burr_height->value);
}

// A layer over the coating goes first: while the pass takes less than it, the coating is whole.
TEST(FastStations, WearTheLayerOverTheCoatingFirst) {
  auto setup = belt_line(tests::belted_drum(40), {});
  coat(setup, 0.02, 0.02);
  setup.scenario.part.coating->top = cases::TopLayer{.material = {}, .thickness = 0.03};
  const auto thick = fast_answer(setup).part.face;
  EXPECT_NEAR(thick.top_left->value + thick.removal->value, 0.03, 1e-12);
  EXPECT_EQ(thick.coating_left->value, 0.02);
  setup.scenario.part.coating->top->thickness = 0.005;
  const auto thin = fast_answer(setup).part.face;
  EXPECT_EQ(thin.top_left->value, 0.0);
  EXPECT_NEAR(thin.coating_left->value + thin.removal->value, 0.025, 1e-12);
}

// Ten holes alike are one hole with ten names; one with another burr is not among them.
TEST(FastStations, GiveEdgesThatAreAlikeTheSameAnswer) {
  auto taller = wall;
  taller.height = 0.2;
  const auto together =
      fast_answer(belt_line(tests::belted_drum(40), {outer_edge("first", Side::trailing, wall),
                                                     outer_edge("tall", Side::trailing, taller),
                                                     outer_edge("second", Side::trailing, wall)}));
  const auto& edges = together.part.features;
  EXPECT_EQ(edges[2].name, "second");
  EXPECT_EQ(edges[2].burr_height->value, edges[0].burr_height->value);
  EXPECT_EQ(edges[2].peak_line_force->value, edges[0].peak_line_force->value);
  EXPECT_NE(edges[1].burr_height->value, edges[0].burr_height->value);
}

// Fed the other way round, what led trails; fed by its side, its sides lead and trail.
TEST(FastStations, TakeEdgesAsTheyAreFed) {
  auto setup = belt_line(tests::belted_drum(40), {outer_edge("front", Side::leading, wall),
                                                  outer_edge("back", Side::trailing, wall),
                                                  outer_edge("flank", Side::side, wall)});
  const auto straight = fast_answer(setup).part.features;
  EXPECT_FALSE(straight[2].burr_height);
  EXPECT_NE(straight[2].note.find("along the feed"), std::string::npos);
  setup.scenario.part.angle = std::numbers::pi;
  const auto half_turn = fast_answer(setup).part.features;
  EXPECT_NEAR(half_turn[0].burr_height->value, straight[1].burr_height->value, 1e-12);
  EXPECT_NEAR(half_turn[1].burr_height->value, straight[0].burr_height->value, 1e-12);
  EXPECT_EQ(half_turn[0].fed_as, "trailing");
  EXPECT_EQ(half_turn[0].side, "leading");
  setup.scenario.part.angle = 0.5 * std::numbers::pi;
  const auto quarter = fast_answer(setup).part.features;
  EXPECT_FALSE(quarter[0].burr_height || quarter[1].burr_height);
  EXPECT_EQ(quarter[0].fed_as, "side");
  // Both sides share a name: the one with more burr left speaks for it.
  EXPECT_NEAR(quarter[2].burr_height->value,
              std::max(straight[0].burr_height->value, straight[1].burr_height->value), 1e-12);
}

// A drum set just off the face still meets what stands on it: the face keeps all, the burr does
// not.
TEST(FastStations, GrindABurrUnderADrumThatClearsTheFace) {
  auto station = tests::belted_drum(40);
  station.setting = cases::InterferenceSetting{0.0};
  const auto part =
      fast_answer(belt_line(station, {outer_edge("edge", Side::trailing, wall)})).part;
  EXPECT_EQ(part.face.removal->value, 0.0);
  EXPECT_LT(part.features[0].burr_height->value, 0.149);
  EXPECT_GT(part.features[0].burr_height->value, 0.0);
}

// Under a thin cover that keeps its volume the nip is wider than the undeformed drum reaches: the
// rim that the drum leaves last was once handed on as plain face. There the edge is worn lower.
TEST(FastStations, WearATrailingEdgeUnderANipWiderThanTheDrumsReach) {
  auto station = tests::bare_drum(30);
  station.cover.thickness = 5.0;
  station.cover.poisson_ratio = 0.4999;
  sim::fast::Drums drums;
  const double half_width = drums.of(0, station, 0.5).law.half_width(0.5);
  const models::WallBurr low{.height = 0.02, .root = 0.05, .taper = 0, .flow_stress = 1e6};
  ASSERT_GT(half_width, std::sqrt(2.0 * station.radius * (0.5 + low.height)));
  const auto edge =
      fast_answer(belt_line(station, {outer_edge("edge", Side::trailing, low)})).part.features[0];
  EXPECT_GT(edge.peak_pressure->value, 0.0);
  EXPECT_LT(edge.burr_height->value, -1e-6);
}
