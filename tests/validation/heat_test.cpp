#include <cmath>

#include <gtest/gtest.h>

#include "models/heat/partition.hpp"
#include "models/heat/slab.hpp"

// Published and hand-reckoned numbers. Theta, partition and the worked examples are reckoned in
// independent programs from Jaeger (1942) and Hahn (1962); material values from handbooks.
namespace drumlin::models {
namespace {

constexpr ThermalMetal steel{.conductivity = 50, .density = 7.85e-9, .specific_heat = 480e6};
constexpr ThermalMetal stainless{.conductivity = 15, .density = 7.9e-9, .specific_heat = 500e6};
constexpr ThermalMetal aluminium{.conductivity = 138, .density = 2.66e-9, .specific_heat = 900e6};

struct Row {
  double L, peak, place, mean;
};
// Table by quadrature of e^-u K0, four digits and more; 0.5 % allowed by it, rounding asked here.
constexpr Row table[] = {{0.1, 0.6913, -0.244, 0.6477}, {0.2, 1.1260, -0.359, 1.0288},
                         {0.5, 2.0486, -0.537, 1.7619}, {1, 3.1160, -0.666, 2.5129},
                         {2, 4.6295, -0.775, 3.5029},   {5, 7.6127, -0.876, 5.4197},
                         {10, 10.948, -0.924, 7.5816},  {20, 15.640, -0.955, 10.652},
                         {50, 24.907, -0.978, 16.768},  {100, 35.323, -0.988, 23.675}};

TEST(JaegersBand, HasTheTabulatedMaximumPlaceAndMean) {
  for (const Row& row : table) {
    const BandPeak peak = band_peak(row.L);
    EXPECT_NEAR(peak.warming / row.peak, 1.0, 1e-4) << row.L;
    EXPECT_NEAR(peak.place, row.place, 1e-3) << row.L;
    EXPECT_NEAR(band_mean(row.L) / row.mean, 1.0, 1e-4) << row.L;
  }
}

TEST(JaegersBand, NearsItsAsymptoteAsTabulated) {
  EXPECT_NEAR(band_peak(1).warming / fast_band_peak(1), 0.879, 1e-3);
  EXPECT_NEAR(band_peak(10).warming / fast_band_peak(10), 0.977, 1e-3);
}

// k 50, rho 7800, c 480; 2 W/mm^2 over 10 mm at 5 m/min: L 15.6, asymptote 57.1 K, exact 56 K, and
// 10 W/mm^2: 281 K. Printed to a kelvin.
TEST(JaegersBand, GivesTheWorkedExampleOfTheSecondSheet) {
  const ThermalMetal metal{.conductivity = 50, .density = 7.8e-9, .specific_heat = 480e6};
  HeatedBand band{.half_width = 5, .feed = 5000.0 / 60.0, .flux = 2000};
  const double L = band_speed_number(band, metal);
  EXPECT_NEAR(L, 15.6, 0.05);
  EXPECT_NEAR(band_scale(band, metal) * fast_band_peak(L), 57.1, 0.1);
  EXPECT_NEAR(peak_rise(band, metal), 56.0, 0.5);
  band.flux = 10000;
  EXPECT_NEAR(peak_rise(band, metal), 281.0, 1.5);
}

// mu P' v = 3 W/mm, half of it into the sheet, over 10 mm at 50 mm/s. The sheet states L 8.93 and
// about 5.5 K; 5 mm x 50 mm/s / (2 x 13.27 mm^2/s) is 9.42, and 8.93 belongs to 14 mm^2/s.
TEST(JaegersBand, GivesTheFaceExample) {
  const HeatedBand band{.half_width = 5, .feed = 50, .flux = 1500.0 / 10.0};
  EXPECT_NEAR(peak_rise(band, steel), 5.5, 0.3);
  EXPECT_NEAR(band_speed_number(band, steel), 9.42, 0.01);
  const HeatedBand as_printed{.half_width = 5, .feed = 50.0 * 8.93 / 9.42, .flux = 150};
  EXPECT_NEAR(band_speed_number(as_printed, steel), 8.93, 0.01);
}

TEST(HahnsPartition, GivesThePublishedShares) {
  EXPECT_NEAR(share_to_work(steel, 35, 0.015, 30000), 0.892, 1e-3);
  EXPECT_NEAR(share_to_work(stainless, 35, 0.015, 30000), 0.823, 1e-3);
  EXPECT_NEAR(share_to_work(aluminium, 35, 0.015, 30000), 0.916, 1e-3);
  EXPECT_NEAR(share_to_work(steel, 35, 0.015, 15000), 0.855, 1e-3);
  EXPECT_NEAR(effusivity(steel), 13.726, 1e-3);
  EXPECT_NEAR(effusivity(stainless), 7.697, 1e-3);
  EXPECT_NEAR(effusivity(aluminium), 18.176, 2e-3);
}

// eta u h / (rho c t): 0.7, 20 J/mm^3, 0.02 mm off 2 mm of steel: 37 K, 2 % allowed. As flux of a
// band: u h v_f is the power per width.
TEST(ThinSheet, WarmsByTheWorkedExample) {
  const double feed = 50;
  const HeatedBand band{.half_width = 4, .feed = feed, .flux = 0.7 * 20000 * 0.02 * feed / 8.0};
  EXPECT_NEAR(mean_rise(band, steel, 2.0) / 37.0, 1.0, 0.02);
  EXPECT_NEAR(sheet_rise(band, steel, 2.0, 200.0) / 37.0, 1.0, 0.02);
}

}  // namespace
}  // namespace drumlin::models
