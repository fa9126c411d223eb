#include "viz/section_view.hpp"

#include <vector>

#include <gtest/gtest.h>

#include "sim/result.hpp"

using namespace drumlin;

// A drum goes over the section twice, in two stations: 30 mm each, a step of 10 mm between records.
TEST(Travel, CountsOnThroughPassesAndStations) {
  std::vector<sim::StepRecord> records;
  for (int pass = 0; pass < 2; ++pass) {
    for (int station = 0; station < 2; ++station) {
      for (const double x : {20.0, 10.0, 0.0, -10.0}) {
        sim::StepRecord record;
        record.pass = pass;
        record.station = station;
        record.drum_x = x;
        records.push_back(record);
      }
    }
  }
  const std::vector<double> travelled = viz::travel(records);
  ASSERT_EQ(travelled.size(), 16U);
  for (std::size_t i = 0; i < travelled.size(); ++i) {
    EXPECT_DOUBLE_EQ(travelled[i], 10.0 * static_cast<double>(i));
  }
}
