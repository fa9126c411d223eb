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

TEST(Verdict, DoesNotAcceptWithoutLimits) {
  const auto verdict = judge({}, part());
  EXPECT_FALSE(verdict.accepted);
  EXPECT_EQ(verdict.state, "no limits given");
  EXPECT_TRUE(verdict.items.empty());
}
