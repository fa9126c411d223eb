#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "models/line/belt_tension.hpp"
#include "models/line/capstan.hpp"
#include "models/line/cost_per_part.hpp"
#include "models/line/drive_power.hpp"
#include "models/line/hold_down.hpp"

namespace drumlin::models {
namespace {

// Sums of one and the same formula: rounding only.
constexpr double rounding = 1e-12;

// T1/T2 = exp(0.4 pi) = 3.51: textbook value of half a turn at a friction of 0.4.
TEST(Capstan, HoldsThreeAndAHalfTimesTheSlackSideOverHalfATurn) {
  EXPECT_NEAR(capstan_ratio(0.4, std::numbers::pi), 3.51, 0.005);  // as printed, three digits
  EXPECT_EQ(capstan_ratio(0.0, 3.0), 1.0);
  EXPECT_EQ(capstan_ratio(0.4, 0.0), 1.0);
}

// Wraps in series multiply: what Euler's formula follows from.
TEST(Capstan, MultipliesOverWrapsInSeries) {
  EXPECT_NEAR(capstan_ratio(0.3, 2.5), capstan_ratio(0.3, 1.0) * capstan_ratio(0.3, 1.5), rounding);
}

// A polygon of n corners carries (1 + mu phi / n)^n: the limit is neared with order 1.
TEST(Capstan, IsTheLimitOfAPolygonWithFirstOrder) {
  const auto error = [](int n) {
    return capstan_ratio(0.4, std::numbers::pi) - std::pow(1.0 + 0.4 * std::numbers::pi / n, n);
  };
  EXPECT_NEAR(std::log2(error(2000) / error(4000)), 1.0, 1e-2);
}

// 1.2 kg/m2 at 30 m/s: 1.08 N/mm; 1 kg/m2: 0.225 N/mm at 15 m/s, 0.9 at 30 (computed values of
// two reference sheets made apart).
TEST(BeltTension, LosesTheTabulatedNumbersToInertia) {
  EXPECT_NEAR(centrifugal_tension(1.2e-9, 30e3), 1.08, rounding);
  EXPECT_NEAR(centrifugal_tension(1.0e-9, 15e3), 0.225, rounding);
  EXPECT_NEAR(centrifugal_tension(1.0e-9, 30e3), 0.9, rounding);
}

// 5 N/mm over 150 mm: 0.0333 MPa.
TEST(BeltTension, PressesOnTheDrumByTensionOverRadius) {
  EXPECT_NEAR(wrap_pressure(5.0, 150.0), 0.0333, 5e-5);  // as printed, three digits
}

// 100 mm3/s at 15 J/mm3 take 1.5 kW; at 20 m/s that is 75 N.
TEST(DrivePower, IsEnergyPerVolumeTimesRate) {
  EXPECT_NEAR(removal_power(15e3, 100.0), 1.5e6, 1e-9);  // mW
  EXPECT_NEAR(tangential_force(1.5e6, 20e3), 75.0, rounding);
}

// Drag times speed is the same power where K = mu / u: P = mu P' v = u K P' v.
TEST(DrivePower, IsTheSameFromDragAndFromEnergyWhereRemovalIsProportional) {
  const double friction = 0.4;
  const double energy = 16e3;  // MPa
  const double load = 0.7;     // N/mm
  const double speed = 12e3;   // mm/s
  const double coefficient = friction / energy;
  EXPECT_NEAR(drag_power(friction * load, speed), removal_power(energy, coefficient * load * speed),
              1e-9);
}

// Worked example of a grinding text (Kalpakjian, as seen): 0.12 in3/min, 15 hp min/in3, 10 in wheel
// at 4000 rpm: 32.77 mm3/s, 40.95 J/mm3, 1342 W, 53.2 m/s, 25.2 N. Tolerances: its last digits.
TEST(DrivePower, FollowsAWorkedExampleOfATextbook) {
  const double inch = 25.4;
  const double rate = 0.12 * inch * inch * inch / 60.0;
  EXPECT_NEAR(rate, 32.77, 0.005);
  const double horsepower = 745.6999e3;  // mW
  const double energy = 15.0 * horsepower * 60.0 / (inch * inch * inch);
  EXPECT_NEAR(energy, 40.95e3, 5.0);
  const double power = removal_power(energy, rate);
  EXPECT_NEAR(power, 1342e3, 0.5e3);
  const double speed = surface_speed(10.0 * inch, 4000.0 / 60.0);
  EXPECT_NEAR(speed, 53.2e3, 50.0);
  EXPECT_NEAR(tangential_force(power, speed), 25.2, 0.05);
}

// 200 mm at 1910 rpm: 20.0 m/s.
TEST(DrivePower, TurnsRevolutionsIntoSurfaceSpeed) {
  EXPECT_NEAR(surface_speed(200.0, 1910.0 / 60.0), 20.0e3, 50.0);  // as printed
}

const ToolOnPart belt{.line_load = 2.0, .drag = 0.8};
const Bed bed{.friction = 0.3, .pressure = 2e-3};

// 0.3 (2 + 2e-3 l) = 0.8 holds from l = 1000/3 mm on.
TEST(HoldDown, IsTheBalanceOfFrictionAndDrag) {
  EXPECT_NEAR(*grip_margin(belt, bed, 100.0), 0.3 * (2.0 + 0.2) / 0.8, rounding);
  const double least = *smallest_length(belt, bed);
  EXPECT_NEAR(least, 1000.0 / 3.0, 1e-9);
  EXPECT_NEAR(*grip_margin(belt, bed, least), 1.0, rounding);
  EXPECT_NEAR(*holding_pressure(belt, bed.friction, least), bed.pressure, rounding);
}

TEST(HoldDown, WeighsThePartAndAddsTheSuction) {
  // 1.5 mm of steel weigh 11.8 kg/m2: 115.5 Pa.
  EXPECT_NEAR(bed_pressure(7.85e-9, 1.5, 0.0), 115.5e-6, 0.05e-6);
  EXPECT_NEAR(bed_pressure(7.85e-9, 1.5, 2e-3) - bed_pressure(7.85e-9, 1.5, 0.0), 2e-3, 1e-15);
}

TEST(HoldDown, NeedsNoLengthWhereTheConveyorGripsBetterThanTheBelt) {
  EXPECT_EQ(*smallest_length(belt, {.friction = 0.5, .pressure = 1e-4}), 0.0);
  EXPECT_EQ(*holding_pressure(belt, 0.5, 100.0), 0.0);
}

TEST(HoldDown, HasNoSmallestPartWhereNothingHolds) {
  EXPECT_FALSE(smallest_length(belt, {.friction = 0.0, .pressure = 1e-3}));
  EXPECT_FALSE(smallest_length(belt, {.friction = 0.3, .pressure = 0.0}));
  EXPECT_FALSE(grip_margin({.line_load = 1.0, .drag = 0.0}, bed, 100.0)) << "nothing pushes";
}

TEST(HoldDown, GrowsWithEveryThingThatHoldsAndFallsWithThePush) {
  const auto margin = [](double load, double drag, double friction, double pressure,
                         double length) {
    return *grip_margin({load, drag}, {friction, pressure}, length);
  };
  const double base = margin(2.0, 0.8, 0.3, 2e-3, 100.0);
  EXPECT_GT(margin(2.1, 0.8, 0.3, 2e-3, 100.0), base);
  EXPECT_LT(margin(2.0, 0.9, 0.3, 2e-3, 100.0), base);
  EXPECT_GT(margin(2.0, 0.8, 0.4, 2e-3, 100.0), base);
  EXPECT_GT(margin(2.0, 0.8, 0.3, 3e-3, 100.0), base);
  EXPECT_GT(margin(2.0, 0.8, 0.3, 2e-3, 120.0), base) << "a larger part holds better";
  // At one friction of the belt a heavier load holds a small part less well: it pushes more.
  EXPECT_LT(margin(4.0, 1.6, 0.3, 2e-3, 100.0), base);
}

// Two tools on one part: loads and drags add with their signs, so opposite ways hold better.
TEST(HoldDown, HoldsBetterUnderToolsThatRunAgainstEachOther) {
  const auto both = [](double second) {
    return *grip_margin({2.0 + 2.0, 0.8 + second}, bed, 100.0);
  };
  EXPECT_GT(both(-0.7), both(0.7));
  EXPECT_NEAR(*grip_margin({2.0, -0.8}, bed, 100.0), *grip_margin({2.0, 0.8}, bed, 100.0), 0.0)
      << "one tool alone pushes as hard either way";
}

// Mean distance from the middle of the unit square: (sqrt 2 + asinh 1) / 6 = 0.3826 (a known
// integral); a long strip turns about its middle like a rod: l^2 w / 4.
TEST(TurningPart, IsResistedOverTheArmOfARectangle) {
  EXPECT_NEAR(turning_arm(1.0, 1.0), (std::sqrt(2.0) + std::asinh(1.0)) / 6.0, rounding);
  EXPECT_NEAR(turning_arm(1.0, 1000.0) / (1000.0 * 1000.0 / 4.0), 1.0, 1e-5);
  EXPECT_NEAR(turning_arm(300.0, 400.0), turning_arm(400.0, 300.0), 1e-6);
}

// The same integral as a sum over cells' middles: neared with order 2.
TEST(TurningPart, HasAnArmThatSumsOverCellsNearWithSecondOrder) {
  const double a = 300.0;
  const double b = 200.0;
  const auto error = [&](int n) {
    double sum = 0.0;
    for (int i = 0; i < n; ++i)
      for (int j = 0; j < n; ++j)
        sum += std::hypot(a * ((i + 0.5) / n - 0.5), b * ((j + 0.5) / n - 0.5));
    return std::abs(sum * a * b / (n * n) - turning_arm(a, b));
  };
  EXPECT_NEAR(std::log2(error(64) / error(128)), 2.0, 0.1);
}

TEST(TurningPart, IsTurnedMostWithHalfItsWidthUnderTheTool) {
  const double most = turning_moment(belt, 300.0, 150.0);
  EXPECT_NEAR(most, 0.8 * 300.0 * 300.0 / 8.0, 1e-9);
  for (const double covered : {0.0, 50.0, 149.0, 151.0, 300.0})
    EXPECT_LT(turning_moment(belt, 300.0, covered), most) << covered;
  EXPECT_EQ(turning_moment(belt, 300.0, 300.0), 0.0) << "a part wholly under it is not turned";
}

TEST(TurningPart, HoldsByTheToolsLoadAloneWhereItSlidesByIt) {
  EXPECT_NEAR(*turning_margin(belt, {.friction = 0.3, .pressure = 0.0}, 300.0, 400.0),
              0.3 * 2.0 / 0.8, rounding);
  EXPECT_GT(*turning_margin(belt, bed, 300.0, 500.0), *turning_margin(belt, bed, 300.0, 400.0));
}

// 400 mm and 50 mm of gap in three lanes at 4 m/min: 1600 parts/h; 90 an hour: 5.63 ct.
TEST(CostPerPart, IsRateOverPartsAndPriceOverLife) {
  const double parts = parts_per_time(3, 4000.0 / 60.0, 400.0, 50.0, 1);
  EXPECT_NEAR(parts * 3600.0, 1600.0, 1e-9);
  EXPECT_NEAR(cost_of_time(90.0 / 3600.0, parts), 0.05625, rounding);
  EXPECT_NEAR(cost_of_wear(120.0, 8000.0), 0.015, rounding);
  EXPECT_NEAR(parts_per_time(3, 4000.0 / 60.0, 400.0, 50.0, 2), 0.5 * parts, rounding);
}

// Power per width over the whole part equals power while it is under the tool times that time.
TEST(CostPerPart, TakesEnergyForEveryPlaceOfThePart) {
  const double feed = 50.0;
  const double time_under_tool = 400.0 / feed;
  EXPECT_NEAR(energy_per_part(5e3, 300.0 * 400.0, feed), 5e3 * 300.0 * time_under_tool, 1e-6);
}

}  // namespace
}  // namespace drumlin::models
