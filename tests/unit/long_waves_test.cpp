#include "sim/numerics/long_waves.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "sim/line/drum.hpp"
#include "sim/line/plain_nip.hpp"
#include "sim/numerics/columns.hpp"
#include "sim/numerics/line_response.hpp"
#include "tests/support/random_stations.hpp"

using namespace drumlin;
using sim::LineResponse;
using sim::LongWaves;

namespace {

/// Largest difference between a row's response told at once and told from the long waves, over the
/// response at the pressed cell.
double difference(const sim::Symbol& symbol, double spacing, double window) {
  const auto reach = static_cast<std::size_t>(0.2 * window / spacing);
  const LineResponse whole(symbol, spacing, reach, window);
  const LineResponse split(symbol, spacing, reach, LongWaves(symbol, whole.window()));
  EXPECT_EQ(whole.symmetric(), split.symmetric());
  double most = 0.0;
  for (auto lag = -static_cast<std::ptrdiff_t>(reach) + 1; lag < static_cast<std::ptrdiff_t>(reach);
       ++lag)
    most = std::max(most, std::abs(whole[lag] - split[lag]));
  return most / whole[0];
}

}  // namespace

// Only the interpolation of the long waves may show: 1e-6 as promised.
TEST(LongWaves, GiveTheWholeResponseOnRowsOfAnySpacing) {
  tests::RandomStations draw(7);
  for (int k = 0; k < 6; ++k) {
    const sim::BeltSetup station = draw.belted(0.49);
    const sim::Symbol symbol = sim::line::Drum(station, 0.3).belt_and_cover();
    EXPECT_LT(difference(symbol, draw.spread(0.003, 0.05), 320.0), 1e-6) << k;
  }
}

TEST(LongWaves, GiveTheLeaningResponseOfAMovingGrippedRing) {
  const sim::BeltSetup station = tests::moving_drum(30);
  const sim::Symbol symbol = sim::line::Drum(station, 0.3).belt_and_cover();
  EXPECT_LT(difference(symbol, 0.01, sim::line::response_window(station, {})), 1e-6);
}

// All of a constant compliance is short waves but for what F keeps of it; together they are the
// pressed cell alone.
TEST(LongWaves, LeaveALocalGiveLocal) {
  const sim::Symbol local = [](double) { return 1e-3; };
  const LineResponse split(local, 0.02, 400, LongWaves(local, 64.0));
  EXPECT_NEAR(split[0], 1e-3, 1e-9);
  EXPECT_NEAR(split[5], 0.0, 1e-9);
  EXPECT_NEAR(split[-300], 0.0, 1e-9);
}

// The same sums in the same order as written out, so equal to the last bit on every vector unit.
TEST(AddUpColumns, AddsEachRowInTheOrderOfItsColumns) {
  constexpr std::size_t rows = 37;
  constexpr std::size_t columns = 11;
  constexpr std::ptrdiff_t stride = 41;
  std::vector<double> matrix(stride * columns);
  for (std::size_t k = 0; k < matrix.size(); ++k)
    matrix[k] = std::sin(static_cast<double>(k * k));
  std::vector<double> p(columns);
  for (std::size_t j = 0; j < columns; ++j)
    p[j] = 1.0 / static_cast<double>(j + 3);
  std::vector<double> sum(rows);
  sim::add_up_columns(matrix.data() + 2, stride, rows, columns, p.data(), sum.data());
  for (std::size_t i = 0; i < rows; ++i) {
    double expected = 0.0;
    for (std::size_t j = 0; j < columns; ++j)
      expected += p[j] * matrix[2 + i + j * static_cast<std::size_t>(stride)];
    EXPECT_EQ(sum[i], expected) << i;
  }
}
