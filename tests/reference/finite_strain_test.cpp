#include "models/elastomer/finite_strain.hpp"

#include <cmath>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/reference/half_cover.hpp"
#include "tests/reference/with_calculix.hpp"

using namespace drumlin;
using namespace drumlin::reference;

namespace {

struct FiniteStrain : WithCalculix {};

/// Nominal stress of a layer that is pressed flat to the stretch L and cannot widen: the slope of
/// W = G/2 (J^(-2/3) (2 + L^2) - 3) + K/2 (J - 1)^2 with J = L.
double constrained_stress(double modulus, double nu, double stretch) {
  const double shear = modulus / (2.0 * (1.0 + nu));
  const double bulk = modulus / (3.0 * (1.0 - 2.0 * nu));
  const double by_shape = 2.0 * std::cbrt(stretch) -
                          2.0 / 3.0 * std::pow(stretch, -5.0 / 3.0) * (2.0 + stretch * stretch);
  return 0.5 * shear * by_shape + bulk * (stretch - 1.0);
}

}  // namespace

// What CalculiX takes for neo-Hookean is what the theory page says, and E and nu are its small
// strains. Seven digits of each node are printed: 1e-5 of their sum.
TEST_F(FiniteStrain, FollowsTheStatedEnergyWhenPressedFlat) {
  const CoverMesh mesh = cover_mesh({0.0, 5.0, 10.0}, {0.0, 5.0, 10.0}, 0.0);
  const Material material{.modulus = 2.0, .poisson_ratio = 0.47, .finite_strain = true};
  for (const double depth : {1e-3, 0.1, 0.25}) {
    const auto state = press(mesh, material, std::vector<bool>(mesh.surface.size(), true),
                             std::vector<double>(mesh.surface.size(), 10.0 * depth), 4);
    double load = 0.0;
    for (const double f : state.force)
      load += f;
    const double expected = -10.0 * constrained_stress(2.0, 0.47, 1.0 - depth);
    EXPECT_NEAR(load / expected, 1.0, 1e-5) << depth;
  }
}

// At a thousandth of the cover's thickness hardly anything is finite: the law's own d sqrt(d) has
// 3.5e-4 left there.
TEST_F(FiniteStrain, FadesInShallowContact) {
  EXPECT_NEAR(finite_strain_ratio({.thickness = 15.0, .interference = 0.015, .elements = 20}, 0.45),
              1.0, 5e-4);
}

// Live runs at points that the law was not fitted to. It keeps within 0.71 % of the points that it
// was fitted to and is as smooth as they are; the mesh here is good for 0.05 %. Seen: 0.5 % at
// most.
TEST_F(FiniteStrain, LawHoldsBetweenThePointsItWasFittedTo) {
  struct Point {
    double depth, poisson_ratio, slenderness;
  };
  for (const Point& p :
       {Point{0.035, 0.46, 6.0}, Point{0.075, 0.48, 8.5}, Point{0.125, 0.455, 6.67},
        Point{0.175, 0.48, 6.0}, Point{0.22, 0.46, 8.5}, Point{0.06, 0.495, 6.67}}) {
    const double thickness = 100.0 / p.slenderness;
    const double ratio = finite_strain_ratio(
        {.thickness = thickness, .interference = p.depth * thickness, .elements = 20},
        p.poisson_ratio);
    const double law = models::finite_strain_factor(p.depth, p.poisson_ratio, p.slenderness);
    EXPECT_NEAR(law / ratio, 1.0, 8e-3)
        << fmt::format("depth {} nu {} R/t {}", p.depth, p.poisson_ratio, p.slenderness);
  }
}
