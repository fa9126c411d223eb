#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "cases/library.hpp"

namespace drumlin::cases {
namespace {

struct Row {
  std::string grit;
  double diameter;  // [um]
};

// ISO 6344 / FEPA 43 mean diameters as two reference sheets tabulate them independently.
TEST(GritTable, HoldsThePScale) {
  const std::vector<Row> rows{{"P12", 1815},   {"P16", 1324},   {"P20", 1000},   {"P24", 764},
                              {"P30", 642},    {"P36", 538},    {"P40", 425},    {"P50", 336},
                              {"P60", 269},    {"P80", 201},    {"P100", 162},   {"P120", 125},
                              {"P150", 100},   {"P180", 82},    {"P220", 68},    {"P240", 58.5},
                              {"P280", 52.2},  {"P320", 46.2},  {"P360", 40.5},  {"P400", 35.0},
                              {"P500", 30.2},  {"P600", 25.8},  {"P800", 21.8},  {"P1000", 18.3},
                              {"P1200", 15.3}, {"P1500", 12.6}, {"P2000", 10.3}, {"P2500", 8.4}};
  const Library library;
  for (const Row& row : rows)
    EXPECT_NEAR(1e3 * library.grit(row.grit).mean_diameter, row.diameter, 1e-9) << row.grit;
}

// CAMI mean diameters as published.
TEST(GritTable, HoldsTheUsScale) {
  const std::vector<Row> rows{
      {"US 16", 1320}, {"US 20", 905},   {"US 24", 715},   {"US 30", 638},   {"US 36", 535},
      {"US 40", 428},  {"US 50", 351},   {"US 60", 268},   {"US 80", 192},   {"US 100", 141},
      {"US 120", 116}, {"US 150", 93},   {"US 180", 78},   {"US 220", 66},   {"US 240", 53.5},
      {"US 280", 44},  {"US 320", 36},   {"US 360", 28.8}, {"US 400", 23.6}, {"US 500", 19.7},
      {"US 600", 16},  {"US 800", 12.2}, {"US 1000", 9.2}, {"US 1200", 6.5}};
  const Library library;
  for (const Row& row : rows)
    EXPECT_NEAR(1e3 * library.grit(row.grit).mean_diameter, row.diameter, 1e-9) << row.grit;
}

// A maker's chart that disagrees: by no more than 5 % from the nominal one, P50 to P600.
TEST(GritTable, DiffersFromAnotherChartByNoMoreThanFivePercent) {
  const std::vector<Row> chart{{"P50", 326},   {"P60", 260},   {"P80", 197},   {"P100", 156},
                               {"P120", 127},  {"P150", 97},   {"P180", 78},   {"P220", 65},
                               {"P280", 52.5}, {"P500", 30.0}, {"P600", 25.75}};
  const Library library;
  for (const Row& row : chart)
    EXPECT_NEAR(1e3 * library.grit(row.grit).mean_diameter / row.diameter, 1.0, 0.052) << row.grit;
}

// d [um] = 24500 / grit^1.092 for P24 to P220, stated within 9 % (a fit in the reference sheet; P36
// lies 10 % off): a slip in a single row would stand out.
TEST(GritTable, FallsAsThePublishedFit) {
  const Library library;
  for (const int grit : {24, 30, 36, 40, 50, 60, 80, 100, 120, 150, 180, 220})
    EXPECT_NEAR(1e3 * library.grit("P" + std::to_string(grit)).mean_diameter /
                    (24500 / std::pow(grit, 1.092)),
                1.0, 0.105)
        << grit;
}

}  // namespace
}  // namespace drumlin::cases
