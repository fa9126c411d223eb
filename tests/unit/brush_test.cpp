#include "models/brush/brush.hpp"

#include <cmath>
#include <numbers>
#include <set>
#include <stdexcept>

#include <gtest/gtest.h>

#include "models/brush/edge.hpp"
#include "models/brush/filament_materials.hpp"
#include "models/brush/lip_fatigue.hpp"
#include "models/brush/table.hpp"
#include "models/brush/wear.hpp"
#include "tests/support/brushes.hpp"

using namespace drumlin::models;
using drumlin::tests::web;

namespace {

FilamentBrush steel_brush(double length = 30.0) {
  return {.filament = {.diameter = 0.3,
                       .free_length = length,
                       .modulus = 205e3,
                       .density = 7.85e-9,
                       .friction = 0.25},
          .radius = 150,
          .fill = 0.3,
          .rows = 24,
          .abrasion = {1e-6, 4.0, 1e-8, 1.0}};
}

template <class Owner>
void expect_sound_keys() {
  std::set<std::string_view> names;
  for (const auto& key : Owner::keys()) {
    EXPECT_TRUE(names.insert(key.name).second) << key.name << " stands twice";
    EXPECT_LT(key.low, key.high) << key.name;
    EXPECT_FALSE(key.meaning.empty()) << key.name;
    Owner owner{};
    owner.*key.member = key.high;
    EXPECT_EQ(owner.*key.member, key.high);
  }
}

}  // namespace

TEST(BrushKeys, CanBeWalkedAndHaveRanges) {
  expect_sound_keys<Filament>();
  expect_sound_keys<FilamentBrush>();
  expect_sound_keys<NonWovenBrush>();
  expect_sound_keys<BrushAbrasion>();
  expect_sound_keys<LipMetal>();
}

TEST(FilamentMaterials, StartWithinTheirBandsAndSayWhereTheyAreFrom) {
  for (const FilamentMaterial& material : filament_materials) {
    EXPECT_LE(material.modulus_low, material.modulus) << material.name;
    EXPECT_GE(material.modulus_high, material.modulus) << material.name;
    EXPECT_LT(material.slowest, material.fastest) << material.name;
    EXPECT_FALSE(material.source.empty()) << material.name;
  }
}

TEST(Brush, DoesNothingUntilItTouches) {
  for (const AnyBrush& brush : {AnyBrush(steel_brush()), AnyBrush(web)}) {
    for (const double penetration : {0.0, -0.5}) {
      const BrushContact touch = contact(brush, penetration, 15e3);
      EXPECT_EQ(touch.line_force, 0.0);
      EXPECT_EQ(touch.power, 0.0);
      EXPECT_EQ(touch.rub, 0.0);
      EXPECT_FALSE(touch.tips.has_value());
      EXPECT_EQ(wear_rate(brush, touch), 0.0);
    }
  }
  EXPECT_EQ(edge_contact(steel_brush(), 0.0, 15e3, EdgeSide::onto_metal).line_force, 0.0);
  EXPECT_EQ(dip(steel_brush(), 0.0, 15e3, 6.0).deepest, 0.0);
}

TEST(Brush, CountsStrikesAndRows) {
  // Tips per area of their cylinder, 4 fill / (pi d^2), times their speed.
  const double per_area = 4.0 * 0.3 / (std::numbers::pi * 0.09);
  const BrushContact touch = contact(steel_brush(), 1.0, 15e3);
  EXPECT_NEAR(touch.tips->strikes / (per_area * 15e3), 1.0, 1e-12);
  EXPECT_NEAR(touch.tips->row_frequency.value(), 24 * 15e3 / (2 * std::numbers::pi * 150), 1e-9);
  FilamentBrush even = steel_brush();
  even.rows = 0;
  EXPECT_FALSE(contact(even, 1.0, 15e3).tips->row_frequency.has_value());
  EXPECT_FALSE(contact(web, 1.0, 15e3).tips.has_value());
}

TEST(Brush, TakesItsFilamentsByHubOrByTips) {
  // 4 per mm^2 of a hub of 120 mm are 3.2 per mm^2 at 150 mm.
  const FilamentBrush brush = steel_brush();
  EXPECT_NEAR(fill_of_hub_density(brush.filament, 150, 4.0), 3.2 * std::numbers::pi * 0.09 / 4.0,
              1e-12);
}

TEST(Brush, DoublesWithItsFill) {
  FilamentBrush dense = steel_brush();
  dense.fill *= 2.0;
  EXPECT_NEAR(contact(dense, 1.0, 15e3).line_force / contact(steel_brush(), 1.0, 15e3).line_force,
              2.0, 1e-12);
}

// With the feed tips leave the metal at the edge that enters first; turned the other way round,
// they come onto it there.
TEST(Brush, MeetsAnEdgeTheOtherWayWhenItTurnsTheOtherWay) {
  constexpr int leading = -1;  // metal lies behind the leading edge, towards -x
  constexpr int trailing = +1;
  EXPECT_EQ(edge_side(leading, +1), EdgeSide::off_metal);
  EXPECT_EQ(edge_side(trailing, +1), EdgeSide::onto_metal);
  EXPECT_EQ(edge_side(leading, -1), EdgeSide::onto_metal);
  EXPECT_EQ(edge_side(trailing, -1), EdgeSide::off_metal);
}

// 0.1 mm wires of 70 mm at 40 m/s hang like ropes; their stiffness cannot be found by shooting.
TEST(Brush, RefusesFilamentsThatAreRopes) {
  FilamentBrush limp = steel_brush(70.0);
  limp.filament.diameter = 0.1;
  EXPECT_GT(limpness(filament_on(limp, 1.0, 40e3)), limpest);
  EXPECT_THROW((void)contact(limp, 1.0, 40e3), std::domain_error);
  EXPECT_LT(limpness(filament_on(steel_brush(), 1.0, 30e3)), 2.0);
}

TEST(Brush, RefusesPenetrationsThatFoldItsFilaments) {
  EXPECT_THROW((void)contact(steel_brush(), 22.0, 15e3), std::domain_error);
  EXPECT_NO_THROW((void)contact(steel_brush(), 11.0, 15e3));
  EXPECT_THROW((void)edge_contact(steel_brush(), 7.0, 15e3, EdgeSide::onto_metal),
               std::domain_error);
}

TEST(Brush, HasNoSwingsAtRest) {
  EXPECT_FALSE(contact(steel_brush(), 1.0, 0.0).tips->swings.has_value());
  EXPECT_GT(contact(steel_brush(), 1.0, 1e3).tips->swings.value(), 1.0);
  EXPECT_LT(contact(steel_brush(), 1.0, 20e3).tips->swings.value(), 1.0);
}

// Penetration 1.5 mm: no contact from 1.5 mm of wear on, the whole penetration with make-up.
TEST(WornBrush, LosesItsContactWithItsPenetration) {
  const FilamentBrush brush = steel_brush();
  for (const double loss : {1.5, 3.0}) {
    const BrushWear wear{.radius_loss = loss, .set = 0.0, .make_up = 0.0};
    EXPECT_EQ(penetration_left(1.5, wear), 0.0);
    EXPECT_EQ(contact(worn(brush, wear), penetration_left(1.5, wear), 15e3).line_force, 0.0);
    const EdgeContact edge =
        edge_contact(worn(brush, wear), penetration_left(1.5, wear), 15e3, EdgeSide::off_metal);
    EXPECT_EQ(edge_work(worn(brush, wear), edge, 15e3, 25.0, 1e-6, 0.0).radius, 0.0);
  }
  EXPECT_EQ(penetration_left(1.5, {.radius_loss = 3.0, .set = 0.0, .make_up = 3.0}), 1.5);
  EXPECT_GT(contact(worn(brush, {1.4, 0.0, 0.0}), 0.1, 15e3).line_force, 0.0);
}

// A web keeps its number: force goes with 1 / depth and a radius that hardly changes. 3 mm of a
// 50 mm web are 47 / 50; the chord loses 1 %.
TEST(WornBrush, IsWithinAFewPercentOfNewWhenAWebIsMadeUp) {
  const BrushWear wear{.radius_loss = 3.0, .set = 0.0, .make_up = 3.0};
  const double force = contact(worn(web, wear), 1.5, 8e3).line_force;
  EXPECT_NEAR(force / contact(web, 1.5, 8e3).line_force, 50.0 / 47.0 * std::sqrt(147.0 / 150.0),
              1e-4);
}

// Made up or not, shorter filaments are stiffer: between L^-2 and L^-2.5 at the same penetration
// (small bow: room sqrt(delta L) times 3 EI / L^3 over a grip of mu to sqrt(delta / L)).
TEST(WornBrush, PressesHarderWithShorterFilamentsWhenMadeUp) {
  for (const double length : {30.0, 60.0}) {
    const FilamentBrush brush = steel_brush(length);
    const BrushWear wear{.radius_loss = 3.0, .set = 0.0, .make_up = 3.0};
    const double gain =
        contact(worn(brush, wear), 1.5, 0.0).line_force / contact(brush, 1.5, 0.0).line_force;
    const double shorter = length / (length - 3.0);
    EXPECT_GT(gain, std::pow(shorter, 2.0) * 0.99);  // the hub turns as far on a smaller circle
    EXPECT_LT(gain, std::pow(shorter, 2.5));
  }
}

TEST(WornBrush, KeepsItsHubAndItsNumberOfFilaments) {
  const FilamentBrush brush = steel_brush();
  const FilamentBrush left = worn(brush, {.radius_loss = 3.0, .set = 0.0, .make_up = 0.0});
  EXPECT_DOUBLE_EQ(left.radius - left.filament.free_length,
                   brush.radius - brush.filament.free_length);
  EXPECT_NEAR(filaments_per_angle(left) / filaments_per_angle(brush), 1.0, 1e-12);
  EXPECT_DOUBLE_EQ(speed_left(brush, {.radius_loss = 3.0, .set = 0, .make_up = 0}, 15e3), 14.7e3);
}

TEST(WornBrush, ReachesShortByTheSquareOfItsSet) {
  EXPECT_DOUBLE_EQ(penetration_left(2.0, {.radius_loss = 0.5, .set = 0.5, .make_up = 0.0}), 1.0);
}

// k rub / (2 pi R fill): each turn a filament loses k times force times path over its section.
TEST(WornBrush, WearsByWhatItsTipsRub) {
  const FilamentBrush brush = steel_brush();
  const BrushContact touch = contact(brush, 1.5, 15e3);
  const Sweep sweep = sweep_face(filament_on(brush, 1.5, 15e3));
  const double turns = 15e3 / (2.0 * std::numbers::pi * 150.0);
  const double per_turn = 1e-8 * sweep.normal_path / section_area(brush.filament);
  EXPECT_NEAR(wear_rate(brush, touch) / (per_turn * turns), 1.0, 1e-12);
}

// With wear in proportion to force a trim is worth the same at any setting, K / k of its volume;
// with more than that a harsher setting takes less metal before the trim is used up.
TEST(WornBrush, TakesLessPerTrimWhereHarshSettingsWearItMore) {
  FilamentBrush brush = steel_brush();
  const auto worth = [&](double penetration) {
    return removal_per_trim(brush, contact(brush, penetration, 15e3)).value();
  };
  const double circumference = 2.0 * std::numbers::pi * 150.0 * 0.3;
  EXPECT_NEAR(worth(1.0) / (1e-6 / 1e-8 * circumference), 1.0, 1e-12);
  EXPECT_NEAR(worth(2.0) / worth(1.0), 1.0, 1e-12);
  brush.abrasion.wear_exponent = 2.0;
  const auto mean = [&](double penetration) {
    return contact(brush, penetration, 15e3).tips->mean_force;
  };
  const double force = mean(2.0) / mean(1.0);
  EXPECT_GT(force, 1.1);
  EXPECT_NEAR(worth(2.0) / worth(1.0), 1.0 / force, 1e-12);
  brush.abrasion.wear_coefficient = 0.0;
  EXPECT_FALSE(removal_per_trim(brush, contact(brush, 1.0, 15e3)).has_value());
}
