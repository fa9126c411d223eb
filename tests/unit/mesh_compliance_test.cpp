#include "sim/numerics/mesh_compliance.hpp"

#include <cmath>
#include <complex>
#include <random>
#include <vector>

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include "models/belt/tensioned_plate.hpp"
#include "models/elastomer/bonded_layer.hpp"
#include "sim/line/surface.hpp"
#include "sim/numerics/line_compliance.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;
using sim::CellRow;
using sim::LineCompliance;
using sim::MeshCompliance;

namespace {

constexpr double unit = 0.05;

/// Lossy, so that a transposed matrix would show.
std::complex<double> cover(double q) {
  const auto station = tests::belted_drum(40);
  const double c =
      models::combined_compliance({0.5, 2.0, 0.0}, q, models::surface_compliance(station.cover, q));
  return {c, q > 0.0 ? -0.2 * c : 0.0};
}

const CellRow row{unit, {0, 9, 14, 17, 18, 19, 20, 22, 26, 33, 45, 60}};

}  // namespace

// Between uneven cells the matrix is the even row's, summed over the units of one cell and averaged
// over those of the other: here spelt out. Rounding of the double sums: 1e-9.
TEST(MeshCompliance, IsTheEvenRowOnConstantPressures) {
  const double grains = 1e-3;
  MeshCompliance mesh(cover, grains, row, 60 * unit, 320.0, 0.5);
  LineCompliance even([&](double q) { return cover(q) + grains; }, unit, 60, 320.0);
  for (std::size_t j = 0; j < row.size(); ++j) {
    std::vector<double> one(row.size(), 0.0);
    std::vector<double> sunk(row.size());
    one[j] = 1.0;
    mesh.apply(one, sunk);
    std::vector<double> units(60, 0.0);
    std::vector<double> deep(60);
    for (int b = row.bounds[j]; b < row.bounds[j + 1]; ++b)
      units[static_cast<std::size_t>(b)] = 1.0;
    even.apply(units, deep);
    for (std::size_t i = 0; i < row.size(); ++i) {
      double mean = 0.0;
      for (int a = row.bounds[i]; a < row.bounds[i + 1]; ++a)
        mean += deep[static_cast<std::size_t>(a)];
      mean /= row.bounds[i + 1] - row.bounds[i];
      EXPECT_NEAR(sunk[i], mean, 1e-9 * std::abs(mean)) << i << " " << j;
    }
  }
}

// The stretch in use answers as that part of the whole row.
TEST(MeshCompliance, UsesAStretchAsPartOfTheWhole) {
  MeshCompliance mesh(cover, 1e-3, row, 60 * unit, 320.0, 0.5);
  std::vector<double> whole(row.size(), 0.0);
  for (std::size_t i = 3; i < 8; ++i)
    whole[i] = 0.1 * static_cast<double>(i);
  std::vector<double> all(row.size());
  mesh.apply(whole, all);
  mesh.use(2, 7);
  const std::vector<double> part(whole.begin() + 2, whole.begin() + 9);
  std::vector<double> sunk(7);
  mesh.apply(part, sunk);
  for (std::size_t i = 0; i < 7; ++i)
    EXPECT_NEAR(sunk[i], all[i + 2], 1e-13);
}

// The stand-in must not upset conjugate gradients: symmetric in the inner product of the widths and
// positive on free cells, zero elsewhere.
TEST(MeshCompliance, StandsInSymmetrically) {
  MeshCompliance mesh(cover, 1e-3, row, 60 * unit, 320.0, 0.5);
  const std::size_t n = row.size();
  const std::vector<std::uint8_t> free{0, 1, 1, 1, 1, 0, 1, 1, 1, 1, 0};
  const std::vector<double> slope(n, 2e-3);
  mesh.prepare(free, slope);
  Eigen::MatrixXd stand_in(n, n);
  for (std::size_t j = 0; j < n; ++j) {
    std::vector<double> one(n, 0.0);
    std::vector<double> z(n);
    one[j] = 1.0;
    mesh.precondition(one, z);
    for (std::size_t i = 0; i < n; ++i) {
      if (free[i] == 0) {
        EXPECT_EQ(z[i], 0.0);
      }
      stand_in(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
          free[j] == 0 ? 0.0 : z[i] * mesh.weights()[i];
    }
  }
  EXPECT_LT((stand_in - stand_in.transpose()).cwiseAbs().maxCoeff(),
            1e-9 * stand_in.cwiseAbs().maxCoeff());
  EXPECT_GT(Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(stand_in).eigenvalues().minCoeff(),
            -1e-9 * stand_in.cwiseAbs().maxCoeff());
}

// A beam is found again exactly, since it is one of those that are tried.
TEST(ClosestBeam, FindsABeamAgain) {
  const auto symbol = [](double q) {
    return std::complex<double>(1.0 / (0.5 * q * q * q * q + 3.0 * q * q + 0.2));
  };
  const sim::Beam beam = sim::closest_beam(symbol, 0.5, 0.1, 20.0);
  EXPECT_NEAR(beam.tension, 3.0, 1e-6);
  EXPECT_NEAR(beam.bedding, 0.2, 1e-6);
}

// Cells fill the stretch between the marks without gap, put bounds on every line, are a unit wide
// beside lines and nowhere wider than allowed.
TEST(GradedCells, PutBoundsOnLinesAndStayFineBesideThem) {
  std::mt19937 random(1);
  for (int k = 0; k < 200; ++k) {
    const auto draw = [&](int low, int high) {
      return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
    };
    const int from = -draw(500, 5000);
    const int to = draw(500, 5000);
    const std::vector<int> lines{-draw(1, 400), draw(0, 400)};
    const int fine = draw(1, 60);
    const int widest = draw(1, 80);
    const auto cells = sim::line::graded_cells(0.005, from, to, lines, fine, 0.25, widest);
    EXPECT_EQ(cells.bounds.front(), from);
    EXPECT_EQ(cells.bounds.back(), to);
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const int width = cells.bounds[i + 1] - cells.bounds[i];
      EXPECT_GE(width, 1);
      EXPECT_LE(width, widest);
    }
    for (const int line : lines) {
      const std::size_t cell = cells.cell_of(line);
      EXPECT_EQ(cells.bounds[cell], line);
      EXPECT_EQ(cells.bounds[cell + 1] - line, 1);
      EXPECT_EQ(line - cells.bounds[cell - 1], 1);
    }
  }
}
