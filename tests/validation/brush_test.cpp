#include "models/brush/brush.hpp"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "models/brush/elastica.hpp"
#include "models/brush/filament.hpp"
#include "models/brush/lip_fatigue.hpp"
#include "models/brush/passage.hpp"

using namespace drumlin::models;
using std::numbers::pi;

namespace {
constexpr Rod unit_rod{.length = 1.0, .bending_stiffness = 1.0};
}

// Mattiasson (1981), Int. J. Numer. Meth. Eng. 17, 145: cantilever under a dead tip load across the
// unbent axis. Five digits printed, so half of the last.
TEST(Elastica, IsMattiassonsTable) {
  struct Row {
    double load, slope, shortening, deflection;
  };
  for (const Row& row : {Row{0.25, 0.12429, 0.00412, 0.08275}, Row{0.5, 0.24453, 0.01592, 0.16214},
                         Row{1, 0.46135, 0.05643, 0.30172}, Row{2, 0.78175, 0.16064, 0.49346},
                         Row{3, 0.98602, 0.25442, 0.60325}, Row{5, 1.21537, 0.38763, 0.71379},
                         Row{10, 1.43029, 0.55500, 0.81061}}) {
    const BentRod bent = bent_by_tip_load(unit_rod, row.load, 0.5 * pi);
    EXPECT_NEAR(bent.slope, row.slope, 5.1e-6) << row.load;
    EXPECT_NEAR(bent.shortening, row.shortening, 5.1e-6) << row.load;
    EXPECT_NEAR(bent.deflection, row.deflection, 5.1e-6) << row.load;
  }
}

// Timoshenko and Gere, Theory of Elastic Stability: column under an axial load above Euler's. Loads
// are printed to three digits after the point: 3 % of the first one's excess, and so 1.7 % of its
// slope and sideways move, which go with the root of it. Seen 1.3 %.
TEST(Elastica, IsTimoshenkosPostBucklingTable) {
  struct Row {
    double load, slope, height, sideways;
  };
  for (const Row& row : {Row{1.015, 20, 0.970, 0.219}, Row{1.064, 40, 0.881, 0.422},
                         Row{1.152, 60, 0.741, 0.593}, Row{1.294, 80, 0.559, 0.720},
                         Row{1.518, 100, 0.349, 0.792}, Row{1.885, 120, 0.123, 0.803}}) {
    const BentRod bent = bent_by_tip_load(unit_rod, row.load * 0.25 * pi * pi, pi);
    EXPECT_NEAR(bent.slope * 180.0 / pi / row.slope, 1.0, 0.017) << row.load;
    EXPECT_NEAR(1.0 - bent.shortening, row.height, 2e-3) << row.load;
    EXPECT_NEAR(bent.deflection, row.sideways, 4e-3) << row.load;
  }
}

// Handbook sheet of three filaments, four digits: EI, force at P L^2 / EI = 1, Euler's load, load
// with a gripped tip.
TEST(Filament, HasTheStiffnessAndBucklingLoadsOfTheTable) {
  struct Row {
    Filament filament;
    double stiffness, unit_load, euler, gripped;
  };
  for (const Row& row : {Row{{1.0, 30, 3500, 1.25e-9, 0.3}, 171.8, 0.1909, 0.4710, 3.854},
                         Row{{0.3, 30, 205e3, 7.85e-9, 0.3}, 81.51, 0.0906, 0.2235, 1.829},
                         Row{{0.2, 25, 193e3, 7.9e-9, 0.3}, 15.16, 0.0243, 0.0598, 0.490}}) {
    const double length = row.filament.free_length;
    const double stiffness = bending_stiffness(row.filament);
    EXPECT_NEAR(stiffness / row.stiffness, 1.0, 1e-3);
    EXPECT_NEAR(stiffness / (length * length) / row.unit_load, 1.0, 3e-3);
    EXPECT_NEAR(buckling_load(row.filament) / row.euler, 1.0, 1e-3);
    EXPECT_NEAR(gripped_buckling_load(row.filament) / row.gripped, 1.0, 1e-3);
  }
}

// A second sheet, made apart from the first: 3 EI / L^3 and lowest frequency.
TEST(Filament, HasTheStiffnessAndFrequencyOfTheSecondTable) {
  const Filament wire{0.3, 40, 210e3, 7.85e-9, 0.3};
  const Filament nylon{1.0, 40, 2500, 1.3e-9, 0.3};
  EXPECT_NEAR(3.0 * bending_stiffness(wire) / 64e3 / 3.914e-3, 1.0, 1e-3);
  EXPECT_NEAR(3.0 * bending_stiffness(nylon) / 64e3 / 5.752e-3, 1.0, 1e-3);
  EXPECT_NEAR(swing_frequency(wire, 110, 0.0) / (2.0 * pi) / 135.7, 1.0, 0.01);
  EXPECT_NEAR(swing_frequency(nylon, 110, 0.0) / (2.0 * pi) / 121.3, 1.0, 0.01);
  EXPECT_NEAR(buckling_load(wire) / 0.1288, 1.0, 1e-3);
  EXPECT_NEAR(buckling_load(nylon) / 0.1892, 1.0, 1e-3);
}

// Metals (2025) 15, 780: one steel's constants by several estimates. Universal slopes gives
// sigma_f' = 950.90 MPa, b = -0.12, eps_f' = 0.7677, c = -0.6, in amplitudes and reversals. Its
// uniform material law prints 750.00 = 1.5 R_m, so R_m = 500 MPa; its four-point method takes the
// true fracture ductility as eps_f': 1.0217. From those two numbers both constants must come out,
// to the digits printed.
TEST(UniversalSlopes, GiveThePublishedConstantsOfASteel) {
  const double modulus = 210e3;
  const LipMetal steel{.modulus = modulus,
                       .flow_stress = 350,
                       .tensile_strength = 500,
                       .fracture_ductility = 1.0217};
  for (const double cycles : {1.0, 1e2, 1e4, 1e6}) {
    const double reversals = 2.0 * cycles;
    const double amplitude =
        950.90 / modulus * std::pow(reversals, -0.12) + 0.7677 * std::pow(reversals, -0.6);
    EXPECT_NEAR(strain_range(steel, cycles) / (2.0 * amplitude), 1.0, 1e-4) << cycles;
  }
}

// Machinery's handbook: soft at low speed, hard at high speed, the ammeter as a gauge of pressure.
// No numbers are given; what is checked is that force and power rise, and what carries it: at 30 mm
// of wire and 25 m/s centrifugal stiffening adds less than a tenth, the strikes more.
TEST(WireBrush, IsSoftSlowAndHardFastByItsStrikesMoreThanByStiffening) {
  const FilamentBrush brush{.filament = {0.3, 30, 205e3, 7.85e-9, 0.25},
                            .radius = 150,
                            .fill = 0.3,
                            .rows = 0,
                            .abrasion = {}};
  const double slow = contact(brush, 1.0, 1e3).line_force;
  const double fast = contact(brush, 1.0, 30e3).line_force;
  EXPECT_GT(fast, slow);
  EXPECT_LT(fast, 1.15 * slow);
  const Passage struck = passage(filament_on(brush, 1.0, 30e3));
  EXPECT_GT(struck.swinging.normal_impulse, 1.3 * struck.balanced.normal_impulse);
  EXPECT_GT(contact(brush, 1.5, 20e3).power, contact(brush, 1.0, 20e3).power);
}

// A stiff root force per filament as d^4 / L^2: handbook trend, exact for an elastica of the same
// shape (penetration and drum in proportion to the length).
TEST(WireBrush, PressesPerFilamentWithTheFourthPowerOfItsDiameter) {
  const auto force = [](double diameter, double scale) {
    const FilamentOnDrum on{.filament = {diameter, 30 * scale, 205e3, 7.85e-9, 0.25},
                            .hub_radius = 120 * scale,
                            .penetration = 1.5 * scale};
    return sweep_face(on).normal_impulse;
  };
  EXPECT_NEAR(force(0.6, 1.0) / force(0.3, 1.0), 16.0, 1e-6);
  EXPECT_NEAR(force(0.3, 2.0) / force(0.3, 1.0), 0.25, 1e-6);
}
