#include "sim/verdict.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

using namespace drumlin;
using sim::Banded;
using sim::judge;
using sim::Quantity;
using sim::VerdictItem;

namespace {

cases::Limit at_most(double mm) {
  return {.low = {}, .high = mm, .text = "<= limit", .unit = "um", .scale = 1e-3, .offset = 0};
}
cases::Limit at_least(double mm) {
  return {.low = mm, .high = {}, .text = ">= limit", .unit = "um", .scale = 1e-3, .offset = 0};
}

Quantity value(double mm) {
  return Banded{.value = mm, .low = {}, .high = {}};
}

sim::PartState part() {
  sim::PartState state;
  state.face.coating_left = value(0.010);
  sim::FeatureResult hole;
  hole.name = "hole:trailing";
  hole.feature = "hole";
  hole.kind = "hole";
  hole.side = "trailing";
  hole.burr = "wall";
  hole.burr_height = value(0.020);
  hole.edge_radius = value(0.12);
  hole.coating_left = value(0.002);
  hole.coating_beyond = {
      {.distance = 2.0, .left = Banded{.value = 0.008, .low = 0.004, .high = 0.009}}};
  sim::FeatureResult front = hole;
  front.name = front.feature = "front";
  front.kind = "outer-edge";
  front.side = "leading";
  front.burr = "none";
  front.burr_height = {};
  state.features = {hole, front};
  return state;
}

const VerdictItem& named(const sim::Verdict& verdict, std::string_view name) {
  for (const auto& item : verdict.items) {
    if (item.name == name) return item;
  }
  throw std::out_of_range(std::string(name));
}

}  // namespace

TEST(Verdict, AcceptsWhatLiesInsideEveryLimitAndGivesTheMargin) {
  cases::Accept accept;
  accept.limits = {{"burr_height", at_most(0.030)}, {"coating_left", at_least(0.009)}};
  const auto verdict = judge(accept, part());
  EXPECT_TRUE(verdict.accepted);
  EXPECT_EQ(verdict.state, "accepted");
  EXPECT_NEAR(*named(verdict, "hole:trailing burr_height").margin, 10.0, 1e-9);
  EXPECT_NEAR(*named(verdict, "face coating_left").margin, 1.0, 1e-9);
  // 1 um of 9 is the smaller share.
  EXPECT_EQ(verdict.decided_by, "face coating_left");
}

// A burr limit speaks of edges that carry a burr; an edge cut clean has none to judge.
TEST(Verdict, AsksForBurrsOnlyWhereOneStood) {
  cases::Accept accept;
  accept.limits = {{"burr_height", at_most(0.030)}};
  EXPECT_EQ(judge(accept, part()).items.size(), 1U);
}

TEST(Verdict, RefusesWhatLiesOutsideAndNamesIt) {
  cases::Accept accept;
  accept.limits = {{"burr_height", at_most(0.010)}, {"coating_left", at_least(0.009)}};
  const auto verdict = judge(accept, part());
  EXPECT_FALSE(verdict.accepted);
  EXPECT_EQ(verdict.state, "not accepted");
  EXPECT_EQ(verdict.decided_by, "hole:trailing burr_height");
  EXPECT_NEAR(*named(verdict, "hole:trailing burr_height").margin, -10.0, 1e-9);
}

TEST(Verdict, DoesNotKnowWhatTheModelDoesNotGive) {
  cases::Accept accept;
  accept.limits = {{"coating_left", at_least(0.009)}, {"secondary_burr", at_most(0.05)}};
  const auto verdict = judge(accept, part());
  EXPECT_FALSE(verdict.accepted);
  EXPECT_EQ(verdict.state, "not known");
  const auto& item = named(verdict, "hole:trailing secondary_burr");
  EXPECT_FALSE(item.value);
  EXPECT_FALSE(item.margin);
  EXPECT_FALSE(item.accepted);
}

// Outside one limit outweighs not knowing another.
TEST(Verdict, PutsNotAcceptedBeforeNotKnown) {
  cases::Accept accept;
  accept.limits = {{"coating_left", at_least(0.015)}, {"secondary_burr", at_most(0.05)}};
  EXPECT_EQ(judge(accept, part()).state, "not accepted");
}

TEST(Verdict, AppliesFeatureLimitsByNameKindAndSide) {
  cases::Accept accept;
  accept.features.push_back({.name = {},
                             .kind = cases::FeatureKind::hole,
                             .side = {},
                             .beyond = {},
                             .limits = {{"edge_radius", at_least(0.1)}}});
  accept.features.push_back({.name = "front",
                             .kind = {},
                             .side = {},
                             .beyond = {},
                             .limits = {{"edge_radius", at_least(0.2)}}});
  accept.features.push_back({.name = {},
                             .kind = {},
                             .side = cases::Side::trailing,
                             .beyond = 2.0,
                             .limits = {{"coating_left", at_least(0.005)}}});
  const auto verdict = judge(accept, part());
  ASSERT_EQ(verdict.items.size(), 3U);
  EXPECT_EQ(verdict.items[0].name, "hole:trailing edge_radius");
  EXPECT_EQ(verdict.items[1].name, "front edge_radius");
  EXPECT_EQ(verdict.items[2].name, "hole:trailing coating_left beyond 2 mm");
  EXPECT_NEAR(verdict.items[2].value->value, 8.0, 1e-9);
  EXPECT_NEAR(*verdict.items[2].value->low, 4.0, 1e-9);
  EXPECT_EQ(verdict.decided_by, "front edge_radius");
}

TEST(Verdict, KeepsBothEndsOfARange) {
  cases::Accept accept;
  auto range = at_most(0.15);
  range.low = 0.10;
  accept.limits = {{"edge_radius", range}};
  const auto verdict = judge(accept, part());
  EXPECT_NEAR(*verdict.items[0].margin, 20.0, 1e-9);  // 120 um in 100..150
}

// A burr ground below the face has a negative height, in the verdict as everywhere; a limit may ask
// for that.
TEST(Verdict, KeepsTheSignOfABurrBelowTheFace) {
  auto state = part();
  state.features[0].burr_height = value(-0.040);
  cases::Accept accept;
  accept.limits = {{"burr_height", at_most(0.030)}};
  const auto verdict = judge(accept, state);
  EXPECT_NEAR(verdict.items[0].value->value, -40.0, 1e-9);
  EXPECT_NEAR(*verdict.items[0].margin, 70.0, 1e-9);
  accept.limits = {{"burr_height", at_least(-0.010)}};
  EXPECT_FALSE(judge(accept, state).accepted);
}

// The other face is judged by the same limits where a tool meets it; its edges carry no burr to be
// asked for.
TEST(Verdict, JudgesTheReverseFaceUnderItsOwnName) {
  auto state = part();
  state.reverse.emplace();
  state.reverse->face.coating_left = value(0.006);
  sim::FeatureResult rim = state.features[0];
  rim.burr = "none";
  rim.burr_height = {};
  rim.edge_radius = value(0.04);
  state.reverse->features = {rim};
  cases::Accept accept;
  accept.limits = {{"coating_left", at_least(0.009)},
                   {"edge_radius", at_least(0.1)},
                   {"burr_height", at_most(0.030)},
                   {"secondary_burr", at_most(0.030)}};
  accept.features.push_back({.name = "hole",
                             .kind = {},
                             .side = {},
                             .beyond = 2.0,
                             .limits = {{"coating_left", at_least(0.005)}}});
  const auto verdict = judge(accept, state);
  EXPECT_TRUE(*named(verdict, "face coating_left").accepted);
  EXPECT_FALSE(*named(verdict, "reverse face coating_left").accepted);
  EXPECT_FALSE(*named(verdict, "reverse hole:trailing edge_radius").accepted);
  EXPECT_TRUE(*named(verdict, "reverse hole:trailing coating_left beyond 2 mm").accepted);
  for (const auto& item : verdict.items) {
    EXPECT_NE(item.name, "reverse hole:trailing burr_height");
    EXPECT_NE(item.name, "reverse hole:trailing secondary_burr");
  }
}

TEST(Verdict, HasNoReverseItemsWhereNoToolMeetsThatFace) {
  cases::Accept accept;
  accept.limits = {{"coating_left", at_least(0.009)}};
  EXPECT_EQ(judge(accept, part()).items.size(), 1U);
}

// 3 mm oxygen-cut steel, at most 5 % of the flank's oxide may stay: a belt that leaves 97 % of it
// fails, whatever else is in order.
TEST(Verdict, NeverPassesOverOxideOnTheFlank) {
  auto state = part();
  for (auto& feature : state.features)
    feature.oxide_left = value(0.97);
  cases::Limit share{
      .low = {}, .high = 0.05, .text = "<= 5 %", .unit = "%", .scale = 0.01, .offset = 0};
  cases::Accept accept;
  accept.limits = {{"coating_left", at_least(0.009)}, {"flank_oxide", share}};
  const auto verdict = judge(accept, state);
  EXPECT_EQ(verdict.state, "not accepted");
  const auto& item = named(verdict, "hole:trailing flank_oxide");
  EXPECT_NEAR(item.value->value, 97, 1e-9);
  EXPECT_NEAR(*item.margin, -92, 1e-9);
}

TEST(Verdict, AsksForTheProtrusionOfStubsOnly) {
  auto state = part();
  sim::FeatureResult stub;
  stub.name = stub.feature = "tab";
  stub.kind = stub.burr = "stub";
  stub.protrusion = value(0.4);
  state.features.push_back(stub);
  cases::Accept accept;
  accept.limits = {{"protrusion", at_most(0.3)}};
  const auto verdict = judge(accept, state);
  ASSERT_EQ(verdict.items.size(), 1U);
  EXPECT_EQ(verdict.items[0].name, "tab protrusion");
  EXPECT_FALSE(*verdict.items[0].accepted);
}

// Size as ISO 13715 counts it: -0.2 mm lies within -0.3 to -0.05 mm, a burr of +0.02 mm does not.
TEST(Verdict, JudgesEdgeSizesWithTheirSign) {
  auto state = part();
  state.features[0].edge_size = value(-0.2);
  state.features[1].edge_size = value(0.02);
  state.features[0].minimum_radius = value(0.08);
  cases::Limit size = at_most(-0.05);
  size.low = -0.3;
  cases::Accept accept;
  accept.limits = {{"edge_size", size}, {"minimum_radius", at_least(0.05)}};
  const auto verdict = judge(accept, state);
  EXPECT_NEAR(*named(verdict, "hole:trailing edge_size").margin, 100.0, 1e-9);
  EXPECT_NEAR(*named(verdict, "front edge_size").margin, -70.0, 1e-9);
  EXPECT_TRUE(*named(verdict, "hole:trailing minimum_radius").accepted);
}

TEST(Verdict, JudgesTheLayerOverTheCoating) {
  auto state = part();
  state.face.top_left = value(0.030);
  cases::Accept accept;
  accept.limits = {{"top_left", at_least(0.040)}};
  EXPECT_EQ(judge(accept, state).decided_by, "face top_left");
}

TEST(Verdict, DoesNotAcceptWithoutLimits) {
  const auto verdict = judge({}, part());
  EXPECT_FALSE(verdict.accepted);
  EXPECT_EQ(verdict.state, "no limits given");
  EXPECT_TRUE(verdict.items.empty());
}
