// One filament: bent, held, dragged over a face and over an edge.
#include <cmath>
#include <numbers>
#include <random>
#include <string>

#include <boost/math/special_functions/ellint_1.hpp>
#include <gtest/gtest.h>

#include "models/brush/elastica.hpp"
#include "models/brush/filament.hpp"
#include "models/brush/passage.hpp"
#include "models/brush/sweep.hpp"

using namespace drumlin::models;
using std::numbers::pi;

namespace {

constexpr Rod unit_rod{.length = 1.0, .bending_stiffness = 1.0};

constexpr Filament wire{
    .diameter = 0.3, .free_length = 30, .modulus = 205e3, .density = 7.85e-9, .friction = 0.25};
constexpr Filament nylon{
    .diameter = 1.0, .free_length = 40, .modulus = 3500, .density = 1.25e-9, .friction = 0.35};

FilamentOnDrum on_drum(const Filament& filament, double penetration, double speed = 0.0) {
  constexpr double radius = 150.0;
  return {.filament = filament,
          .hub_radius = radius - filament.free_length,
          .penetration = penetration,
          .angular_speed = speed / radius};
}

/// Load [EI/L^2] that bends a cantilever's tip by a slope, the load fixed at an angle to the unbent
/// rod: the pendulum, (K(p) - F(p, u))^2 with p = cos((angle - slope)/2), sin u = cos(angle/2)/p.
double exact_load(double slope, double angle) {
  const double p = std::cos(0.5 * (angle - slope));
  const double u = std::asin(std::cos(0.5 * angle) / p);
  return std::pow(boost::math::ellint_1(p) - boost::math::ellint_1(p, u), 2);
}

}  // namespace

// P L^3 / 3 EI (1 - 4/35 (P L^2 / EI)^2 + ...): the beam's series to its second term.
TEST(BentRod, NearsTheStraightBeamWithSecondOrder) {
  const auto error = [](double load) {
    return 1.0 - bent_by_tip_load(unit_rod, load, 0.5 * pi).deflection / (load / 3.0);
  };
  EXPECT_NEAR(error(0.02) / (4.0 / 35.0 * 4e-4), 1.0, 1e-2);
  EXPECT_NEAR(std::log2(error(0.4) / error(0.2)), 2.0, 0.05);
}

// The slope found must ask for the load that was given, in the closed form. 1e-8: the march's 48
// steps, see the order below.
TEST(BentRod, IsThePendulumForAnyDirectionOfLoad) {
  for (const double angle : {0.3, 0.5 * pi, 2.0, 2.8, pi}) {
    for (const double load : {0.3, 1.0, 3.0, 7.0}) {
      const BentRod bent = bent_by_tip_load(unit_rod, load, angle);
      if (angle == pi && load < 0.25 * pi * pi) continue;
      EXPECT_NEAR(exact_load(bent.slope, angle) / load, 1.0, 1e-7) << angle << ' ' << load;
    }
  }
}

// Dormand and Prince's rule: fifth order per length.
TEST(BentRod, ConvergesWithFifthOrder) {
  const auto error = [](int steps) {
    return std::abs(exact_load(bent_by_tip_load(unit_rod, 5.0, 0.5 * pi, steps).slope, 0.5 * pi) -
                    5.0);
  };
  const double order = std::log2(error(8) / error(16));
  RecordProperty("order", std::to_string(order));
  EXPECT_NEAR(order, 5.0, 0.6);
}

TEST(BentRod, StaysStraightBelowItsBucklingLoadAndBowsAbove) {
  const double euler = 0.25 * pi * pi;
  EXPECT_EQ(bent_by_tip_load(unit_rod, 0.999 * euler, pi).deflection, 0.0);
  EXPECT_GT(bent_by_tip_load(unit_rod, 1.001 * euler, pi).deflection, 0.03);
  // Just above, slope^2 = 16 (P / P_E - 1) / 2 from the series of K, here to 1 %.
  const double slope = bent_by_tip_load(unit_rod, 1.001 * euler, pi).slope;
  EXPECT_NEAR(slope * slope, 8e-3, 8e-5);
}

// A tip held sideways but free to turn bows at the load where slope and offset of the held end
// both vanish for some side force: the determinant of both changes sign there.
TEST(Filament, BucklesWithAGrippedTipAtTheRootOfTanXEqualsX) {
  const auto determinant = [](double push) {
    constexpr double small = 1e-6;
    RodState turned{.angle = small, .force_z = push};
    RodState pulled{.force_x = small, .force_z = push};
    const RodState a = held_end(unit_rod, turned, 1.0);
    const RodState b = held_end(unit_rod, pulled, 1.0);
    return (a.angle * b.x - b.angle * a.x) / (small * small);
  };
  const Filament filament{.diameter = std::pow(64.0 / pi, 0.25), .free_length = 1, .modulus = 1};
  const double load = gripped_buckling_load(filament);  // E I = 1
  EXPECT_LT(determinant(0.999 * load) * determinant(1.001 * load), 0.0);
  EXPECT_NEAR(load, 20.19, 0.005);
}

// rho w^2 (R^2 - r^2) / 2 times the section: the pull of a straight filament on its holder.
TEST(HeldEnd, CarriesTheCentrifugalPullOfAStraightFilament) {
  const FilamentOnDrum on = on_drum(wire, 0.0, 30e3);
  const double R = tip_radius(on);
  const RodState root = held_end(rod_of(on), {}, wire.free_length);
  const double pull = wire.density * std::pow(on.angular_speed, 2) *
                      (R * R - on.hub_radius * on.hub_radius) / 2.0 * section_area(wire);
  EXPECT_NEAR(root.force_z / pull, -1.0, 1e-12);
  EXPECT_EQ(root.curvature, 0.0);
}

// The coefficients are integrals over the cantilever's first mode y: tension T(s) y'^2 against y^2,
// less 1 for swinging in the plane of rotation. Simpson with 2000 strips: rounding of the four
// digits.
TEST(Filament, SwingsFasterOnATurningDrumByRayleighsQuotient) {
  constexpr double k = 1.8751040687119611;
  const double c = (std::cosh(k) + std::cos(k)) / (std::sinh(k) + std::sin(k));
  double mass = 0.0;
  double hub = 0.0;
  double own = 0.0;
  constexpr int strips = 2000;
  for (int i = 0; i <= strips; ++i) {
    const double s = static_cast<double>(i) / strips;
    const double x = k * s;
    const double y = std::cosh(x) - std::cos(x) - c * (std::sinh(x) - std::sin(x));
    const double slope = k * (std::sinh(x) + std::sin(x) - c * (std::cosh(x) - std::cos(x)));
    const double weight = i == 0 || i == strips ? 1.0 : (i % 2 == 1 ? 4.0 : 2.0);
    mass += weight * y * y;
    hub += weight * (1.0 - s) * slope * slope;
    own += weight * 0.5 * (1.0 - s * s) * slope * slope;
  }
  const double turning = 200.0;
  const auto square = [](double value) { return value * value; };
  const double at_rest = square(swing_frequency(wire, 60.0, 0.0));
  const double gain = (square(swing_frequency(wire, 60.0, turning)) - at_rest) / square(turning);
  EXPECT_NEAR(gain, hub / mass * 60.0 / wire.free_length + own / mass - 1.0, 2e-4);
}

// What the drum puts in is rubbed off or let go with the filament. Trapezoids over the sweep; they
// are second order, so 1 % at 32 steps and a sixteenth of it at 128.
TEST(FaceSweep, KeepsItsEnergyBalance) {
  for (const Filament& filament : {wire, nylon}) {
    for (const double speed : {0.0, 15e3, 30e3}) {
      for (const double penetration : {0.3, 1.5, 4.0, 20.0}) {
        const Sweep sweep = sweep_face(on_drum(filament, penetration, speed));
        EXPECT_NEAR(sweep.torque_work / (sweep.rubbing + sweep.released), 1.0, 0.01)
            << penetration << ' ' << speed;
      }
    }
  }
}

TEST(FaceSweep, LaysLongPenetrationsDownOnTheFlank) {
  EXPECT_EQ(sweep_face(on_drum(wire, 3.0)).peak_flank, 0.0);
  const Sweep deep = sweep_face(on_drum(wire, 20.0));
  EXPECT_GT(deep.peak_flank, 1.0);
  EXPECT_LT(deep.peak_flank, 20.0);
}

// At first touch the tip needs the overlap e over sin b of sideways room, which costs 3 E I / L^3
// of it; drag pushes the same way: N = 3 E I e / (L^3 sin b (sin b + mu cos b)). First order in the
// overlap over sin^2 b L, so halving it must halve the error.
TEST(FaceSweep, StartsAsTheStraightBeamDoes) {
  const FilamentOnDrum on = on_drum(wire, 3.0);
  const double b = std::acos(1.0 - 3.0 / tip_radius(on));
  const auto error = [&](double turn) {
    Touch guess;
    guess.angle = -b;
    guess.x = -tip_radius(on) * std::sin(b);
    guess.length = wire.free_length;
    const auto touch = touch_on_face(rod_of(on), hold_of(on, -b + turn), wire.friction, guess);
    const double overlap = tip_depth(on, -b + turn);
    const double s = std::sin(b);
    const double force = 3.0 * bending_stiffness(wire) * overlap /
                         (std::pow(wire.free_length, 3) * s * (s + 0.25 * std::cos(b)));
    return std::abs(touch.value().normal_force / force - 1.0);
  };
  EXPECT_LT(error(2e-4), 0.03);
  EXPECT_NEAR(std::log2(error(4e-4) / error(2e-4)), 1.0, 0.15);
}

// Re-marched in 64 steps from where it touches, the rod must end where it is held: 8 steps are
// meant to be good to 1e-5 of an angle and of the length.
TEST(FaceSweep, HoldsItsFilamentsWhereTheHubDoes) {
  const FilamentOnDrum on = on_drum(wire, 3.0, 20e3);
  for (const SweepPoint& point : sweep_face(on).points) {
    const Touch& t = point.touch;
    const RodState tip{.angle = t.angle, .x = t.x, .force_x = -t.drag, .force_z = t.normal_force};
    const RodState root = held_end(rod_of(on), tip, wire.free_length, 64);
    const Hold hold = hold_of(on, point.hub_angle);
    EXPECT_NEAR(root.angle, hold.angle, 2e-5);
    EXPECT_NEAR(root.x, hold.x, 2e-5 * wire.free_length);
    EXPECT_NEAR(root.z, hold.z, 2e-5 * wire.free_length);
  }
}

// Lengths times 10, moduli times 7: forces times 700, work times 7000. The density keeps the
// centrifugal load in step: rho w^2 L^2 / E unchanged at the same tip speed means rho times 7.
TEST(FaceSweep, FollowsItsDimensions) {
  Filament large = wire;
  large.diameter *= 10;
  large.free_length *= 10;
  large.modulus *= 7;
  large.density *= 7;
  FilamentOnDrum on = on_drum(wire, 1.5, 20e3);
  const Sweep small_sweep = sweep_face(on);
  on.filament = large;
  on.hub_radius *= 10;
  on.penetration *= 10;
  on.angular_speed /= 10;
  const Sweep large_sweep = sweep_face(on);
  EXPECT_NEAR(large_sweep.normal_impulse / small_sweep.normal_impulse, 700, 1e-2);
  // The place where the filament comes off is found to a thirty-second of a step.
  EXPECT_NEAR(large_sweep.torque_work / small_sweep.torque_work, 7000, 1);
}

// The impulse: trapezoids, second order; the end of the sweep is only found to a part of a step.
TEST(FaceSweep, ConvergesInItsSteps) {
  const FilamentOnDrum on = on_drum(nylon, 1.5);
  const double fine = sweep_face(on, 256).normal_impulse;
  EXPECT_NEAR(sweep_face(on, 32).normal_impulse / fine, 1.0, 3e-3);
  EXPECT_NEAR(sweep_face(on, 128).normal_impulse / fine, 1.0, 5e-4);
}

// Whatever the brush: wires and nylon of every size, up to the limit of limpness, penetrations to a
// seventh of the length. Without drag the force stays high to the end of the sweep, which is then
// found too coarsely for the balance; from mu 0.05 on 5 % are kept at 32 steps.
TEST(FaceSweep, IsFoundForAnyBrush) {
  std::mt19937 random(20);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / 4294967295.0;
  };
  int tried = 0;
  while (tried < 300) {
    const bool steel = between(0, 1) < 0.5;
    FilamentOnDrum on{.filament = {.diameter = std::exp(between(std::log(0.1), std::log(1.8))),
                                   .free_length = between(15, 95),
                                   .modulus = steel ? 2e5 : between(1500, 5000),
                                   .density = steel ? 7.85e-9 : 1.25e-9,
                                   .friction = between(0.05, 0.8)},
                      .hub_radius = between(20, 220)};
    on.penetration = between(0.002, 0.15) * on.filament.free_length;
    on.angular_speed = between(0, 35e3) / tip_radius(on);
    if (limpness(on) > limpest) continue;
    ++tried;
    const Sweep sweep = sweep_face(on);
    ASSERT_GT(sweep.points.size(), 20U);
    EXPECT_GT(sweep.points.back().hub_angle, -0.9 * sweep.points.front().hub_angle);
    EXPECT_NEAR(sweep.torque_work / (sweep.rubbing + sweep.released), 1.0, 0.05);
  }
}

// Same balance at a corner; the filament slides over it by what it is drawn in.
TEST(EdgeSweep, KeepsItsEnergyBalance) {
  for (const double speed : {0.0, 25e3}) {
    for (const double place : {-12.0, 0.0, 12.0}) {
      const FilamentOnDrum on = on_drum(wire, 1.5, speed);
      const Sweep sweep = sweep_edge(on, place);
      ASSERT_GT(sweep.points.size(), 2U);
      EXPECT_GE(sweep.points.back().touch.length, wire.free_length);
      EXPECT_NEAR(sweep.torque_work / (sweep.rubbing + sweep.released), 1.0, 0.01);
      const double overlap = tip_radius(on) - std::hypot(place, tip_radius(on) - 1.5);
      // Until its tip is over: the sweep stops at the first step beyond.
      EXPECT_NEAR(sweep.points.back().touch.length - sweep.points.front().touch.length, overlap,
                  0.12 * overlap + 0.12);
    }
  }
}

// Without drag and turning nothing tells left from right.
TEST(EdgeSweep, IsTheSameAtBothSidesOfTheAxisButForTheTilt) {
  const FilamentOnDrum on = on_drum(wire, 1.5);
  EXPECT_NEAR(sweep_edge(on, -9.0).normal_impulse / sweep_edge(on, 9.0).normal_impulse, 1.0, 1e-6);
  EXPECT_TRUE(sweep_edge(on, 30.0).points.empty());
}

// Slow enough, inertia counts for nothing. Impulse within 1 % at 0.1 m/s.
TEST(Passage, IsTheBalancedOneWhenSlow) {
  const Passage slow = passage(on_drum(wire, 1.5, 100.0));
  EXPECT_NEAR(slow.swinging.normal_impulse / slow.balanced.normal_impulse, 1.0, 0.01);
  EXPECT_NEAR(slow.swinging.torque_work / slow.balanced.torque_work, 1.0, 0.01);
}

// One mode for the shape against the elastica: they know nothing of each other. The mode takes the
// shortening to the square of the bow only; 8 % at a twentieth of the length.
TEST(Passage, BalancedComesNearTheElastica) {
  for (const Filament& filament : {wire, nylon}) {
    const FilamentOnDrum on = on_drum(filament, 0.05 * filament.free_length, 10e3);
    EXPECT_NEAR(passage(on).balanced.normal_impulse / sweep_face(on).normal_impulse, 1.0, 0.08);
  }
}

// The tip stops: m v / (sin b + mu cos b). The first step of 4000 already turns a little: 1 %.
TEST(Passage, StrikesWithTheMomentumOfItsTip) {
  const FilamentOnDrum on = on_drum(nylon, 1.5, 15e3);
  const double b = std::acos(1.0 - 1.5 / tip_radius(on));
  const double mass = 33.0 / 140.0 * nylon.density * section_area(nylon) * nylon.free_length;
  const double strike = mass * 15e3 / (std::sin(b) + nylon.friction * std::cos(b));
  EXPECT_NEAR(passage(on, 4000).strike / strike, 1.0, 0.01);
}

// Speed hardens: once filaments no longer follow, momentum goes with speed and time with its
// inverse, so the force in the mean goes with the square.
TEST(Passage, CarriesTheSquareOfTheSpeedWhenFast) {
  const auto force = [](double speed) {
    const FilamentOnDrum on = on_drum(wire, 0.2, speed);
    return passage(on, 8000).swinging.normal_impulse;
  };
  EXPECT_NEAR(std::log2(force(120e3) / force(60e3)), 2.0, 0.1);
}
