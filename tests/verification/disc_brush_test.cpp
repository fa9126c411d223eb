#include <cmath>
#include <numbers>

#include <boost/math/special_functions/ellint_1.hpp>
#include <gtest/gtest.h>

#include "models/brush/disc.hpp"
#include "models/brush/dragged.hpp"
#include "models/brush/wear.hpp"

/// Upright filaments dragged over a face and an edge, and how discs and planetary heads go over a
/// part.
using namespace drumlin::models;
using std::numbers::pi;

namespace {

constexpr Filament nylon{1.0, 40, 3500, 1.25e-9, 0.35};
constexpr double speed = 8000.0;
constexpr double feed = 40.0;

Filament with_friction(double friction) {
  Filament filament = nylon;
  filament.friction = friction;
  return filament;
}

DiscBrush disc() {
  DiscBrush brush;
  brush.filament = nylon;
  brush.radius = 75;
  brush.inner_radius = 30;
  brush.fill = 0.1;
  return brush;
}

DiscBrush planetary() {
  DiscBrush brush = disc();
  brush.carrier_radius = 150;
  brush.carrier_turns = -0.06;
  brush.discs = 4;
  return brush;
}

/// Filaments per area of a disc's ring.
const double density = 0.1 / section_area(nylon);

struct Means {
  Rubbing rubbing;
  EdgePassing leading, side;
};

/// Over the whole row.
Means means_of(const DiscBrush& brush, double feed_speed, int order = 8, int points = 4) {
  Means sum;
  for (const auto& place : places_across(brush, row_width(brush), points)) {
    const auto tips = tips_over(brush, speed, feed_speed, place.across, order);
    sum.rubbing.path += place.share * rubbing(tips).path;
    sum.rubbing.along += place.share * rubbing(tips).along;
    sum.rubbing.across += place.share * rubbing(tips).across;
    add(sum.leading, edge_passing(tips, 1.0, 0.0), place.share);
    add(sum.side, edge_passing(tips, 0.0, 1.0), place.share);
  }
  return sum;
}

}  // namespace

// Without friction the filament is Euler's column: nothing below its load, and the exact elastica
// above it, P L^2 / EI = K(sin(a/2))^2 at a tip slope a. Timoshenko and Gere's post-buckling table
// (20 and 40 degrees, the ones within a fifth of the length) by height: printed to three digits, so
// half of the last against what is missing of the length, 1.7 % and 0.4 %; forces 0.5 % as stated.
TEST(DraggedFilament, IsEulersColumnWithoutFriction) {
  const Filament slippery = with_friction(0.0);
  const double euler = buckling_load(slippery);
  EXPECT_NEAR(dragged_over_face(slippery, 1e-4 * 40).normal_force / euler, 1.0, 1e-4);
  for (const double penetration : {0.5, 2.0, 8.0}) {
    const DraggedFilament at = dragged_over_face(slippery, penetration);
    const double root = boost::math::ellint_1(std::sin(0.5 * at.slope));
    EXPECT_NEAR(at.normal_force / (root * root * bending_stiffness(slippery) / 1600.0), 1.0, 1e-6);
    EXPECT_EQ(at.drag, 0.0);
  }
  struct Row {
    double height, load, slope, sideways;
  };
  for (const Row& row : {Row{0.970, 1.015, 20, 0.219}, Row{0.881, 1.064, 40, 0.422}}) {
    const DraggedFilament at = dragged_over_face(slippery, (1.0 - row.height) * 40);
    const double rounding = 0.5 * 0.0005 / (1.0 - row.height);
    EXPECT_NEAR(at.normal_force / euler / row.load, 1.0, 5e-3);
    EXPECT_NEAR(at.slope * 180.0 / pi / row.slope, 1.0, rounding + 5e-3);
    EXPECT_NEAR(at.deflection / 40.0 / row.sideways, 1.0, rounding + 5e-3);
  }
}

// The drag bends it at any small penetration: a beam under mu N across its tip, 3 EI w / L^3, that
// is drawn up by 0.6 w^2 / L. The axial force, N / P_E of which is left out, adds as much again.
TEST(DraggedFilament, IsABeamUnderItsDragAtSmallPenetrations) {
  const Filament gripping = with_friction(0.8);
  const double penetration = 1e-5 * 40;
  const DraggedFilament at = dragged_over_face(gripping, penetration);
  const double w = std::sqrt(penetration * 40 / 0.6);
  const double beam = 3.0 * bending_stiffness(gripping) * w / (0.8 * std::pow(40.0, 3));
  const double axial = at.normal_force / buckling_load(gripping);
  EXPECT_LT(axial, 0.02);
  EXPECT_NEAR(at.normal_force / beam, 1.0, 1.2 * axial);
  EXPECT_NEAR(at.deflection / w, 1.0, 1e-3);
  EXPECT_NEAR(at.drag / at.normal_force, 0.8, 1e-9);
}

// Published trend (references of the trade, section 8): force per filament goes with d^4 / L^2 at
// one penetration over length. Here it is exact.
TEST(DraggedFilament, PressesWithTheFourthPowerOfItsDiameterOverTheSquareOfItsLength) {
  const double force = dragged_over_face(nylon, 2.0).normal_force;
  Filament other = nylon;
  other.diameter = 0.6;
  other.free_length = 25;
  EXPECT_NEAR(dragged_over_face(other, 2.0 * 25 / 40).normal_force / force,
              std::pow(0.6, 4) / std::pow(25.0 / 40.0, 2), 1e-7);
}

TEST(DraggedFilament, RefusesWhatFoldsIt) {
  EXPECT_THROW((void)dragged_over_face(nylon, 8.1), std::domain_error);
  EXPECT_THROW((void)lean_on_edge(nylon, 8.1), std::domain_error);
  EXPECT_EQ(dragged_over_face(nylon, 0.0).normal_force, 0.0);
  EXPECT_TRUE(lean_on_edge(nylon, -1.0).points.empty());
}

// A beam that an edge bends at its end: N = 3 EI u / L^3 until 0.6 u^2 / L is the depth. Friction
// along it and the finite depth are of the order of the slope, 1.5 u / L = 0.14.
TEST(LeaningFilament, IsABeamAtSmallDepths) {
  const double depth = 0.2;
  const LeanOnEdge lean = lean_on_edge(nylon, depth);
  const double u = std::sqrt(depth * 40 / 0.6);
  const double EI = bending_stiffness(nylon);
  EXPECT_NEAR(lean.points.back().travel / u, 1.0, 0.02);
  EXPECT_NEAR(lean.crossing() / (3.0 * EI * u / std::pow(40.0, 3)), 1.0, 0.03);
  EXPECT_NEAR(lean.rubbing(1.0) / (1.2 * EI * std::pow(u, 3) / std::pow(40.0, 4)), 1.0, 0.03);
  EXPECT_NEAR(lean.rubbing(0.0) / (1.5 * EI * u * u / std::pow(40.0, 3)), 1.0, 0.03);
}

// Trapezoids: a quarter of the error with twice the steps.
TEST(LeaningFilament, ConvergesWithItsSteps) {
  const double exact = lean_on_edge(nylon, 3.0, 384).rubbing(0.8);
  const double coarse = std::abs(lean_on_edge(nylon, 3.0, 12).rubbing(0.8) - exact);
  const double fine = std::abs(lean_on_edge(nylon, 3.0, 48).rubbing(0.8) - exact);
  EXPECT_LT(fine, 0.15 * coarse);
  EXPECT_LT(std::abs(lean_on_edge(nylon, 3.0).rubbing(0.8) - exact), 2e-3 * exact);
}

// It swings out within a quarter period of 121 Hz or so: at 8 m/s, over some 14 mm and its trail.
TEST(DippingFilament, HangsAsDeepAsItIsSetInWideOpeningsOnly) {
  EXPECT_EQ(dip_of_dragged(nylon, 2.0, speed, 40.0), 2.0);
  EXPECT_EQ(dip_of_dragged(nylon, 2.0, 0.0, 6.0), 2.0);
  const double six = dip_of_dragged(nylon, 2.0, speed, 6.0);
  EXPECT_GT(six, 0.0);
  EXPECT_LT(six, dip_of_dragged(nylon, 2.0, speed, 10.0));
  EXPECT_LT(six, dip_of_dragged(nylon, 2.0, 0.5 * speed, 6.0));
  EXPECT_EQ(dip_of_dragged(nylon, 2.0, speed, 0.0), 0.0);
}

// The middle line of a full disc: 2 int W x dx = W b^2. A place half a radius off it: the same
// integral of W r along its chord, to what eight points give.
TEST(Disc, RubsItsMiddleLineAsTheIntegralSays) {
  DiscBrush full = disc();
  full.inner_radius = 0.0;
  const double W = speed / 75.0;
  EXPECT_NEAR(rubbing(tips_over(full, speed, 0.0, 0.0)).path / (density * W * 75.0 * 75.0), 1.0,
              1e-12);
  const double y = 37.5;
  const double c = std::sqrt(75.0 * 75.0 - y * y);
  const double chord = c * 75.0 + y * y * std::asinh(c / y);
  EXPECT_NEAR(rubbing(tips_over(full, speed, 0.0, y)).path / (density * W * chord), 1.0, 1e-6);
}

// Over a whole disc every direction occurs alike: of the path, 2/pi runs along any line, half of
// that onto an edge and half off it. Four points of the rule between two
// ends: 0.5 %.
TEST(Disc, CrossesEdgesOfEveryDirectionWithTwoOverPiOfItsPath) {
  for (const DiscBrush& brush : {disc(), planetary()}) {
    const Means sum = means_of(brush, 0.0);
    for (const EdgePassing& edge : {sum.leading, sum.side}) {
      EXPECT_NEAR(edge.onto / edge.path, 1.0 / pi, 5e-3 / pi);
      EXPECT_NEAR(edge.off / edge.path, 1.0 / pi, 5e-3 / pi);
    }
    EXPECT_NEAR(sum.rubbing.along / sum.rubbing.path, 2.0 / pi, 5e-3);
    EXPECT_NEAR(sum.rubbing.across / sum.rubbing.path, 2.0 / pi, 5e-3);
  }
}

// A narrow ring of a huge disc crosses the middle line straight across the feed, twice.
TEST(Disc, IsAStraightRubWhereItsRadiusIsHuge) {
  DiscBrush huge = disc();
  huge.radius = 1e5;
  huge.inner_radius = 1e5 - 50.0;
  const auto tips = tips_over(huge, speed, 0.0, 10.0);
  const Rubbing sum = rubbing(tips);
  EXPECT_NEAR(sum.path / (density * 2.0 * 50.0 * speed), 1.0, 1e-3);
  EXPECT_NEAR(sum.across / sum.path, 1.0, 1e-6);
  EXPECT_NEAR(sum.net_across, 0.0, 1e-9 * sum.path);
}

// Of one disc, a place of an edge across the feed is met from one side only: left of its axis the
// tips come on, right of it they leave. A side of the part is met from both sides alike.
TEST(Disc, MeetsAnEdgeAcrossTheFeedFromOneSideAndASideFromBoth) {
  const auto tips = tips_over(disc(), speed, feed, 40.0);
  const EdgePassing leading = edge_passing(tips, 1.0, 0.0);
  EXPECT_GT(leading.onto, 0.0);
  EXPECT_EQ(leading.off, 0.0);
  EXPECT_EQ(leading.reversed, 0.0);
  const EdgePassing side = edge_passing(tips, 0.0, 1.0);
  EXPECT_NEAR(side.onto / side.off, 1.0, 1e-12);
  EXPECT_NEAR(side.reversed / (side.onto + side.off), 1.0, 1e-12);
}

// About the middle line left and right are mirrored: the tips that come on here run off there. With
// two heads that turn opposite ways the sides are alike to the last digit.
TEST(Disc, MirrorsLeftAndRightAboutTheMiddleLine) {
  const auto edge_at = [](const DiscBrush& brush, double across) {
    return edge_passing(tips_over(brush, speed, 0.0, across), 1.0, 0.0);
  };
  for (const DiscBrush& brush : {disc(), planetary()}) {
    EXPECT_NEAR(edge_at(brush, 40.0).onto / edge_at(brush, -40.0).off, 1.0, 1e-12);
    EXPECT_NEAR(edge_at(brush, 40.0).path / edge_at(brush, -40.0).path, 1.0, 1e-12);
  }
  DiscBrush two = planetary();
  two.heads = 2;
  two.head_pitch = 300;
  for (const double y : {20.0, 170.0, 310.0}) {
    const auto left = edge_passing(tips_over(two, speed, feed, y), 0.0, 1.0);
    const auto right = edge_passing(tips_over(two, speed, feed, -y), 0.0, -1.0);
    EXPECT_NEAR(left.onto / right.onto, 1.0, 1e-12);
    EXPECT_NEAR(left.path / right.path, 1.0, 1e-12);
  }
}

// A carrier of no radius is the disc itself, turning as both do.
TEST(PlanetaryHead, IsADiscWhereItsCarrierHasNoRadiusOrStands) {
  DiscBrush none = disc();
  none.carrier_turns = 0.0;
  EXPECT_EQ(rubbing(tips_over(none, speed, feed, 20.0)).path,
            rubbing(tips_over(disc(), speed, feed, 20.0)).path);
  // With a small one the places of the disc's axis move a little, and that is all.
  DiscBrush near = disc();
  near.carrier_radius = 0.01;
  const double path = rubbing(tips_over(near, speed, feed, 20.0, 40)).path;
  EXPECT_NEAR(path / rubbing(tips_over(disc(), speed, feed, 20.0)).path, 1.0, 1e-3);
  // Carriers that stand: discs where they are, and of all places of the ring the mean speed is that
  // of a disc.
  DiscBrush stands = planetary();
  stands.carrier_turns = 0.0;
  EXPECT_EQ(mean_tip_speed(stands, speed), mean_tip_speed(disc(), speed));
}

// A disc that turns back as fast as its carrier turns only moves along: every tip at W_c R_c, the
// direction once round.
TEST(PlanetaryHead, MovesItsDiscsAlongWhereTheyTurnBackAsFast) {
  DiscBrush brush = planetary();
  brush.carrier_turns = -1.0;
  const double tip = speed / 75.0 * 150.0;
  EXPECT_NEAR(mean_tip_speed(brush, speed) / tip, 1.0, 1e-12);
  for (const auto& passing : tips_over(brush, speed, 0.0, 60.0))
    EXPECT_NEAR(std::hypot(passing.along, passing.across) / tip, 1.0, 1e-9);
}

// The mean over the row against the closed form over the discs' area: 0.1 % at the order in use,
// and less and less with more points across.
TEST(DiscRow, SumsUpToTheMeanOverItsDiscs) {
  DiscBrush row = planetary();
  row.heads = 3;
  row.head_pitch = 250;
  for (const DiscBrush& brush : {disc(), planetary(), row}) {
    const BrushContact touch = contact(brush, 2.0, speed);
    const auto error = [&](int order, int points) {
      const double force = dragged_over_face(brush.filament, 2.0).normal_force;
      return std::abs(means_of(brush, 0.0, order, points).rubbing.path * force / touch.rub - 1.0);
    };
    EXPECT_LT(error(5, 4), 1e-3);
    EXPECT_LT(error(8, 6), 1e-5);
    EXPECT_LT(error(8, 6), 0.1 * error(5, 4));
    EXPECT_NEAR(touch.power / touch.rub, brush.filament.friction, 1e-9);
  }
}

// The order of the quadrature along the way: nothing is left of it from eight points on.
TEST(DiscRow, ConvergesWithThePointsAlongTheWay) {
  const auto path = [](int order) {
    return rubbing(tips_over(planetary(), speed, feed, 90.0, order)).path;
  };
  const double fine = path(48);
  EXPECT_LT(std::abs(path(8) / fine - 1.0), 2e-3);
  EXPECT_LT(std::abs(path(24) - fine), 0.3 * std::abs(path(8) - fine));
}

// Leading and trailing edges differ by the feed alone: what comes onto the one more than onto the
// other is count times v_f, of a mean of v / pi, so pi v_f / v = 2.3 %.
TEST(PlanetaryHead, TreatsLeadingTrailingAndSideEdgesAlike) {
  DiscBrush row = planetary();
  row.heads = 3;
  row.head_pitch = 250;
  EdgePassing leading, trailing, side;
  for (const auto& place : places_across(row, 400.0)) {
    const auto tips = tips_over(row, speed, feed, place.across);
    add(leading, edge_passing(tips, 1.0, 0.0), place.share);
    add(trailing, edge_passing(tips, -1.0, 0.0), place.share);
    add(side, edge_passing(tips, 0.0, 1.0), place.share);
  }
  EXPECT_NEAR(leading.onto / trailing.onto, 1.0, 0.03);
  EXPECT_NEAR(leading.path, trailing.path, 1e-12 * leading.path);
  EXPECT_NEAR((leading.onto + leading.off) / (side.onto + side.off), 1.0, 0.1);
  EXPECT_GT(leading.reversed / (leading.onto + leading.off), 0.8);
}

// Every filament of a disc stands on the face all the time: it loses k N v over its section.
TEST(WornDisc, WearsByWhatItsTipsRub) {
  DiscBrush brush = planetary();
  brush.abrasion = {1e-6, 4.0, 1e-9, 1.0};
  const double force = dragged_over_face(brush.filament, 2.0).normal_force;
  EXPECT_NEAR(wear_rate(brush, contact(brush, 2.0, speed)) /
                  (1e-9 * force * mean_tip_speed(brush, speed) / section_area(nylon)),
              1.0, 1e-12);
  // Harsher settings take off less per trim where wear goes faster than force: Uhlmann and Hoyer
  // (2021), Ceramics 4(3), 29 (abstract).
  brush.abrasion.wear_exponent = 2.0;
  const auto per_trim = [&](double penetration) {
    return removal_per_trim(brush, contact(brush, penetration, speed)).value();
  };
  EXPECT_LT(per_trim(3.0), per_trim(1.5));
  const DiscBrush left = worn(brush, {.radius_loss = 3.0, .set = 0.0, .make_up = 0.0});
  EXPECT_EQ(left.filament.free_length, 37.0);
  EXPECT_EQ(left.radius, brush.radius);
  EXPECT_EQ(speed_left(brush, {.radius_loss = 3.0, .set = 0.0, .make_up = 0.0}, speed), speed);
}
