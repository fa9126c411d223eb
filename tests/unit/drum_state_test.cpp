#include "sim/drum_state.hpp"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "models/elastomer/waves.hpp"
#include "tests/support/drums.hpp"

namespace drumlin::sim {
namespace {

Quantity known(double value) {
  return Banded{.value = value, .low = {}, .high = {}};
}

/// What a model would give of the nip.
StationResult solved() {
  StationResult result;
  result.interference = known(0.5);
  result.line_load = known(1.1);
  result.working_line_load = known(1.0);
  result.half_width = known(9.0);
  result.peak_pressure = known(0.1);
  result.line_load_slope = known(3.0);
  return result;
}

/// Without the critical speed, which takes its time.
StationResult stated(const BeltSetup& station, StationResult result = solved()) {
  state_drum(station, result, false);
  return result;
}

StationResult stated_with_waves(const BeltSetup& station) {
  StationResult result = solved();
  state_drum(station, result);
  return result;
}

using tests::drum_at_work;

// Without belt and loss the critical speed is the cover's Rayleigh speed; where it is looked for in
// steps of w it may be missed by a thousandth.
TEST(DrumState, GivesTheRayleighSpeedOfABareCover) {
  BeltSetup station = drum_at_work(20);
  station.belt = {0, 0, 0};
  station.belt_mass = 0;
  station.options = {};
  const StationResult result = stated_with_waves(station);
  const double rayleigh = models::rayleigh_wave_speed(station.cover, station.density);
  ASSERT_TRUE(result.critical_speed);
  EXPECT_NEAR(result.critical_speed->value / rayleigh, 1, 2e-3);
  EXPECT_NEAR(result.speed_ratio->value * result.critical_speed->value, station.belt_speed, 1e-9);
}

// c ~ sqrt(G): belt aside, four times the modulus doubles it; the belt's share keeps it within 15
// %.
TEST(DrumState, RaisesTheCriticalSpeedWithTheModulus) {
  BeltSetup station = drum_at_work(20);
  const double soft = stated_with_waves(station).critical_speed->value;
  station.cover.modulus *= 4;
  EXPECT_NEAR(stated_with_waves(station).critical_speed->value / soft, 2, 0.3);
}

TEST(DrumState, LeavesWhatMotionBringsWithoutValueAtRest) {
  BeltSetup station = drum_at_work(20);
  station.options.moving = false;
  station.relaxation = models::RateIndependent{};
  const StationResult result = stated_with_waves(station);
  EXPECT_FALSE(result.dynamic_stiffening);
  EXPECT_FALSE(result.belt_tension_at_speed);
  EXPECT_FALSE(result.cover_heating);
  EXPECT_TRUE(result.speed_ratio) << "how near the belt comes is said all the same";
}

TEST(DrumState, LeavesTheWavesOutWhereTheyTakeTooLong) {
  const StationResult result = stated(drum_at_work(20));
  EXPECT_FALSE(result.critical_speed);
  EXPECT_TRUE(result.dynamic_stiffening);
}

TEST(EffectiveInterference, IsSettingGrowthAndThicknessLessTheGiveOfTheFrame) {
  BeltSetup station = drum_at_work(20);
  station.temperature_rise = 20;
  station.thermal_expansion = 2e-4;
  station.interference_offset = 0.07;
  station.frame_compliance = 0.01;
  const StationResult result = stated(station);
  // The give is that of the working line load, 1.0 N/mm.
  EXPECT_NEAR(result.effective_interference->value, 0.5 + cover_growth(station) + 0.07 - 0.01 * 1.0,
              1e-12);
  EXPECT_GT(result.cover_growth->value, 0.1);
}

TEST(EffectiveInterference, IsTheModelsOwnWhereItGivesOne) {
  StationResult result = solved();
  result.effective_interference = known(0.44);
  EXPECT_EQ(stated(drum_at_work(20), result).effective_interference->value, 0.44);
}

// Land pressure p (1 + groove / land): 1, 2, 4, 5 times for plain, 1:1, 3:1, 4:1.
TEST(Lands, RaiseThePressureByGrooveOverLand) {
  for (const double groove : {0.0, 1.0, 3.0, 4.0}) {
    BeltSetup station = drum_at_work(80);
    station.land_ratio = 1 / (1 + groove);
    const StationResult result = stated(station);
    EXPECT_EQ(result.land_pressure.has_value(), groove > 0);
    if (groove == 0) continue;
    EXPECT_NEAR(result.land_pressure_factor->value, 1 + groove, 1e-12);
    EXPECT_NEAR(result.land_pressure->value, 0.1 * (1 + groove), 1e-12);
    EXPECT_FALSE(result.land_dwell) << "without a pitch nobody knows how long a land is";
  }
}

TEST(Lands, PressForAsLongAsOneTakesToSlideBy) {
  BeltSetup station = drum_at_work(80);
  station.land_ratio = 0.25;
  station.land_pitch = 12;
  EXPECT_NEAR(stated(station).land_dwell->value, 0.25 * 12 / station.sliding_speed, 1e-15);
}

// 2 pi R v_f / v_b: 2 mm at 300 : 1 on a drum of 100 mm.
TEST(Ripple, ComesOncePerTurnOfTheDrum) {
  const StationResult result = stated(drum_at_work(20));
  EXPECT_NEAR(result.ripple_pitch->value, 2 * std::numbers::pi * 100 / 300, 1e-9);
  EXPECT_FALSE(result.ripple_height) << "a drum without run-out leaves no ripple";
}

/// Mean of cos(k s) under a flat punch, 1 / (pi sqrt(a^2 - s^2)), by Gauss and Chebyshev.
double punch_average(double waves) {
  constexpr int n = 400;
  double sum = 0;
  for (int i = 0; i < n; ++i)
    sum += std::cos(waves * std::cos((i + 0.5) * std::numbers::pi / n));
  return sum / n;
}

TEST(Ripple, IsAtMostWhatIsStatedAndNearlyThatAtTheWorst) {
  double nearest = 0;
  for (double half_width = 2; half_width < 12; half_width += 0.05) {
    BeltSetup station = drum_at_work(20);
    station.run_out = 0.05;
    StationResult nip = solved();
    nip.half_width = known(half_width);
    const double height = stated(station, nip).ripple_height->value;
    // Peak to peak of (K v / v_f) (e/2) cos(k x), averaged.
    const double whole = 4e-5 * station.sliding_speed / station.feed * 0.05 * 3.0;
    const double waves =
        2 * std::numbers::pi * half_width / stated(station, nip).ripple_pitch->value;
    const double kept = whole * std::abs(punch_average(waves));
    EXPECT_LE(kept, height) << half_width;
    nearest = std::max(nearest, kept / height);
  }
  EXPECT_GT(nearest, 0.98);
}

// A small change of pressure moves r'(p): m (p / p_r)^(m - 1) times what Preston's line moves, at
// the peak where the law is steeper there, at the mean where it is steeper there.
TEST(Ripple, GoesWithTheSlopeOfTheLaw) {
  StationResult nip = solved();
  nip.half_width = known(5);
  nip.line_load = nip.working_line_load = known(1.5);
  nip.peak_pressure = known(0.25);
  BeltSetup station = drum_at_work(20);
  station.run_out = 0.05;
  const double straight = stated(station, nip).ripple_height->value;
  const auto ratio = [&](double m) {
    station.coating.law = models::ThresholdPower{
        .coefficient = 4e-5, .exponent = m, .saturation_pressure = 1e6, .saturated_exponent = m};
    return stated(station, nip).ripple_height->value / straight;
  };
  EXPECT_NEAR(ratio(1.0), 1.0, 1e-12);
  EXPECT_NEAR(ratio(2.0), 2.0 * 0.25 / 0.1, 1e-12);
  EXPECT_NEAR(ratio(0.6), 0.6 * std::pow(0.15 / 0.1, -0.4), 1e-12);
}

// First law: rate x heat capacity of the ring = loss; steady rise x film x circumference = loss.
TEST(CoverHeat, BalancesTheRollingLoss) {
  const BeltSetup station = drum_at_work(20);
  StationResult nip = solved();
  nip.rolling_loss = known(400);  // mW/mm
  const StationResult result = stated(station, nip);
  const double section = std::numbers::pi * (100.0 * 100 - 85.0 * 85);  // mm2
  // 1100 kg/m3 x 1.9 kJ/(kg K) = 2.09 mJ/(mm3 K)
  EXPECT_NEAR(result.cover_heating_rate->value * 2.09 * section, 400, 1e-9);
  // 50 W/(m2 K) = 0.05 mW/(mm2 K)
  EXPECT_NEAR(result.cover_heating->value * 0.05 * 2 * std::numbers::pi * 100, 400, 1e-9);
  EXPECT_NEAR(*result.cover_heating->high / result.cover_heating->value, 2.5, 1e-9);
  EXPECT_NEAR(*result.cover_heating->low / result.cover_heating->value, 0.5, 1e-9);
}

// Lengths x 10 at the same moduli and densities: speeds stay, times grow with lengths.
TEST(DrumState, FollowsTheDimensionsOfWhatItIsGiven) {
  BeltSetup small = drum_at_work(20);
  small.land_ratio = 0.5;
  small.land_pitch = 12;
  small.relaxation = models::RateIndependent{};
  BeltSetup large = small;
  large.cover.thickness *= 10;
  large.radius *= 10;
  large.belt.bending_stiffness *= 1000;
  large.belt.tension *= 10;
  large.belt_mass *= 10;
  large.land_pitch = 120;
  StationResult nip = solved();
  StationResult a = nip;
  state_drum(small, a);
  nip.interference = known(5);
  nip.half_width = known(90);
  nip.line_load = known(11);
  nip.working_line_load = known(10);
  StationResult b = nip;
  state_drum(large, b);
  EXPECT_NEAR(b.critical_speed->value / a.critical_speed->value, 1, 1e-6);
  EXPECT_NEAR(b.cover_growth->value / a.cover_growth->value, 10, 1e-9);
  EXPECT_NEAR(b.land_dwell->value / a.land_dwell->value, 10, 1e-9);
  EXPECT_NEAR(b.ripple_pitch->value / a.ripple_pitch->value, 10, 1e-9);
  EXPECT_NEAR(b.belt_tension_at_speed->value / a.belt_tension_at_speed->value, 10, 1e-9);
}

}  // namespace
}  // namespace drumlin::sim
