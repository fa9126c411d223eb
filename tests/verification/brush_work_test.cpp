// A brush of filaments or web, and what it does to faces, edges and folded burrs.
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "models/brush/edge.hpp"
#include "models/brush/face_work.hpp"
#include "models/brush/lip_fatigue.hpp"
#include "models/brush/table.hpp"
#include "models/brush/wear.hpp"
#include "tests/support/brushes.hpp"

using namespace drumlin::models;
using drumlin::tests::web;
using std::numbers::pi;

namespace {

constexpr FilamentBrush nylon{.filament = {.diameter = 1.0,
                                           .free_length = 40,
                                           .modulus = 3500,
                                           .density = 1.25e-9,
                                           .friction = 0.35},
                              .radius = 150,
                              .fill = 0.4,
                              .rows = 0,
                              .abrasion = {1e-6, 4.0, 1e-8, 1.0}};
constexpr LipMetal steel{
    .modulus = 205e3, .flow_stress = 400, .tensile_strength = 450, .fracture_ductility = 1.0};
constexpr double flat = 0.5 * pi;

}  // namespace

// N = 4 fill R / (pi d^2) filaments per angle, each with the impulse of its sweep.
TEST(BrushOnFace, IsTheSumOfItsFilaments) {
  const BrushContact touch = contact(nylon, 1.5, 10e3);
  const Sweep sweep = sweep_face(filament_on(nylon, 1.5, 10e3));
  const double per_angle = 4.0 * 0.4 * 150.0 / pi;
  EXPECT_NEAR(touch.line_force, per_angle * sweep.normal_impulse, 1e-12);
  EXPECT_NEAR(touch.power, per_angle * 10e3 / 150.0 * sweep.torque_work, 1e-9);
  // Tips drag all the way: mu P', to rounding.
  EXPECT_NEAR(touch.drag / touch.line_force, 0.35, 1e-12);
}

// A free tip's circle lies below the face over 2 sqrt(2 R delta). Trailing tips touch down there
// and come off a little later and behind: within a tenth.
TEST(BrushOnFace, TouchesOverAboutTheChordOfItsCircle) {
  const double chord = 2.0 * std::sqrt(1.5 * (300.0 - 1.5));
  EXPECT_NEAR(contact(nylon, 1.5, 0.0).contact_length / chord, 1.0, 0.1);
}

// Force per filament goes with its stiffness: d^4 at the same number, d^2 at the same fill.
TEST(BrushOnFace, StiffensWithTheSquareOfTheDiameterAtEqualFill) {
  FilamentBrush thick = nylon;
  thick.filament.diameter *= 2.0;
  EXPECT_NEAR(contact(thick, 1.5, 0.0).line_force / contact(nylon, 1.5, 0.0).line_force, 4.0, 1e-6);
}

TEST(BrushOnFace, PressesHarderTheDeeperItGoes) {
  double before = 0.0;
  for (const double penetration : {0.1, 0.3, 0.8, 1.5, 2.5, 4.0}) {
    const double force = contact(nylon, penetration, 10e3).line_force;
    EXPECT_GT(force, before);
    before = force;
  }
}

// Shallow: (4/3) (E_c / t) delta sqrt(2 R delta), the segment's area to first order in delta / R.
TEST(NonWovenOnFace, PressesWithTheThreeHalvesPowerOfItsPenetration) {
  const auto shallow = [](double d) { return 4.0 / 3.0 * 0.4 / 50.0 * d * std::sqrt(300.0 * d); };
  EXPECT_NEAR(contact(web, 0.5, 8e3).line_force / shallow(0.5), 1.0, 0.5 / 150.0);
  const BrushContact touch = contact(web, 2.0, 8e3);
  EXPECT_NEAR(touch.power, 0.5 * touch.line_force * 8e3, 1e-9);
}

// Solved at 24 penetrations, a cubic between: some parts in a thousand. The rubbed path jumps a
// little with where a sweep ends, so a hundredth there.
TEST(BrushTable, AnswersAsTheDirectSolveDoes) {
  const BrushTable table(nylon, 12e3, 4.0);
  for (const double penetration : {0.06, 0.45, 1.37, 2.9}) {
    const BrushContact direct = contact(nylon, penetration, 12e3);
    const BrushContact read = table.contact(penetration);
    EXPECT_NEAR(read.line_force / direct.line_force, 1.0, 5e-3) << penetration;
    EXPECT_NEAR(read.power / direct.power, 1.0, 5e-3) << penetration;
    EXPECT_NEAR(read.rub / direct.rub, 1.0, 2e-2) << penetration;
    EXPECT_EQ(read.tips->strikes, direct.tips->strikes);
  }
  EXPECT_EQ(table.contact(0.0).line_force, 0.0);
}

// h = K P' v / v_f; 0.8 N/mm x 1e-6 /MPa x 8000 / 25.
TEST(FaceWork, IsPrestonsLawAndTakesTheCoatingFirst) {
  BrushContact touch;
  touch.rub = 0.8 * 8000.0;
  EXPECT_NEAR(face_work(touch, 25.0, 0.0, 1e-6, 1e-6).base, 0.8e-6 * 8000.0 / 25.0, 1e-15);
  // Twice as soft a coating of a third of what the metal would lose costs a sixth of the rubbing.
  const double depth = 0.8e-6 * 8000.0 / 25.0;
  const FaceWork through = face_work(touch, 25.0, depth / 3.0, 2e-6, 1e-6);
  EXPECT_DOUBLE_EQ(through.coating, depth / 3.0);
  EXPECT_NEAR(through.base, depth * 5.0 / 6.0, 1e-15);
  EXPECT_EQ(face_work(touch, 25.0, 1.0, 2e-6, 1e-6).base, 0.0);
}

// What was taken off is what the radius has cost: (1 - pi/4)(r1^2 - r0^2), and one pass at half the
// feed is two passes.
TEST(EdgeWork, PaysForItsRadiusAndAddsUpOverPasses) {
  const EdgeContact edge = edge_contact(nylon, 1.5, 12e3, EdgeSide::onto_metal);
  const EdgeWork slow = edge_work(nylon, edge, 12e3, 12.5, 1e-6, 0.0);
  const EdgeWork first = edge_work(nylon, edge, 12e3, 25.0, 1e-6, 0.0);
  const EdgeWork second = edge_work(nylon, edge, 12e3, 25.0, 1e-6, first.radius);
  EXPECT_NEAR(slow.radius, second.radius, 1e-9);
  EXPECT_NEAR(slow.area, 0.2146018 * slow.radius * slow.radius, 1e-8);
  EXPECT_NEAR(first.area + second.area, slow.area, 1e-9);
  EXPECT_GT(first.radius, second.radius - first.radius);  // grows ever more slowly
}

// With nothing but the first term the radius goes with the root of passes, sqrt(area / 0.2146).
TEST(EdgeWork, GrowsWithTheRootOfTheWorkWhileItIsSharp) {
  EdgeContact edge;
  edge.slide = 2.0;
  const double taken = 1e-6 * filaments_per_angle(nylon) * 80.0 / 25.0 * 2.0;
  EXPECT_NEAR(edge_work(nylon, edge, 12e3, 25.0, 1e-6, 0.0).radius,
              std::sqrt(taken / (1.0 - 0.25 * pi)), 1e-9);
}

// Tips come down onto the flank where they run onto the metal and never touch the other one.
TEST(EdgeContact, ReachesTheFlankOnTheSideItRunsOnto) {
  EXPECT_EQ(edge_contact(nylon, 1.5, 12e3, EdgeSide::onto_metal).flank_reach, 1.5);
  EXPECT_EQ(edge_contact(nylon, 1.5, 12e3, EdgeSide::off_metal).flank_reach, 0.0);
  // Across a filament that already stands bent, an edge bears less than a face does.
  EXPECT_LT(edge_contact(nylon, 1.5, 12e3, EdgeSide::onto_metal).peak_force,
            edge_contact(nylon, 1.5, 12e3, EdgeSide::off_metal).peak_force);
}

TEST(Dip, GrowsFromNothingToThePenetration) {
  double before = 0.0;
  for (const double width : {0.01, 1.0, 3.0, 6.0, 12.0, 25.0}) {
    const Dip here = dip(nylon, 1.5, 12e3, width);
    EXPECT_GE(here.deepest, before) << width;
    EXPECT_LE(here.deepest, 1.5 + 1e-12) << width;
    EXPECT_LE(here.far_flank, here.deepest + 1e-12) << width;
    before = here.deepest;
  }
  EXPECT_LT(dip(nylon, 1.5, 12e3, 0.01).deepest, 0.02);
  // From half the chord on, tips that miss the first rim stand straight at the second.
  EXPECT_DOUBLE_EQ(dip(nylon, 1.5, 12e3, 0.5 * 2.0 * std::sqrt(1.5 * 298.5)).far_flank, 1.5);
}

TEST(Dip, IsNotDeeperWhenFaster) {
  EXPECT_LE(dip(nylon, 3.0, 15e3, 8.0).deepest, dip(nylon, 3.0, 1e3, 8.0).deepest + 1e-12);
}

TEST(LipMetal, BreaksAfterTheCyclesOfItsStrainRange) {
  for (const double cycles : {1.0, 30.0, 1e3, 1e5, 1e8}) {
    EXPECT_NEAR(cycles_to_break(steel, strain_range(steel, cycles)) / cycles, 1.0, 1e-9);
  }
  EXPECT_EQ(cycles_to_break(steel, 1e3), 0.25);
}

// Long lives fall with slope -0.12, short ones with -0.6: ten cycles against a hundred at either
// end, where the other part is below a twentieth.
TEST(LipMetal, HasMansonsTwoSlopes) {
  const auto slope = [](double cycles) {
    return std::log10(strain_range(steel, 10.0 * cycles) / strain_range(steel, cycles));
  };
  EXPECT_NEAR(slope(0.3), -0.6, 0.02);
  EXPECT_NEAR(slope(1e9), -0.12, 0.01);
}

// A lip follows the filament where the force alone bends it: F L / b >= (2/sqrt 3) sigma_y t^2 / 4.
// Twice the thickness needs four times the force.
TEST(LipBend, FollowsTheFilamentAboveThePlasticMoment) {
  for (const double t : {0.02, 0.04}) {
    const Lip lip{.length = 0.12, .thickness = t, .turn = flat};
    const double width = 0.5;
    const double needed = plastic_moment(400.0, t) * width / 0.12;
    const Strike below{.force = 0.999 * needed, .energy = 0.0, .width = width};
    const Strike above{.force = 1.001 * needed, .energy = 0.0, .width = width};
    EXPECT_EQ(bend_by(below, lip, steel, StrikeSense::one_way).turn, 0.0);
    EXPECT_DOUBLE_EQ(bend_by(above, lip, steel, StrikeSense::one_way).turn, flat);
  }
}

// Spring and blow: the end of the lip takes the energy U at the force sqrt(2 k U), k = 3 D b / L^3.
// Strain 6 M / (E' t^2).
TEST(LipBend, SpringsByItsEnergyWhileElastic) {
  const Lip lip{.length = 0.3, .thickness = 0.1, .turn = flat};
  const Strike blow{.force = 0.0, .energy = 1e-4, .width = 0.9};
  const double plane = 205e3 / 0.91;
  const double k = 3.0 * plane * 1e-3 / 12.0 * 0.9 / 0.027;
  const double moment = std::sqrt(2.0 * k * 1e-4) * 0.3 / 0.9;
  const LipBend bend = bend_by(blow, lip, steel, StrikeSense::one_way);
  EXPECT_NEAR(bend.moment, moment, 1e-12);
  EXPECT_NEAR(bend.strain_range, 6.0 * moment / (plane * 0.01), 1e-15);
  EXPECT_NEAR(bend_by(blow, lip, steel, StrikeSense::reversed).strain_range,
              2.0 * bend.strain_range, 1e-15);
}

// A hinge eats what the spring cannot take: energy in = elastic + moment x turn x width.
TEST(LipBend, TurnsUntilTheBlowIsSpent) {
  const Lip lip{.length = 0.12, .thickness = 0.02, .turn = flat};
  const Strike blow{.force = 0.0, .energy = 1e-3, .width = 0.5};
  const LipBend bend = bend_by(blow, lip, steel, StrikeSense::one_way);
  const double M = plastic_moment(400.0, 0.02);
  const double spring = M * M * 0.5 * 0.12 / (6.0 * 205e3 / 0.91 * 8e-6 / 12.0);
  EXPECT_NEAR(spring + M * bend.turn * 0.5, 1e-3, 1e-12);
}

// Reversed strikes never take longer than strikes from one side, thin lips go before thick ones.
TEST(LipFatigue, TakesThinLipsAndReversalFirst) {
  const EdgeContact edge = edge_contact(nylon, 1.5, 12e3, EdgeSide::onto_metal);
  const double strikes = edge_work(nylon, edge, 12e3, 25.0, 1e-6, 0.0).strikes;
  double before = 0.0;
  for (const double t : {0.02, 0.04, 0.08, 0.16}) {
    const Lip lip{.length = 0.15, .thickness = t, .turn = flat};
    const Strike strike = strike_on(lip, steel, nylon, 1.5, 12e3, edge.peak_force);
    const auto reversed = lip_fatigue(lip, steel, strike, StrikeSense::reversed, strikes);
    const auto one_way = lip_fatigue(lip, steel, strike, StrikeSense::one_way, strikes);
    EXPECT_LE(reversed.strikes_to_break, one_way.strikes_to_break);
    EXPECT_GE(reversed.strikes_to_break, before);
    EXPECT_EQ(reversed.gone, reversed.strikes >= reversed.strikes_to_break);
    before = reversed.strikes_to_break;
  }
}

// A stiff lip is struck by ever less of the filament, with the cube root of its stiffness; a limp
// one by 33/140 of the filament and no more.
TEST(Strike, BringsTheMassThatCanFollow) {
  const auto energy = [](double t) {
    const Lip lip{.length = 0.3, .thickness = t, .turn = flat};
    return strike_on(lip, steel, nylon, 1.5, 12e3, 0.1).energy;
  };
  EXPECT_NEAR(energy(0.1) / energy(0.2), 2.0, 1e-9);  // k goes with t^3
  const double incidence = std::acos(1.0 - 1.5 / 150.0);
  const double most = 33.0 / 140.0 * 1.25e-9 * 0.25 * pi * 40.0;
  EXPECT_NEAR(energy(1e-7), 0.5 * most * std::pow(12e3 * std::sin(incidence), 2), 1e-12);
}
