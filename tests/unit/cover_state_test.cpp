#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "models/elastomer/growth.hpp"
#include "models/elastomer/softening.hpp"
#include "models/removal/lands.hpp"
#include "models/removal/preston.hpp"

using namespace drumlin::models;

namespace {
constexpr BondedLayer cover{.thickness = 15.0, .modulus = 1.69, .poisson_ratio = 0.47};
}  // namespace

TEST(Softening, IsOneAtTheStrainOfTheMeasuredRelaxation) {
  EXPECT_NEAR(strain_softening(0.0015), 1.0, 1e-15);
}

// Ratios of neighbouring points do not depend on the reference: 4.42 / 4.60 and 5.02 / 5.23 at 10
// and 100 Hz between 0.47 and 0.68 % (both 0.960), 4.21 / 4.42 and 4.86 / 5.02 on to 1 %.
TEST(Softening, FollowsTheMeasuredStrainSweep) {
  EXPECT_NEAR(strain_softening(0.0068) / strain_softening(0.0047),
              0.5 * (4.42 / 4.60 + 5.02 / 5.23), 1e-4);
  EXPECT_NEAR(strain_softening(0.0100) / strain_softening(0.0068),
              0.5 * (4.21 / 4.42 + 4.86 / 5.02), 1e-4);
  for (int i = 0; i < 80; ++i) {
    const double strain = 1e-4 * std::pow(1.1, i);
    EXPECT_GE(strain_softening(strain), strain_softening(1.1 * strain));
  }
}

TEST(Softening, IsHeldBeyondTheLastMeasuredStrain) {
  EXPECT_EQ(strain_softening(0.05), strain_softening(0.01));
  EXPECT_EQ(strain_softening(1e-6), strain_softening(3e-4));
  EXPECT_LT(strain_softening_low, strain_softening(0.05));
}

// 10 Hz row of the same EPDM: 5.15, 4.84, 4.58, 4.31, 4.06 MPa at 25, 32, 39, 46, 53 degC. One rate
// for all; three digits are printed.
TEST(Softening, GivesTheMeasuredModulusOverTemperature) {
  constexpr std::array<double, 5> measured{5.15, 4.84, 4.58, 4.31, 4.06};
  for (std::size_t i = 0; i < measured.size(); ++i) {
    const double rise = 7.0 * static_cast<double>(i);
    EXPECT_NEAR(temperature_softening(rise) * measured[0] / measured[i], 1.0, 4e-3) << rise;
  }
  EXPECT_EQ(temperature_softening(0.0), 1.0);
}

// t alpha dT (1 + nu) / (1 - nu): 20 K on 15 mm with 1.6e-4 / K is of the order of 0.1 mm.
TEST(Growth, OfAWarmCoverIsItsFreeExpansionSqueezedOutOfTheSurface) {
  EXPECT_DOUBLE_EQ(thermal_growth(cover, 1.6e-4, 20.0), 15.0 * 1.6e-4 * 20.0 * 1.47 / 0.53);
  const BondedLayer incompressible{.thickness = 15.0, .modulus = 1.69, .poisson_ratio = 0.5};
  EXPECT_DOUBLE_EQ(thermal_growth(incompressible, 1e-4, 10.0), 3.0 * 15.0 * 1e-4 * 10.0);
}

// A rod of length t under a body force rho v^2 / R, held at one end and stiffened to the
// constrained modulus, grows by that force t^2 / (2 M).
TEST(Growth, OfATurningCoverIsThatOfALayerHangingOutward) {
  const double rate = 1.1e-9 * 8e3 * 8e3 / 100.0;  // N/mm^3
  EXPECT_DOUBLE_EQ(centrifugal_growth(cover, 1.1e-9, 100.0, 8e3),
                   rate * 15.0 * 15.0 / (2.0 * constrained_modulus(cover)));
}

// 100 lbf on 2 in^2: 50, 100, 200, 250 psi for plain, 1:1, 3:1, 4:1 (abrasive training page).
TEST(Lands, PressHarderByGrooveAndLand) {
  EXPECT_EQ(land_pressure_factor(0.0), 50.0 / 50.0);
  EXPECT_EQ(land_pressure_factor(1.0), 100.0 / 50.0);
  EXPECT_EQ(land_pressure_factor(3.0), 200.0 / 50.0);
  EXPECT_EQ(land_pressure_factor(4.0), 250.0 / 50.0);
}

TEST(Lands, TurnPrestonsLawIntoItselfWithASmallerThreshold) {
  const Preston law{.coefficient = 4e-5, .threshold = 0.1};
  for (const double share : {0.25, 0.5, 1.0}) {
    const OnLands<Preston> landed{law, share};
    const Preston same = on_lands(law, share);
    for (int i = 0; i < 50; ++i) {
      const double p = 0.0101 * i;
      EXPECT_NEAR(landed.per_path(p), same.per_path(p), 1e-18) << share << " " << p;
      EXPECT_EQ(landed.slope(p), same.slope(p)) << share << " " << p;
    }
  }
}

// Without a threshold lands change nothing, which is why four wheels that cut 700, 1000, 1300 and
// 1600 at equal force are evidence for one.
TEST(Lands, ChangeNothingForALawInProportion) {
  const OnLands<Preston> landed{{.coefficient = 4e-5, .threshold = 0.0}, 0.25};
  EXPECT_DOUBLE_EQ(landed.per_path(0.2), 4e-5 * 0.2);
}

// Four wheels of 80 durometer at 50 psi mean pressure: plain 700, 1:1 serrated 1000, scoop 1300,
// cross-slotted 1600 (same page; scoop and cross-slotted taken as the page's 3:1 and 4:1). Each
// ratio needs its own threshold, 0.46, 0.53 and 0.62 of the mean pressure (0.16 to 0.21 MPa);
// one of them for all must order the wheels and give the ratios within 20 %.
TEST(Lands, OrderFourWheelsWithOneThreshold) {
  constexpr double mean = 0.345;  // 50 psi in MPa
  constexpr std::array<double, 4> shares{1.0, 0.5, 0.25, 0.2};
  constexpr std::array<double, 4> cut{700, 1000, 1300, 1600};
  // (p - lambda t) / (p - t) = cut ratio, solved for t.
  const auto threshold = [&](std::size_t i) {
    const double ratio = cut[i] / cut[0];
    return mean * (ratio - 1.0) / (ratio - shares[i]);
  };
  RecordProperty("threshold_1_to_1_MPa", std::to_string(threshold(1)));
  RecordProperty("threshold_3_to_1_MPa", std::to_string(threshold(2)));
  RecordProperty("threshold_4_to_1_MPa", std::to_string(threshold(3)));
  const Preston law{.coefficient = 1.0, .threshold = threshold(2)};
  const auto removal = [&](std::size_t i) { return on_lands(law, shares[i]).per_path(mean); };
  for (std::size_t i = 1; i < cut.size(); ++i) {
    EXPECT_GT(removal(i), removal(i - 1));
    EXPECT_NEAR(removal(i) / removal(0) / (cut[i] / cut[0]), 1.0, 0.20) << i;
  }
}

// Pitch 20 mm, half of it land, 8 m/s: 1.25 ms. At 1.6 m/min feed the marks lie 0.067 mm apart.
TEST(Lands, GiveDwellTimeAndTheDistanceOfTheirMarks) {
  EXPECT_DOUBLE_EQ(land_dwell_time(20.0, 0.5, 8000.0), 1.25e-3);
  EXPECT_NEAR(chatter_pitch(20.0, 1600.0 / 60.0, 8000.0), 0.0667, 5e-5);
}
