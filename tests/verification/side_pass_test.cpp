// Edges along the feed: a nip taken apart into the plain nip along the feed and a contact across
// the edge. Against closed forms, and against a contact solved in both directions at once.

#include "sim/line/side_pass.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "models/belt/tensioned_plate.hpp"
#include "sim/line/edge_shape.hpp"
#include "sim/line/side_compliance.hpp"
#include "sim/numerics/contact_solver.hpp"
#include "tests/support/both_ways.hpp"
#include "tests/support/stations.hpp"

using namespace drumlin;

namespace {

constexpr double interference = 0.3;

cases::Part part_with(cases::FeatureKind kind, double size, double width = 300.0,
                      const models::AnyBurr& burr = models::NoBurr{}) {
  cases::Part part;
  part.thickness = 1.5;
  part.width = width;
  part.length = 400.0;
  part.features.push_back(
      {.name = "edge", .kind = kind, .size = size, .side = cases::Side::side, .burr = burr});
  return part;
}
cases::Part outer(double width = 300.0, const models::AnyBurr& burr = models::NoBurr{}) {
  return part_with(cases::FeatureKind::outer_edge, 0.0, width, burr);
}

struct Pass {
  sim::line::PlainPass plain;
  sim::line::Strip strip;
  [[nodiscard]] double drop(std::size_t edge = 0) const {
    return sim::line::edge_shape(strip, strip.edges[edge], plain.removal, false).drop;
  }
};

/// A drum at 0.3 mm over a strip.
Pass pass_over_side(const sim::BeltSetup& station, sim::line::Strip strip,
                    const sim::line::PlainFace& face = {}, int steps = sim::line::side_steps,
                    const sim::line::OnSideStep& on_step = {}) {
  const sim::line::Drum drum(station, interference);
  Pass pass{tests::plain_pass_of(station, interference, face), {}};
  std::vector<sim::line::Strip> sides{std::move(strip)};
  sim::line::pass_sides(drum, face, pass.plain, interference, sides, steps, on_step);
  pass.strip = std::move(sides.front());
  return pass;
}
Pass pass_over_side(const sim::BeltSetup& station, const cases::Part& part,
                    const sim::line::Fineness& fineness = {}, int steps = sim::line::side_steps) {
  return pass_over_side(
      station, sim::line::unworn_sides(part, fineness, sim::FaceSide::burrs).front(), {}, steps);
}

sim::BeltSetup unworn(sim::BeltSetup station) {
  station.substrate.law = models::Preston{.coefficient = 0.0, .threshold = 0.0};
  station.coating = station.top = station.substrate;
  return station;
}
/// The stations of the support have no layer over a coating.
sim::BeltSetup with_top(sim::BeltSetup station) {
  station.top = station.coating;
  return station;
}

/// A semi-ellipse of half-width a on even places.
std::vector<double> ellipse(double a, double spacing) {
  std::vector<double> p;
  for (double x = -a + 0.5 * spacing; x < a; x += spacing)
    p.push_back(std::sqrt(std::max(1.0 - x * x / (a * a), 0.0)));
  return p;
}

}  // namespace

// |g^|^2 of a semi-ellipse is (J1(q a) / q)^2: integrated here with the bonded layer's own closed
// form, to q a = 200. The law's eight points a lobe leave 0.5 % at q_y = 0, where C varies most.
TEST(SideCompliance, IsTheProjectionOnTheNipsOwnProfile) {
  const auto station = tests::bare_drum(20);
  const double a = 6.0;
  const auto g = ellipse(a, 0.02);
  const auto law = sim::line::SideCompliance(station, interference).under({0.02, g});
  for (const double qy : {0.0, 0.05, 0.2, 1.0, 5.0}) {
    double sum = 0.0;
    double all = 0.0;
    const double step = 0.02 / a;
    for (double qx = 0.5 * step; qx < 200.0 / a; qx += step) {
      const double weight = std::pow(std::cyl_bessel_j(1.0, qx * a) / qx, 2);
      sum += weight * models::surface_compliance(station.cover, std::hypot(qx, qy));
      all += weight;
    }
    EXPECT_NEAR(law(qy).real() / (sum / all), 1.0, qy > 0.0 ? 1e-3 : 6e-3) << qy;
  }
}

// Waves far shorter than the nip are plane strain across the edge: 2 / (E* q), with the belt's
// bending 1 / (D q^4), which tension along the feed does not touch.
TEST(SideCompliance, IsPlaneStrainForWavesShorterThanTheNip) {
  auto station = tests::bare_drum(20);
  const auto g = ellipse(6.0, 0.02);
  const double q = 30.0;
  const double cover = models::surface_compliance(station.cover, q);
  EXPECT_NEAR(sim::line::SideCompliance(station, interference).under({0.02, g})(q).real() / cover,
              1.0, 1e-3);
  station.belt = {.bending_stiffness = 0.5, .tension = 20.0, .grain_compliance = 0.0};
  const models::TensionedPlate slack{.bending_stiffness = 0.5, .tension = 0, .grain_compliance = 0};
  EXPECT_NEAR(sim::line::SideCompliance(station, interference).under({0.02, g})(q).real() /
                  models::combined_compliance(slack, q, cover),
              1.0, 1e-3);
}

// A cover that moves and keeps its modulus gives more only to waves along the feed: across them it
// is at rest, C as of the static cover.
TEST(SideCompliance, SeesTheSpeedOnlyAlongTheFeed) {
  auto moving = tests::moving_drum(20);
  moving.options = {.curved = false, .moving = true, .gripped = false, .finite_strain = false};
  moving.relaxation = models::RateIndependent{};
  moving.belt = {.bending_stiffness = 0.0, .tension = 0.0, .grain_compliance = 0.0};
  auto still = moving;
  still.options.moving = false;
  const auto g = ellipse(6.0, 0.02);
  const auto fast = sim::line::SideCompliance(moving, interference).under({0.02, g});
  const auto slow = sim::line::SideCompliance(still, interference).under({0.02, g});
  EXPECT_GT(fast(0.0).real(), 1.05 * slow(0.0).real());
  EXPECT_NEAR(fast(50.0).real() / slow(50.0).real(), 1.0, 2e-3);
}

// No edge: each column loses what the plain pass takes; steps of a mean pressure against cells of
// their own agree to 3e-4 of it.
TEST(SidePass, TakesThePlainRemovalWhereThereIsNoEdge) {
  for (const auto& station : {with_top(tests::belted_drum(20)), with_top(tests::moving_drum(40))}) {
    auto strip = tests::plain_strip(1, 1.0);
    strip.cells = sim::line::graded_cells(0.05, -1000, 1000, {0}, 20, 0.25, 40);
    const std::size_t n = strip.cells.size();
    for (auto* values : {&strip.height, &strip.burr, &strip.top, &strip.coating})
      values->assign(n, 0.0);
    strip.metal.assign(n, 1);
    strip.lip.assign(n, 0);
    const Pass pass = pass_over_side(station, strip);
    for (std::size_t i = 0; i < n; ++i)
      EXPECT_NEAR(-pass.strip.height[i] / pass.plain.removal, 1.0, 3e-4);
  }
}

// A blank far narrower than nip and cover, under a bare drum without wear, is a flat punch:
// p = P / (pi sqrt(b^2 - y^2)), 1 / (pi b) of P in the middle. A twentieth of a cover wide, with
// cells of a hundredth of its half-width at the edges and a fifth in the middle: 2 %.
TEST(SidePass, PressesANarrowBlankAsAFlatPunch) {
  const auto station = unworn(tests::bare_drum(20));
  const double b = 0.4;
  const auto strip =
      sim::line::unworn_sides(outer(2.0 * b), {.resolution = 0.004}, sim::FaceSide::burrs).front();
  double worst = 0.0;
  int steps = 0;
  const auto look = [&](const sim::line::Strip& seen, const sim::line::SideStep& step) {
    ++steps;
    double force = 0.0;
    for (std::size_t i = 0; i < seen.size(); ++i)
      force += step.pressure[i] * seen.width(i);
    for (std::size_t i = 0; i < seen.size(); ++i) {
      const double y = seen.x(i) - b;  // from the middle
      if (std::abs(y) > 0.9 * b) continue;
      const double punch = force / (std::numbers::pi * std::sqrt(b * b - y * y));
      worst = std::max(worst, std::abs(step.pressure[i] / punch - 1.0));
    }
  };
  (void)pass_over_side(station, strip, {}, 10, look);
  EXPECT_EQ(steps, 10);
  EXPECT_LT(worst, 0.02);
}

namespace {

/// A contact solved in both directions at once, on a grid of 0.25 mm.
class Judge {
 public:
  static constexpr double spacing = 0.25;
  static constexpr std::size_t columns = 320;
  static constexpr std::size_t rows = 400;

  explicit Judge(const sim::BeltSetup& station)
      : station_(station),
        compliance_(
            [&station](double qx, double qy) {
              const models::TensionedPlate& belt = station.belt;
              const double q = std::hypot(qx, qy);
              const double plate = belt.bending_stiffness * std::pow(q, 4) + belt.tension * qx * qx;
              return 1.0 / (plate + 1.0 / models::surface_compliance(station.cover, q)) +
                     belt.grain_compliance;
            },
            columns, rows, spacing) {}

  [[nodiscard]] static double x(std::size_t cell) {
    return spacing * (static_cast<double>(cell % columns) - 0.5 * columns + 0.5);
  }
  [[nodiscard]] static double y(std::size_t cell) {
    return spacing * (static_cast<double>(cell / columns) - 0.5 * rows + 0.5);
  }
  /// Pressure per cell, row = y; metal(x, y) says where there is some.
  template <class Metal>
  std::vector<double> press(const Metal& metal) {
    std::vector<double> overlap(columns * rows);
    std::vector<std::uint8_t> there(columns * rows, 0);
    std::vector<double> pressure(columns * rows, 0.0);
    for (std::size_t k = 0; k < overlap.size(); ++k) {
      overlap[k] = interference - x(k) * x(k) / (2.0 * station_.radius);
      there[k] = std::abs(x(k)) < 15.0 && metal(x(k), y(k)) ? 1 : 0;
    }
    sim::ContactSolver solver;
    const auto none = [](std::size_t, double) { return sim::LocalGive{0.0, 0.0}; };
    const auto report = solver.solve(compliance_, overlap, there, none, pressure, {.gap = 1e-5});
    EXPECT_TRUE(report.converged);
    return pressure;
  }

 private:
  const sim::BeltSetup& station_;
  tests::BothWays compliance_;
};

/// Load per cell of a side strip over the plain load, and mean over a stretch from its edge.
struct Loads {
  sim::line::Strip strip;
  std::vector<double> ratio;
  [[nodiscard]] double at_edge() const { return ratio[strip.edges.front().cell]; }
  [[nodiscard]] double within(double length) const {
    double sum = 0.0;
    const double line = strip.line(strip.edges.front());
    for (std::size_t i = strip.edges.front().cell; strip.x(i) < line + length; ++i)
      sum += ratio[i] * strip.width(i);
    return sum;
  }
};
Loads loads_beside(const sim::BeltSetup& station, const cases::Part& part) {
  Loads loads{
      sim::line::unworn_sides(part, {.resolution = Judge::spacing}, sim::FaceSide::burrs).front(),
      {}};
  loads.ratio.assign(loads.strip.size(), 0.0);
  double far = 0.0;
  (void)pass_over_side(station, loads.strip, {}, sim::line::side_steps,
                       [&](const sim::line::Strip&, const sim::line::SideStep& step) {
                         for (std::size_t i = 0; i < loads.ratio.size(); ++i)
                           loads.ratio[i] += step.pressure[i];
                         far += step.plain_pressure;
                       });
  for (double& value : loads.ratio)
    value /= far;
  return loads;
}

}  // namespace

// Load along a straight edge against the plain one. The edge's own cell carries fifteen times as
// much, then the belt stands off for over a millimetre. What the separation leaves out is a few per
// cent: 4 % on the first cell, and on the load of the first 4 mm together.
TEST(SidePass, AgreesWithAContactSolvedBothWays) {
  const auto station = unworn(tests::belted_drum(20));
  Judge judge(station);
  const auto load_of_row = [](const std::vector<double>& pressure, std::size_t row) {
    double sum = 0.0;
    for (std::size_t i = 0; i < Judge::columns; ++i)
      sum += pressure[row * Judge::columns + i];
    return sum;
  };
  const double plain = load_of_row(judge.press([](double, double) { return true; }), 0);
  const auto pressure = judge.press([](double, double y) { return y > 0.0; });
  const std::size_t first = Judge::rows / 2;
  const auto loads = loads_beside(station, outer(0.5 * Judge::spacing * Judge::rows));
  EXPECT_NEAR(loads.at_edge() / (load_of_row(pressure, first) / plain), 1.0, 0.04);
  double near = 0.0;
  for (std::size_t j = first; j < first + 16; ++j)
    near += load_of_row(pressure, j) / plain * Judge::spacing;
  EXPECT_NEAR(loads.within(4.0) / near, 1.0, 0.04);
}

// At the rim of a round hole, across from its middle: shown half as wide as it is, it takes up to a
// quarter more than in truth; an endless opening of the full width would take half as much again.
TEST(SidePass, TakesTheRimOfARoundHoleForSlightlyMoreThanItIs) {
  const auto station = unworn(tests::belted_drum(20));
  Judge judge(station);
  const double size = 6.0;
  const auto pressure =
      judge.press([&](double x, double y) { return std::hypot(x, y) > 0.5 * size; });
  const std::size_t middle = Judge::columns / 2;
  const double plain = pressure[middle];  // as far from the hole as there is room
  const auto rim = static_cast<std::size_t>(Judge::rows / 2 + 0.5 * size / Judge::spacing);
  const double judged = pressure[rim * Judge::columns + middle] / plain;
  const double model = loads_beside(station, part_with(cases::FeatureKind::hole, size)).at_edge();
  EXPECT_GT(model, judged);
  EXPECT_LT(model, 1.25 * judged);
}

// Eighty steps leave less than 1 % of the drop; the error falls with the first order of the stride
// on the whole (which stride meets the nip's end how makes it uneven).
TEST(SidePass, ConvergesWithTheFirstOrderOfTheStride) {
  const auto station = with_top(tests::belted_drum(20));
  const auto drop = [&](int steps) { return pass_over_side(station, outer(), {}, steps).drop(); };
  const double best = drop(1280);
  const auto error = [&](int steps) { return std::abs(drop(steps) - best); };
  EXPECT_LT(error(80), 0.01 * best);
  const double order = std::log2(error(10) / error(160)) / 4.0;
  EXPECT_GT(order, 0.8);
  EXPECT_LT(order, 1.7);
}

// With a belt the length (D c_g)^(1/4) = 0.15 mm is all that cells must resolve.
TEST(SidePass, HardlyDependsOnTheCells) {
  const auto station = with_top(tests::belted_drum(20));
  const auto drop = [&](double cell) {
    return pass_over_side(station, outer(), {.resolution = cell}).drop();
  };
  const double best = drop(0.0025);
  EXPECT_NEAR(drop(0.005) / best, 1.0, 5e-4);
  EXPECT_NEAR(drop(0.010) / best, 1.0, 1e-3);
  EXPECT_NEAR(drop(0.040) / best, 1.0, 1e-2);
}

// Both rims of a hole, and both sides of a narrow part, are mirror images.
TEST(SidePass, WearsBothRimsAlike) {
  const auto station = with_top(tests::belted_drum(20));
  const models::WallBurr wall{.height = 0.10, .root = 0.12, .taper = 0, .flow_stress = 300};
  for (const auto& part :
       {part_with(cases::FeatureKind::hole, 6.0, 300.0, wall), outer(20.0, wall)}) {
    const Pass pass = pass_over_side(station, part);
    ASSERT_EQ(pass.strip.edges.size(), 2U);
    // The solver's gap error of 1e-6 of the overlap, over 80 steps.
    EXPECT_NEAR(pass.drop(1) / pass.drop(0), 1.0, 1e-3);
    EXPECT_NEAR(pass.strip.edges[1].peak_pressure / pass.strip.edges[0].peak_pressure, 1.0, 1e-3);
  }
}

// The wider the opening, the more load its rim takes over, until the belt has room to hang: an
// outer edge takes more than the rim of a hole of half a cover.
TEST(SidePass, ShedsMoreOntoTheRimOfAWiderOpening) {
  const auto station = with_top(tests::belted_drum(20));
  double last = 0.0;
  for (const double size : {2.0, 4.0, 8.0, 16.0}) {
    const double drop = pass_over_side(station, part_with(cases::FeatureKind::hole, size)).drop();
    EXPECT_GT(drop, 1.1 * last) << size;
    last = drop;
  }
  EXPECT_GT(pass_over_side(station, outer()).drop(),
            pass_over_side(station, part_with(cases::FeatureKind::hole, 7.5)).drop());
}

// How much air and metal a strip shows does not matter: a part of 150 mm is cut with both its
// sides, one of 170 mm with one.
TEST(SidePass, HardlyDependsOnWhereAStripEnds) {
  const auto station = with_top(tests::belted_drum(20));
  EXPECT_NEAR(
      pass_over_side(station, outer(150.0)).drop() / pass_over_side(station, outer(170.0)).drop(),
      1.0, 0.01);
}

// Top layer, coating and base go in that order, each at its own rate, and what a column loses in
// height it loses in layers.
TEST(SidePass, TakesLayersFromTheTopDown) {
  auto station = with_top(tests::belted_drum(20));
  station.top.law = models::Preston{.coefficient = 2e-4, .threshold = 0.0};
  auto part = outer();
  part.coating.emplace();
  part.coating->thickness = 0.010;
  part.coating->top = cases::TopLayer{.material = {}, .thickness = 0.004};
  const sim::line::PlainFace face{.removed = 0.0, .coating = 0.010, .top = 0.004};
  const Pass pass = pass_over_side(
      station, sim::line::unworn_sides(part, {}, sim::FaceSide::burrs).front(), face);
  for (std::size_t i = 0; i < pass.strip.size(); ++i) {
    if (pass.strip.metal[i] == 0) continue;
    const double lost = -pass.strip.height[i];
    EXPECT_NEAR(pass.strip.top[i], std::max(0.004 - lost, 0.0), 1e-12);
    EXPECT_NEAR(pass.strip.coating[i], std::clamp(0.014 - lost, 0.0, 0.010), 1e-12);
  }
}

// What stands high is met before the nip comes to the face, and a softer burr goes faster.
TEST(SidePass, GrindsBurrsAndTheSofterOnesFaster) {
  const auto station = with_top(tests::belted_drum(20));
  const models::WallBurr wall{.height = 0.15, .root = 0.15, .taper = 0, .flow_stress = 300};
  auto strip = sim::line::unworn_sides(outer(300.0, wall), {}, sim::FaceSide::burrs).front();
  double first_touch = 0.0;
  double first_face = 0.0;
  const auto look = [&](const sim::line::Strip&, const sim::line::SideStep& step) {
    const bool touched = *std::max_element(step.pressure.begin(), step.pressure.end()) > 0.0;
    if (touched && first_touch == 0.0) first_touch = step.offset;
    if (step.plain_pressure > 0.0 && first_face == 0.0) first_face = step.offset;
  };
  const Pass hard = pass_over_side(station, strip, {}, sim::line::side_steps, look);
  EXPECT_LT(first_touch, first_face - 0.2);
  strip.edges.front().ease = 3.0;
  const Pass soft = pass_over_side(station, strip);
  const auto left = [](const Pass& pass) { return pass.strip.height[pass.strip.edges[0].cell]; };
  EXPECT_LT(left(soft), left(hard));
  EXPECT_LT(left(hard), 0.15);
  EXPECT_GT(hard.strip.edges[0].peak_force, 0.0);
}

// A drum that does not reach the face leaves the sides as they are.
TEST(SidePass, DoesNothingWithoutContact) {
  const auto station = with_top(tests::belted_drum(20));
  const sim::line::Drum drum(station, 0.0);
  auto sides = sim::line::unworn_sides(outer(), {}, sim::FaceSide::burrs);
  sim::line::pass_sides(drum, {}, tests::plain_pass_of(station, 0.0), 0.0, sides);
  EXPECT_TRUE(std::all_of(sides[0].height.begin(), sides[0].height.end(),
                          [](double z) { return z == 0.0; }));
}
