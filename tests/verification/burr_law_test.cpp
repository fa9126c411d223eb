#include "sim/fast/burr_law.hpp"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "models/elastomer/bonded_layer.hpp"
#include "sim/fast/drums.hpp"
#include "sim/fast/edge_pass.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;
using namespace sim::fast;

namespace {

/// A burr of a given root on a plain face, in cells that widen away from it on both sides.
Section burr_on_face(double height, double root) {
  Section section;
  std::vector<double> ends = {0.0};
  double width = root / 16.0;
  while (ends.back() < 30.0) {
    ends.push_back(ends.back() + width);
    if (ends.back() > 1.2 * root) width = std::min(1.15 * width, 0.7);
  }
  for (std::size_t i = ends.size() - 1; i > 0; --i) {
    section.from.push_back(-ends[i]);
    section.to.push_back(-ends[i - 1]);
  }
  for (std::size_t i = 1; i < ends.size(); ++i) {
    section.from.push_back(ends[i - 1]);
    section.to.push_back(ends[i]);
  }
  for (std::size_t i = 0; i < section.from.size(); ++i) {
    const bool burr = std::abs(0.5 * (section.from[i] + section.to[i])) < 0.5 * root;
    section.height.push_back(burr ? height : 0.0);
  }
  section.burr.assign(section.height.size(), 0.0);
  section.coating = section.burr;
  section.top = section.burr;
  section.name = "burr on a face";
  return section;
}

struct Pressed {
  double force = 0;       ///< on the burr
  double background = 0;  ///< of the same nip without it
  double modulus = 0;     ///< E*
};

/// A small burr in the middle of a wide nip over a thick cover.
Pressed press(double bending, double height, double root) {
  auto station = tests::bare_drum(40);
  station.cover.thickness = 200.0;
  station.radius = 250.0;
  station.belt = {.bending_stiffness = bending, .tension = 0.0, .grain_compliance = 0.0};
  if (bending > 0.0) station.belt.grain_compliance = 1e-4;  // 0.2 % of the height at 3 MPa
  const double depth = 4.0;
  Drums drums;
  Drum& drum = drums.of(0, station, depth);
  const Abrasion abrasion = abrasion_of(station);
  const auto centre_force = [&](double h) {
    const Section section = burr_on_face(h, root);
    EdgePass pass(drum.pairs(section), drum.law, abrasion, section);
    const auto& p = pass.press(section, depth, 0.0);
    double force = 0.0;
    for (std::size_t i = 0; i < section.size(); ++i) {
      if (std::abs(section.x(i)) < 0.5 * root)
        force += p(static_cast<Eigen::Index>(i)) * (section.to[i] - section.from[i]);
    }
    return force;
  };
  return {centre_force(height), centre_force(0.0) / root,
          models::plane_strain_modulus(station.cover)};
}

}  // namespace

// The formula put into itself: h = (2 p c / E*)(ln(8 c / w) - 1), F = pi p c.
TEST(BurrLaw, SolvesItsOwnEquation) {
  for (const double height : {0.005, 0.05, 0.5}) {
    const BurrGround ground{.pressure = 0.1, .plane_strain_modulus = 1.5};
    const auto burr = burr_on_cover(ground, height, 0.15);
    const double c = burr.half_gap;
    EXPECT_NEAR(2.0 * 0.1 * c / 1.5 * (std::log(8.0 * c / 0.15) - 1.0) / height, 1.0, 1e-12);
    EXPECT_DOUBLE_EQ(burr.force, std::numbers::pi * 0.1 * c);
  }
}

// Pressure and modulus count as p / E* only, lengths scale along: both sizes double with h and w.
TEST(BurrLaw, FollowsItsDimensions) {
  const auto one = burr_on_cover({.pressure = 0.1, .plane_strain_modulus = 1.5}, 0.05, 0.1);
  const auto two = burr_on_cover({.pressure = 0.7, .plane_strain_modulus = 10.5}, 0.1, 0.2);
  EXPECT_NEAR(two.half_gap / one.half_gap, 2.0, 1e-12);
  EXPECT_NEAR(two.force / one.force, 14.0, 1e-11);
}

// The closed form is for a burr much smaller than the nip: half-gaps of 0.3 to 1.1 mm in a nip of
// 22 mm half width. It takes the burr's force as that of a flat punch and neglects p w on it; 3 %.
TEST(BurrLaw, AgreesWithTheExactSmallSolveWithoutBelt) {
  for (const double height : {0.04, 0.1, 0.2}) {
    const double root = 0.1;
    const Pressed exact = press(0.0, height, root);
    const auto law = burr_on_cover(
        {.pressure = exact.background, .plane_strain_modulus = exact.modulus}, height, root);
    EXPECT_NEAR(law.force / exact.force, 1.0, 0.03) << height;
  }
}

// 10 % is what the closed form claims for D 0.5 to 50.
TEST(BurrLaw, AgreesWithTheExactSmallSolveUnderABendingBelt) {
  for (const double bending : {0.5, 5.0, 50.0}) {
    const double height = 0.2;
    const Pressed exact = press(bending, height, 0.1);
    const auto law = burr_under_belt(
        {.pressure = exact.background, .plane_strain_modulus = exact.modulus}, height, bending);
    EXPECT_NEAR(law.force / exact.force, 1.0, 0.12) << bending;
  }
}
