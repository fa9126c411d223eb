#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "models/finish/roughness.hpp"

namespace drumlin::models {
namespace {

/// Ra over grain size as five charts of the trade give it (none with conditions): a pharmaceutical
/// supplier's table in P and in US grit, and three abrasive makers' sheets; the middle, in
/// logarithms, where a chart gives a range. Grain sizes: ISO 6344 / FEPA, CAMI.
struct Row {
  double diameter;   // [um]
  double roughness;  // [um]
};
double between(double low, double high) {
  return std::sqrt(low * high);
}
std::vector<Row> chart_rows() {
  const double fine = between(30.2, 25.8);  // "500-600"
  return {
      {125, 3.0},
      {82, 2.0},
      {58.5, 1.5},
      {46.2, 0.75},
      {fine, 0.40},
      {192, 1.65},
      {78, 0.62},
      {53.5, 0.45},
      {36, 0.25},
      {201, 3.2},
      {125, 1.6},
      {58.5, 0.8},
      {35, 0.4},
      {fine, 0.2},
      {18.3, 0.1},
      {538, between(3.6, 6.0)},
      {269, between(2.2, 3.6)},
      {201, between(1.8, 2.2)},
      {82, 0.8},
      {201, between(3.2, 6.3)},
      {125, between(3.2, 6.3)},
      {82, between(1.6, 3.2)},
      {58.5, between(0.8, 1.6)},
      {46.2, between(0.8, 1.6)},
      {35, between(0.4, 0.8)},
      {fine, between(0.4, 0.8)},
      {18.3, between(0.2, 0.4)},
  };
}

/// Fresh, dry, at the charts' pressure and speed.
double predicted(double diameter_um) {
  return 1e3 *
         belt_roughness({.grain_diameter = 1e-3 * diameter_um, .pressure = 0.1, .speed = 2e4});
}

// The law is the straight line through the charts in logarithms, and its band twice their scatter.
TEST(BeltRoughness, IsTheLineThroughTheTradesCharts) {
  const auto rows = chart_rows();
  ASSERT_EQ(rows.size(), 27U);
  double mx = 0, my = 0;
  for (const Row& row : rows) {
    mx += std::log(row.diameter / 100.0) / 27.0;
    my += std::log(row.roughness) / 27.0;
  }
  double xx = 0, xy = 0;
  for (const Row& row : rows) {
    const double x = std::log(row.diameter / 100.0) - mx;
    xx += x * x;
    xy += x * (std::log(row.roughness) - my);
  }
  const double exponent = xy / xx;
  const double at_100 = std::exp(my - exponent * mx);
  double scatter = 0;
  for (const Row& row : rows) {
    const double off =
        std::log(row.roughness / (at_100 * std::pow(row.diameter / 100.0, exponent)));
    scatter += off * off / 25.0;
  }
  EXPECT_NEAR(predicted(100), at_100, 0.01 * at_100);
  EXPECT_NEAR(std::log(predicted(200) / predicted(50)) / std::log(4.0), exponent, 0.01);
  EXPECT_NEAR(belt_roughness_band, std::exp(2.0 * std::sqrt(scatter)), 0.02);
}

// Ranges that both reference sheets ask for, on steel: P80 1.5 to 6 um, P240 0.4 to 1.6 um.
TEST(BeltRoughness, LiesInTheStatedRangesForP80AndP240) {
  EXPECT_GT(predicted(201), 1.5);
  EXPECT_LT(predicted(201), 6.0);
  EXPECT_GT(predicted(58.5), 0.4);
  EXPECT_LT(predicted(58.5), 1.6);
  EXPECT_GE(belt_roughness_band, 2.0);
}

// A robot's belt on 42CrMo: Ra 3.85, 3.51, 3.98 um at three settings (Metals 2025, 15, 1265; grit
// not in the excerpt): no grit coarser than P36 or finer than P120 may be needed to meet them.
TEST(BeltRoughness, MeetsAMeasuredBeltWithAGritThatSuchBeltsHave) {
  for (const double measured : {3.85, 3.51, 3.98}) {
    EXPECT_GT(predicted(538), measured);
    EXPECT_LT(predicted(125), measured);
  }
}

// Brushed finish 2J of EN 10088-2, grit 120 to 180: Ra 0.2 to 1.0 um (a stockist's page).
TEST(BrushRoughness, PutsABrushedFinishWhereStockistsSellIt) {
  for (const double diameter : {125.0, 100.0, 82.0}) {
    EXPECT_GT(brush_share * predicted(diameter), 0.2);
    EXPECT_LT(brush_share * predicted(diameter), 1.0);
  }
}

}  // namespace
}  // namespace drumlin::models
