#include "sim/numerics/contact_solver.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numeric>
#include <random>
#include <vector>

#include <gtest/gtest.h>

#include "sim/numerics/line_compliance.hpp"
#include "tests/support/dense_contact.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;
using sim::ContactReport;
using sim::ContactSolver;
using sim::LineCompliance;
using sim::LocalGive;

namespace {

constexpr std::size_t cells = 120;
constexpr double spacing = 0.2;

LineCompliance compliance_of(const sim::BeltSetup& station) {
  return {[station](double q) {
            return models::combined_compliance(station.belt, q,
                                               models::surface_compliance(station.cover, q));
          },
          spacing, cells, 320.0};
}

/// A cover in motion, in the simplest way that loses energy at every wave length: Im C / Re C =
/// -tan.
LineCompliance lossy(const sim::BeltSetup& station, double tangent) {
  return {[station, tangent](double q) {
            const double c = models::combined_compliance(
                station.belt, q, models::surface_compliance(station.cover, q));
            return std::complex<double>(c, q > 0.0 ? -tangent * c : 0.0);
          },
          spacing, cells, 320.0};
}

const auto no_give = [](std::size_t, double) { return LocalGive{0.0, 0.0}; };

/// A drum's parabola with random steps, burrs and holes in it.
struct Landscape {
  std::vector<double> overlap;
  std::vector<std::uint8_t> metal;
};

Landscape landscape(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> uniform(0.0, 1.0);
  Landscape l{std::vector<double>(cells), std::vector<std::uint8_t>(cells, 1)};
  const double depth = 0.05 + uniform(random);
  for (std::size_t i = 0; i < cells; ++i) {
    const double x = (static_cast<double>(i) - 0.5 * cells) * spacing;
    l.overlap[i] = depth - x * x / 200.0 + (uniform(random) < 0.1 ? 0.3 * uniform(random) : 0.0);
    if (uniform(random) < 0.1) l.metal[i] = 0;
  }
  return l;
}

}  // namespace

// The matrix is what the transform says: symmetric, and of the response of a loaded cell.
TEST(LineCompliance, IsASymmetricPositiveDefiniteMatrix) {
  auto compliance = compliance_of(tests::belted_drum(40));
  const Eigen::MatrixXd matrix = tests::matrix_of(compliance);
  EXPECT_LT((matrix - matrix.transpose()).cwiseAbs().maxCoeff(),
            1e-13 * matrix.cwiseAbs().maxCoeff());
  EXPECT_GT(Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(matrix).eigenvalues().minCoeff(), 0.0);
}

// Doubling the window changes the answer by what images still say: below 1e-5 of it.
TEST(LineCompliance, DoesNotHearItsImages) {
  const auto station = tests::bare_drum(20);
  const auto symbol = [&](double q) { return models::surface_compliance(station.cover, q); };
  LineCompliance usual(symbol, spacing, cells, 320.0);
  LineCompliance wide(symbol, spacing, cells, 2560.0);
  const std::vector<double> pressure(cells, 0.1);
  std::vector<double> a(cells);
  std::vector<double> b(cells);
  usual.apply(pressure, a);
  wide.apply(pressure, b);
  for (std::size_t i = 0; i < cells; ++i)
    EXPECT_NEAR(a[i] / b[i], 1.0, 1e-5);
}

// Lawson and Hanson's method finds the exact set of pressed cells. Gap error 1e-9 mm over the
// smallest compliance of a cell (about 1e-2 mm/MPa here) bounds the pressures' difference.
TEST(ContactSolver, AgreesWithADenseActiveSetMethodOnRandomLandscapes) {
  for (const bool belted : {false, true}) {
    auto compliance = compliance_of(belted ? tests::belted_drum(40) : tests::bare_drum(40));
    const Eigen::MatrixXd full = tests::matrix_of(compliance);
    for (unsigned seed = 0; seed < 40; ++seed) {
      const Landscape l = landscape(seed);
      std::vector<double> pressure(cells, 0.0);
      ContactSolver solver;
      const ContactReport report =
          solver.solve(compliance, l.overlap, l.metal, no_give, pressure, {.gap = 1e-9});
      ASSERT_TRUE(report.converged) << "seed " << seed << " residual " << report.residual;
      std::vector<Eigen::Index> metal;
      for (std::size_t i = 0; i < cells; ++i) {
        if (l.metal[i] != 0) metal.push_back(static_cast<Eigen::Index>(i));
      }
      const auto m = static_cast<Eigen::Index>(metal.size());
      Eigen::MatrixXd matrix(m, m);
      Eigen::VectorXd overlap(m);
      for (Eigen::Index i = 0; i < m; ++i) {
        overlap(i) = l.overlap[static_cast<std::size_t>(metal[static_cast<std::size_t>(i)])];
        for (Eigen::Index j = 0; j < m; ++j) {
          matrix(i, j) =
              full(metal[static_cast<std::size_t>(i)], metal[static_cast<std::size_t>(j)]);
        }
      }
      const Eigen::VectorXd judge = tests::dense_contact(matrix, overlap);
      const double most = judge.maxCoeff();
      for (Eigen::Index i = 0; i < m; ++i) {
        EXPECT_NEAR(pressure[static_cast<std::size_t>(metal[static_cast<std::size_t>(i)])],
                    judge(i), 1e-5 * most)
            << "seed " << seed;
      }
    }
  }
}

// p >= 0 everywhere, nothing where there is no metal, and r p = 0 to the stated measure, with a
// local give that has kinks (wear with a threshold through a thin layer).
TEST(ContactSolver, IsComplementaryWithAKinkedGive) {
  auto compliance = compliance_of(tests::belted_drum(20));
  const auto give = [](std::size_t, double p) {
    const double cut = std::max(p - 0.05, 0.0);
    return cut < 0.1 ? LocalGive{0.02 * cut, p > 0.05 ? 0.02 : 0.0}
                     : LocalGive{0.002 + 0.005 * (cut - 0.1), 0.005};
  };
  for (unsigned seed = 100; seed < 200; ++seed) {
    const Landscape l = landscape(seed);
    std::vector<double> pressure(cells, 0.0);
    ContactSolver solver;
    const ContactReport report =
        solver.solve(compliance, l.overlap, l.metal, give, pressure, {.gap = 1e-8});
    ASSERT_TRUE(report.converged) << "seed " << seed << " residual " << report.residual;
    std::vector<double> sunk(cells);
    compliance.apply(pressure, sunk);
    for (std::size_t i = 0; i < cells; ++i) {
      ASSERT_GE(pressure[i], 0.0);
      if (l.metal[i] == 0) {
        ASSERT_EQ(pressure[i], 0.0);
        continue;
      }
      const double gap = sunk[i] + give(i, pressure[i]).depth - l.overlap[i];
      ASSERT_GE(gap, -2e-8);
      ASSERT_LE(pressure[i] > 0.0 ? gap : 0.0, 2e-8);
    }
  }
}

// Any guess leads to the one answer there is.
TEST(ContactSolver, ForgetsItsGuess) {
  auto compliance = compliance_of(tests::belted_drum(40));
  const Landscape l = landscape(7);
  std::vector<double> from_nothing(cells, 0.0);
  std::vector<double> from_much(cells, 3.0);
  ContactSolver solver;
  ASSERT_TRUE(
      solver.solve(compliance, l.overlap, l.metal, no_give, from_nothing, {.gap = 1e-9}).converged);
  ASSERT_TRUE(
      solver.solve(compliance, l.overlap, l.metal, no_give, from_much, {.gap = 1e-9}).converged);
  for (std::size_t i = 0; i < cells; ++i)
    EXPECT_NEAR(from_nothing[i], from_much[i], 1e-5);
}

// From the first step on each must lower the convex function, and still the answer is reached.
TEST(ContactSolver, ConvergesWhenEveryStepIsGuarded) {
  auto compliance = compliance_of(tests::belted_drum(40));
  for (unsigned seed = 0; seed < 40; ++seed) {
    const Landscape l = landscape(seed);
    std::vector<double> pressure(cells, 0.0);
    ContactSolver solver;
    const auto report = solver.solve(compliance, l.overlap, l.metal, no_give, pressure,
                                     {.gap = 1e-8, .free_steps = 0, .single_steps = 0});
    EXPECT_TRUE(report.converged) << "seed " << seed << " residual " << report.residual;
  }
}

// The cap is a guaranteed stop, and it is not passed off as an answer.
TEST(ContactSolver, SaysSoWhenItStopsAtItsCap) {
  auto compliance = compliance_of(tests::belted_drum(40));
  const Landscape l = landscape(3);
  std::vector<double> pressure(cells, 0.0);
  ContactSolver solver;
  const auto report = solver.solve(compliance, l.overlap, l.metal, no_give, pressure,
                                   {.gap = 1e-12, .newton_steps = 1});
  EXPECT_FALSE(report.converged);
  EXPECT_EQ(report.newton_steps, 1);
  EXPECT_GT(report.residual, 1e-12);
}

TEST(ContactSolver, LeavesNothingPressedWithoutOverlap) {
  auto compliance = compliance_of(tests::belted_drum(40));
  const std::vector<double> overlap(cells, -0.1);
  const std::vector<std::uint8_t> metal(cells, 1);
  std::vector<double> pressure(cells, 0.0);
  ContactSolver solver;
  EXPECT_TRUE(solver.solve(compliance, overlap, metal, no_give, pressure, {}).converged);
  EXPECT_EQ(*std::max_element(pressure.begin(), pressure.end()), 0.0);
}

// The matrix of a lossy cover is not symmetric, and its symmetric part is the elastic one's.
TEST(LineCompliance, SplitsIntoSymmetricAndSkewParts) {
  auto compliance = lossy(tests::belted_drum(40), 0.3);
  const Eigen::MatrixXd matrix = tests::matrix_of(compliance);
  auto elastic = lossy(tests::belted_drum(40), 0.0);
  const Eigen::MatrixXd even = 0.5 * (matrix + matrix.transpose());
  const double scale = matrix.cwiseAbs().maxCoeff();
  EXPECT_GT((matrix - matrix.transpose()).cwiseAbs().maxCoeff(), 0.1 * scale);
  EXPECT_LT((even - tests::matrix_of(elastic)).cwiseAbs().maxCoeff(), 1e-12 * scale);
  std::vector<double> unit(cells, 0.0);
  std::vector<double> column(cells);
  unit[31] = 1.0;
  compliance.apply_symmetric(unit, column);
  for (std::size_t i = 0; i < cells; ++i)
    EXPECT_NEAR(column[i], even(static_cast<Eigen::Index>(i), 31), 1e-12 * scale);
}

namespace {

/// Gap and pressure are nonnegative and one of them vanishes in every cell, to a measure.
void expect_complementary(LineCompliance& compliance, const Landscape& l,
                          const std::vector<double>& pressure, double measure) {
  std::vector<double> sunk(cells);
  compliance.apply(pressure, sunk);
  for (std::size_t i = 0; i < cells; ++i) {
    ASSERT_GE(pressure[i], 0.0);
    if (l.metal[i] == 0) {
      ASSERT_EQ(pressure[i], 0.0);
      continue;
    }
    const double gap = sunk[i] - l.overlap[i];
    ASSERT_GE(gap, -measure);
    ASSERT_LE(pressure[i] > 0.0 ? gap : 0.0, measure);
  }
}

}  // namespace

// Without symmetry there is no function to lower, yet the solution is unique (a P-matrix); loss
// factors up to 3, the most a case may give.
TEST(ContactSolver, SolvesLossyCoversOnRandomLandscapes) {
  for (const double tangent : {0.1, 0.5, 3.0}) {
    auto compliance = lossy(tests::belted_drum(40), tangent);
    for (unsigned seed = 0; seed < 40; ++seed) {
      const Landscape l = landscape(seed);
      std::vector<double> pressure(cells, 0.0);
      ContactSolver solver;
      const auto report =
          solver.solve(compliance, l.overlap, l.metal, no_give, pressure, {.gap = 1e-8});
      ASSERT_TRUE(report.converged) << tangent << " seed " << seed << " " << report.residual;
      expect_complementary(compliance, l, pressure, 2e-8);
    }
  }
}

// The fallback alone: forward-backward splitting contracts whatever the start, by 1 - 1/L^2 a step
// with L^2 = 1 + tan^2: some hundred steps at tan 1.
TEST(ContactSolver, ConvergesBySplittingAlone) {
  for (const double tangent : {0.1, 1.0}) {
    auto compliance = lossy(tests::belted_drum(40), tangent);
    for (unsigned seed = 0; seed < 10; ++seed) {
      const Landscape l = landscape(seed);
      std::vector<double> pressure(cells, 0.0);
      ContactSolver solver;
      const auto report = solver.solve(compliance, l.overlap, l.metal, no_give, pressure,
                                       {.gap = 1e-7, .free_steps = 0, .single_steps = 0});
      ASSERT_TRUE(report.converged) << tangent << " seed " << seed << " " << report.residual;
      expect_complementary(compliance, l, pressure, 2e-7);
    }
  }
}

// One cell at a time from the first step on: slower, and right.
TEST(ContactSolver, ConvergesLettingOneCellComeOrGoAtATime) {
  for (const double tangent : {0.0, 0.3}) {
    auto compliance = lossy(tests::belted_drum(40), tangent);
    for (unsigned seed = 0; seed < 20; ++seed) {
      const Landscape l = landscape(seed);
      std::vector<double> pressure(cells, 0.0);
      ContactSolver solver;
      const auto report =
          solver.solve(compliance, l.overlap, l.metal, no_give, pressure,
                       {.gap = 1e-8, .newton_steps = 1000, .free_steps = 0, .single_steps = 1000});
      ASSERT_TRUE(report.converged) << tangent << " seed " << seed << " " << report.residual;
      expect_complementary(compliance, l, pressure, 2e-8);
    }
  }
}

// From no pressure every overlapping cell is free, twice as many as end up pressed; each full step
// lets go of a share of what is too many. One cell at a time it would be hundreds of steps.
TEST(ContactSolver, LetsGoOfAWideGuessInFewSteps) {
  const auto station = tests::belted_drum(40);
  const sim::line::Drum drum(station, 0.5);
  const std::size_t many = 1601;
  const double fine = 0.02;
  LineCompliance compliance(drum.compliance(), fine, many, 320.0);
  std::vector<double> overlap(many);
  for (std::size_t i = 0; i < many; ++i)
    overlap[i] = 0.5 - drum.rise((static_cast<double>(i) - 800.0) * fine);
  const std::vector<std::uint8_t> metal(many, 1);
  std::vector<double> pressure(many, 0.0);
  const auto report =
      ContactSolver().solve(compliance, overlap, metal, no_give, pressure, {.gap = 5e-7});
  EXPECT_TRUE(report.converged);
  // Halving what is too many each time, 1601 cells take eleven steps; as many again at most.
  EXPECT_LE(report.newton_steps, 22);
}

// Worst of four thousand soft, lossy, moving drums drawn at random up to the speed that a case may
// have: a wave stands beside the nip there and cells come and go. A hundred steps at ten
// applications each would be 1000; the allowance is 50000.
TEST(ContactSolver, FollowsSoftCoversNearTheirCriticalSpeed) {
  struct Setting {
    double radius, thickness, modulus, poisson, speed, interference, loss, bending, tension;
  };
  for (const Setting& s :
       {Setting{197.0, 10.86, 0.5239, 0.4718, 15926, 0.1395, 0.0235, 6.791, 0.09},
        Setting{79.7, 7.55, 0.5180, 0.4896, 15591, 0.1470, 0.0482, 1.178, 0.59},
        Setting{66.8, 25.32, 0.4560, 0.4736, 16049, 0.4547, 0.0524, 0.142, 1.05},
        Setting{51.5, 29.24, 0.6254, 0.4760, 10916, 1.1102, 0.4708, 2.432, 1.54}}) {
    auto station = tests::moving_drum(20);
    station.radius = s.radius;
    station.cover = {.thickness = s.thickness, .modulus = s.modulus, .poisson_ratio = s.poisson};
    station.belt_speed = station.sliding_speed = s.speed;
    station.relaxation = models::ConstantLoss{s.loss};
    station.belt.bending_stiffness = s.bending;
    station.belt.tension = s.tension;
    const sim::line::Drum drum(station, s.interference);
    const double half = 1.3 * std::sqrt(2.0 * s.radius * s.interference) + 1.0;
    const std::size_t many = 801;
    const double fine = half / 400.0;
    LineCompliance compliance(drum.compliance(), fine, many,
                              sim::line::response_window(station, {}));
    std::vector<double> overlap(many);
    for (std::size_t i = 0; i < many; ++i)
      overlap[i] = s.interference - drum.rise((static_cast<double>(i) - 400.0) * fine);
    const std::vector<std::uint8_t> metal(many, 1);
    std::vector<double> pressure(many, 0.0);
    const auto report = ContactSolver().solve(compliance, overlap, metal, no_give, pressure,
                                              {.gap = 1e-6 * s.interference});
    EXPECT_TRUE(report.converged) << s.speed << " " << report.residual;
    EXPECT_LE(report.applications, 2000) << s.speed;
  }
}

// Some ten applications a Newton step: an allowance of thirty ends it early, in splitting, too.
TEST(ContactSolver, EndsWhenItsAllowanceOfApplicationsIsUsedUp) {
  for (const int free_steps : {0, 8}) {
    auto compliance = lossy(tests::belted_drum(40), 1.0);
    const Landscape l = landscape(3);
    std::vector<double> pressure(cells, 0.0);
    const auto report = ContactSolver().solve(
        compliance, l.overlap, l.metal, no_give, pressure,
        {.gap = 1e-8, .free_steps = free_steps, .single_steps = 0, .applications = 30});
    EXPECT_FALSE(report.converged);
    // Looked at between Newton steps, one of which takes two applications per gradient step and
    // twenty for its length at most.
    EXPECT_LE(report.applications, 30 + 2 * 400 + 22);
  }
}

TEST(ContactSolver, DoesNotTakeNotANumberForSolved) {
  for (const double tangent : {0.0, 0.3}) {
    auto compliance = lossy(tests::belted_drum(40), tangent);
    Landscape l = landscape(3);
    l.metal[50] = 1;
    l.overlap[50] = std::nan("");
    std::vector<double> pressure(cells, 0.0);
    const auto report =
        ContactSolver().solve(compliance, l.overlap, l.metal, no_give, pressure, {.gap = 1e-8});
    EXPECT_FALSE(report.converged);
  }
}
