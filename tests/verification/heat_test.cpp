#include <cmath>
#include <numbers>
#include <vector>

#include <boost/math/quadrature/tanh_sinh.hpp>
#include <boost/math/special_functions/bessel.hpp>
#include <gtest/gtest.h>

#include "models/heat/burr_fin.hpp"
#include "models/heat/partition.hpp"
#include "models/heat/slab.hpp"
#include "models/heat/temper_colours.hpp"
#include "models/heat/transient_band.hpp"
#include "tests/support/moving_sheet.hpp"

namespace drumlin::models {
namespace {

constexpr ThermalMetal steel{.conductivity = 50, .density = 7.85e-9, .specific_heat = 480e6};
constexpr HeatedBand nip{.half_width = 5, .feed = 50, .flux = 150};

/// Integral of e^-u K0(|u|), the kernel's pole at 0 an end of both pieces.
double by_quadrature(double X, double L) {
  boost::math::quadrature::tanh_sinh<double> rule;
  const auto kernel = [](double sign) {
    return [sign](double u) {
      return u > 0.0 ? std::exp(sign * u) * boost::math::cyl_bessel_k(0, u) : 0.0;
    };
  };
  return rule.integrate(kernel(+1.0), 0.0, L - X) + rule.integrate(kernel(-1.0), 0.0, L + X);
}

// The closed integral against tanh-sinh quadrature; 1e-8 is what that holds at a logarithmic pole.
TEST(MovingBand, IsTheIntegralOfItsKernel) {
  for (const double L : {0.01, 0.1, 1.0, 8.93, 60.0})
    for (const double share : {-0.9, -0.3, 0.0, 0.5})
      EXPECT_NEAR(band_warming(share * L, L) / by_quadrature(share * L, L), 1.0, 1e-8)
          << L << ' ' << share;
}

// Bessel functions are followed by their asymptotic series from 50 on: no jump at the seam.
TEST(MovingBand, DoesNotJumpWhereTheSeriesTakesOver) {
  EXPECT_NEAR(band_warming(0.0, 50.0 * (1 + 1e-9)) / band_warming(0.0, 50.0 * (1 - 1e-9)), 1.0,
              1e-8);
}

TEST(MovingBand, IsWarmestAtItsPeak) {
  for (const double L : {1e-3, 0.1, 1.0, 30.0, 1e4}) {
    const BandPeak peak = band_peak(L);
    const double X = peak.place * L;
    EXPECT_NEAR(peak.warming, band_warming(X, L), 1e-9 * peak.warming) << L;
    EXPECT_LT(peak.place, 0.0);
    // Steps of 2 % of the way to the end behind: the peak is flat, but not that flat.
    const double step = 0.02 * (L + X);
    EXPECT_GT(peak.warming, band_warming(X - step, L)) << L;
    EXPECT_GT(peak.warming, band_warming(X + step, L)) << L;
  }
}

TEST(MovingBand, HasTheMeanOfItsProfile) {
  boost::math::quadrature::tanh_sinh<double> rule;
  for (const double L : {0.1, 1.0, 20.0}) {
    const double mean =
        rule.integrate([&](double X) { return band_warming(X, L); }, -L, L) / (2.0 * L);
    EXPECT_NEAR(band_mean(L) / mean, 1.0, 1e-8) << L;
    EXPECT_LT(band_mean(L), band_peak(L).warming);
  }
}

// Theta -> sqrt(4 pi L); the first correction is of order ln(L)/L, so ten times L is near ten times
// closer.
TEST(MovingBand, NearsTheFastLimit) {
  const auto open = [](double L) { return 1.0 - band_peak(L).warming / fast_band_peak(L); };
  EXPECT_LT(open(1e4), 1e-4);
  EXPECT_GT(open(1e3) / open(1e4), 6.0);
}

// Green's function of the half-space over a long time is Jaeger's steady state: two solutions that
// share nothing but the problem.
TEST(BandInTime, ReachesTheSteadyState) {
  for (const double speed : {5.0, 50.0, 500.0}) {
    const HeatedBand band{.half_width = 5, .feed = speed, .flux = 150};
    const double L = band_speed_number(band, steel);
    const BandPeak peak = band_peak(L);
    const double x = peak.place * band.half_width;
    const double steady = peak_rise(band, steel);
    EXPECT_NEAR(band_rise_after(band, steel, x, 200.0) / steady, 1.0, 1e-5) << speed;
    EXPECT_LT(band_rise_after(band, steel, x, 0.01 * 5.0 / speed), 0.5 * steady);
  }
}

// A fast band is steady once it has moved on by its own length: each place then has its own
// history. 0.05 open means 0.95^2 of the way in 1-D, T ~ sqrt(t), less the quarter that the hottest
// place lies before the end.
TEST(BandInTime, IsSteadyAfterItsOwnLengthWhenFast) {
  const HeatedBand fast{.half_width = 5, .feed = 2000, .flux = 150};
  EXPECT_NEAR(way_to_steady(fast, steel, 0.05) / 10.0, 0.95 * 0.95, 0.03);
  EXPECT_GT(way_to_steady(fast, steel, 0.01), way_to_steady(fast, steel, 0.05));
}

TEST(Sheet, IsAHalfSpaceWhenThick) {
  const double x = -band_peak(band_speed_number(nip, steel)).place * nip.half_width;
  const double deep = peak_rise(nip, steel);
  // 3.9 spreads of heat thick: images lie beyond erfc of that.
  EXPECT_NEAR(sheet_rise(nip, steel, 6.4, x) / deep, 1.0, 1e-4);
  EXPECT_NEAR(peak_rise(nip, steel, 6.4) / deep, 1.0, 1e-12);
  // Where the half-space takes over nothing jumps.
  const double seam = 3.0 * std::sqrt(diffusivity(steel) * 2.0 * nip.half_width / nip.feed);
  EXPECT_NEAR(peak_rise(nip, steel, 0.999 * seam) / deep, 1.0, 5e-4);
}

// All heat is in the sheet once the band has gone by, evenly: R P / (v_f rho c t).
TEST(Sheet, KeepsAllTheHeatThatItGets) {
  const double far = 400.0;
  for (const double t : {0.5, 1.5, 4.0})
    EXPECT_NEAR(sheet_rise(nip, steel, t, far) / mean_rise(nip, steel, t), 1.0, 1e-9);
  EXPECT_NEAR(mean_rise(nip, steel, 1.5),
              nip.flux * 2.0 * nip.half_width / (nip.feed * 3.768 * 1.5), 1e-9);
}

// A sheet so thin that heat goes through it at once warms as a plug: the peak is the mean.
TEST(Sheet, WarmsAsAPlugWhenThin) {
  const double t = 0.02;
  EXPECT_NEAR(peak_rise(nip, steel, t) / mean_rise(nip, steel, t), 1.0, 2e-3);
}

// The slope has a logarithm at the ends: over 1e-5 mm the profile moves by less than 1e-3 of what
// is there, series and tail by less than that.
TEST(Sheet, GoesOnSmoothlyPastTheBand) {
  for (const double end : {-nip.half_width, nip.half_width})
    EXPECT_NEAR(sheet_rise(nip, steel, 1.5, end * (1 - 1e-6)) /
                    sheet_rise(nip, steel, 1.5, end * (1 + 1e-6)),
                1.0, 1e-3);
}

TEST(Sheet, IsHotterTheThinnerItIs) {
  double last = 1e9;
  for (const double t : {0.3, 0.6, 1.0, 1.5, 3.0, 6.0}) {
    const double rise = peak_rise(nip, steel, t);
    EXPECT_LE(rise, last * (1 + 1e-4)) << t;
    EXPECT_GE(rise, mean_rise(nip, steel, t));
    last = rise;
  }
}

// The peak that a few steps find is the peak of the profile, to what a flat top hides.
TEST(Sheet, IsWarmestAtItsPeak) {
  for (const double t : {0.5, 1.5, 4.0}) {
    double best = 0.0;
    for (double x = -5.0; x < 5.0; x += 0.01)
      best = std::max(best, sheet_rise(nip, steel, t, x));
    EXPECT_NEAR(peak_rise(nip, steel, t) / best, 1.0, 1e-3) << t;
  }
}

// A finite-volume march of the same sheet, which knows no modes: errors fall with its cells, first
// order along the feed (upwind), and its limit is the series.
TEST(Sheet, IsWhatFiniteVolumesTendTo) {
  const HeatedBand band{.half_width = 2, .feed = 30, .flux = 150};
  const double t = 1.0;
  const double x = 1.5;
  const double series = sheet_rise(band, steel, t, x);
  const auto error = [&](int cells) {
    return tests::moving_sheet_rise(band, steel, t, x, cells) / series - 1.0;
  };
  const double coarse = error(8);
  const double fine = error(16);
  const double finer = error(32);
  EXPECT_LT(std::abs(finer), 2e-3);
  EXPECT_NEAR(std::log2(std::abs(coarse / fine)), std::log2(std::abs(fine / finer)), 0.4);
  EXPECT_NEAR(std::log2(std::abs(fine / finer)), 1.0, 0.5);
  // Both together, one order removed.
  EXPECT_NEAR(2.0 * finer - fine, 0.0, 5e-4);
}

constexpr BurrFin burr{.height = 0.15, .root = 0.10, .sheet = 1.5};

TEST(BurrFin, IsThePlainBarWithoutAFilm) {
  EXPECT_DOUBLE_EQ(fin_rise(burr, steel, 1000, 0.0), 1000 * 0.15 / (50 * 0.10));
  // m h = 0.1: tanh(x)/x = 1 - x^2/3.
  const double film = 0.01 / (0.15 * 0.15) * 50 * 0.10 / 2.0;
  EXPECT_NEAR(fin_rise(burr, steel, 1000, film) / fin_rise(burr, steel, 1000, 0.0),
              std::tanh(0.1) / 0.1, 1e-12);
  EXPECT_LT(fin_rise(burr, steel, 1000, 1.0), fin_rise(burr, steel, 1000, 0.1));
}

TEST(BurrFin, TendsToItsSteadyState) {
  const double across = 0.15 * 0.15 / diffusivity(steel);
  EXPECT_NEAR(fin_rise_after(burr, steel, 1000, 6.0 * across), fin_rise(burr, steel, 1000, 0.0),
              1e-4);
  // From bar without end to series.
  EXPECT_NEAR(fin_rise_after(burr, steel, 1000, 0.009999 * across) /
                  fin_rise_after(burr, steel, 1000, 0.010001 * across),
              1.0, 2e-4);
}

/// Explicit cells along the fin, heat into the first, root held.
double fin_by_cells(double time, int n) {
  const double width = burr.height / n;
  const double step = 0.25 * width * width / diffusivity(steel);
  const int steps = static_cast<int>(std::ceil(time / step));
  const double r = diffusivity(steel) * time / steps / (width * width);
  const auto count = static_cast<std::size_t>(n);
  std::vector<double> T(count, 0.0);
  for (int s = 0; s < steps; ++s) {
    std::vector<double> next = T;
    for (std::size_t i = 0; i < count; ++i) {
      const double above = i == 0 ? 1000.0 * width / (50.0 * burr.root) : T[i - 1] - T[i];
      const double below = i + 1 == count ? 2.0 * T[i] : T[i] - T[i + 1];
      next[i] += r * (above - below);
    }
    T = std::move(next);
  }
  // From the middle of the first cell to its face.
  return T[0] + 0.5 * 1000.0 * width / (50.0 * burr.root);
}

// Order 2 in the cell; the series is where they tend.
TEST(BurrFin, IsWhatCellsAlongItTendTo) {
  const double time = 0.3 * 0.15 * 0.15 / diffusivity(steel);
  const double series = fin_rise_after(burr, steel, 1000, time);
  const double coarse = fin_by_cells(time, 10) - series;
  const double fine = fin_by_cells(time, 20) - series;
  EXPECT_NEAR(std::log2(std::abs(coarse / fine)), 2.0, 0.2);
  EXPECT_LT(std::abs(fine / series), 1e-3);
}

// Long after, the corner of a plate that is thick warms as a line source: twice the time adds
// Q' ln 2 / (pi k).
TEST(BurrRoot, WarmsAsALineSourceInAThickPlate) {
  const BurrFin thick{.height = 0.15, .root = 0.10, .sheet = 1e3};
  for (const int place : {0, 1})
    EXPECT_NEAR(root_rise_after(thick, steel, 1000, place, 2.0) -
                    root_rise_after(thick, steel, 1000, place, 1.0),
                1000 * std::numbers::ln2 / (std::numbers::pi * 50), 0.01);
}

// And in a thin one as a plate heated at its end: T ~ 2 (Q'/t) sqrt(t' / (pi k rho c)), plus what
// stays constant.
TEST(BurrRoot, WarmsAsAPlateThatIsHeatedAtItsEnd) {
  const double added =
      root_rise_after(burr, steel, 1000, 0, 4.0) - root_rise_after(burr, steel, 1000, 0, 1.0);
  const double plate =
      2.0 * 1000 / 1.5 * (2.0 - 1.0) / (std::sqrt(std::numbers::pi) * effusivity(steel));
  EXPECT_NEAR(added / plate, 1.0, 0.01);
}

TEST(BurrRoot, IsHotterAtTheEdgeThanAtTheFoot) {
  EXPECT_GT(root_rise_after(burr, steel, 1000, 0, 0.05),
            root_rise_after(burr, steel, 1000, 1, 0.05));
  EXPECT_EQ(burr_rise(burr, steel, 1000, 1e-6).root, 0.0);
}

TEST(HeatPartition, RisesWithSpeedAndFallsWithTheGrain) {
  EXPECT_GT(share_to_work(steel, 35, 0.015, 30000), share_to_work(steel, 35, 0.015, 15000));
  EXPECT_LT(share_to_work(steel, 100, 0.015, 30000), share_to_work(steel, 35, 0.015, 30000));
  EXPECT_DOUBLE_EQ(share_under_fluid(0.8, 40.0, 0.0), 0.8);
  EXPECT_LT(share_under_fluid(0.8, 40.0, 420.0), share_under_fluid(0.8, 40.0, 25.0));
  EXPECT_DOUBLE_EQ(share_to_chips(steel, 1.0, 1e9, 1.0), 1.0);
}

TEST(TemperColour, NeedsMoreHeatTheShorterItLasts) {
  const double hot = 273.15 + 300;
  EXPECT_EQ(temper_colour(ColouringMetal::carbon_steel, hot, 600)->name, "dark blue");
  EXPECT_FALSE(temper_colour(ColouringMetal::carbon_steel, hot, 0.1).has_value() &&
               temper_colour(ColouringMetal::carbon_steel, hot, 0.1)->name != "pale yellow");
  EXPECT_FALSE(temper_colour(ColouringMetal::stainless, hot, 0.1));
  EXPECT_DOUBLE_EQ(colour_delay(1e-3), 100.0);
  EXPECT_DOUBLE_EQ(colour_delay(60.0), 0.0);
  EXPECT_NEAR(colour_delay(std::sqrt(60.0)), 50.0, 1e-9);
}

}  // namespace
}  // namespace drumlin::models
