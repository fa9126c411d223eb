#include "sim/fold_map.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "models/burr/fold.hpp"
#include "tests/support/fast_cases.hpp"

using namespace drumlin;
using cases::Side;
using sim::FoldMap;
using tests::belt_line;
using tests::outer_edge;

namespace {

constexpr models::WallBurr feather{.height = 0.12, .root = 0.02, .taper = 0, .flow_stress = 220};

/// A drum that presses but hardly wears: a burr meets the law at its full height.
sim::Setup pressing(double spacing) {
  auto station = tests::belted_drum(40);
  station.grain_spacing = spacing;
  station.substrate.law = models::Preston{1e-8, 0.0};
  station.coating = station.substrate;
  return belt_line(station, {outer_edge("front", Side::leading, feather)});
}

/// Highest force on a burr that cannot fold [N/mm].
double force_on(sim::Setup setup, double height, double root, sim::fast::Drums& drums) {
  setup.scenario.part.features[0].burr =
      models::WallBurr{.height = height, .root = root, .taper = 0, .flow_stress = 1e12};
  return sim::fast::simulate(setup, drums).last[0].part.burrs.sections[0].rims[0].peak_force;
}

/// Asks of every point of a map what the law asks by hand, k_g mu f h / M_p, against what it shows.
/// The centroid of the pressure lies within a third of the root from the hinge, which adds at most
/// t / (3 mu h) either way; force and map may differ by a step, 3 %.
void expect_the_law(const FoldMap& map, double spacing) {
  sim::fast::Drums drums;
  int folded = 0;
  for (std::size_t i = 0; i < map.height.size(); i += 3) {
    for (std::size_t j = 0; j < map.root.size(); ++j) {
      const double h = map.height[i];
      const double t = map.root[j];
      const double concentrated = std::max(1.0, spacing * spacing / (2.0 * h * t));
      const double asked = concentrated * 0.4 * force_on(pressing(spacing), h, t, drums) * h /
                           models::plastic_moment(220, t);
      const double slack = t / (3.0 * 0.4 * h) + 0.03;
      const bool folds = map.outcome[i * map.root.size() + j] == FoldMap::Outcome::folds;
      folded += folds ? 1 : 0;
      if (h <= 0.5 * t) {
        EXPECT_FALSE(folds) << h << " " << t;
      } else if (asked > 1.0 + slack) {
        EXPECT_TRUE(folds) << h << " " << t << " asks " << asked;
      } else if (asked < 1.0 - slack) {
        EXPECT_FALSE(folds) << h << " " << t << " asks " << asked;
      }
    }
  }
  EXPECT_GT(folded, 10);
}

}  // namespace

// Force spread evenly: mu f h = M_p along the border, so its root grows as sqrt(f h).
TEST(FoldMap, FollowsTheHingeLawWithEvenForce) {
  const auto map = sim::study_folding(pressing(0.0));
  ASSERT_TRUE(map);
  expect_the_law(*map, 0.0);
}

// Through single grains k_g = s^2 / (2 h t): twice the spacing moves the border as that says.
TEST(FoldMap, FollowsTheHingeLawThroughSingleGrains) {
  for (const double spacing : {0.15, 0.3}) {
    const auto map = sim::study_folding(pressing(spacing));
    ASSERT_TRUE(map);
    expect_the_law(*map, spacing);
  }
}

// Whoever reads the map finds the case's burr on it, and at the case's height both sides of the
// border.
TEST(FoldMap, HoldsTheCasesBurrAndTheBorder) {
  for (const double root : {0.01, 0.02, 0.15}) {
    auto setup = pressing(0.3);
    auto burr = feather;
    burr.root = root;
    setup.scenario.part.features = {outer_edge("front", Side::leading, burr)};
    const auto map = sim::study_folding(setup);
    ASSERT_TRUE(map);
    EXPECT_EQ(map->case_root.value(), root);
    EXPECT_GT(root, map->root.front());
    EXPECT_LT(root, map->root.back());
    EXPECT_GT(0.12, map->height.front());
    EXPECT_LT(0.12, map->height.back());
    ASSERT_EQ(map->outcome.size(), map->height.size() * map->root.size());
    const auto row = static_cast<std::size_t>(
        std::lower_bound(map->height.begin(), map->height.end(), 0.12) - map->height.begin());
    EXPECT_EQ(map->outcome[row * map->root.size()], FoldMap::Outcome::folds);
    EXPECT_NE(map->outcome[(row + 1) * map->root.size() - 1], FoldMap::Outcome::folds);
  }
}

// A grinding drum: thin roots fold, thick ones are cut, and only what folds has a secondary burr.
TEST(FoldMap, CutsThickRootsAndFoldsThinOnes) {
  auto station = tests::belted_drum(40);
  station.grain_spacing = 0.3;
  const auto map =
      sim::study_folding(belt_line(station, {outer_edge("front", Side::leading, feather)}));
  ASSERT_TRUE(map);
  EXPECT_EQ(map->edge, "front");
  const std::size_t n = map->root.size();
  for (std::size_t i = 0; i < map->height.size(); ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      const bool folds = map->outcome[i * n + j] == FoldMap::Outcome::folds;
      EXPECT_EQ(folds, map->secondary_burr[i * n + j] > 0.0) << i << " " << j;
      if (j > 0 && folds) {
        EXPECT_EQ(map->outcome[i * n + j - 1], FoldMap::Outcome::folds) << i << " " << j;
      }
    }
  }
}

// A set line load is where the drum stands, not what every burr of the map finds anew.
TEST(FoldMap, IsTheSameForALineLoadAndForItsInterference) {
  auto by_load = pressing(0.3);
  by_load.belt(0).setting = cases::LineLoadSetting{1.5};
  sim::fast::Drums drums;
  const double depth = sim::fast::simulate(by_load, drums).first[0]->effective_interference;
  auto by_depth = by_load;
  by_depth.belt(0).setting = cases::InterferenceSetting{depth};
  EXPECT_EQ(sim::study_folding(by_load)->burr_left, sim::study_folding(by_depth)->burr_left);
}

// Turned by a quarter a part's side leads: its map is that of a leading edge.
TEST(FoldMap, WatchesTheEdgeThatIsPushedOverAsFed) {
  auto turned = pressing(0.3);
  turned.scenario.part.features = {outer_edge("flank", Side::side, feather)};
  turned.scenario.part.angle = 0.5 * std::numbers::pi;
  const auto map = sim::study_folding(turned);
  ASSERT_TRUE(map);
  EXPECT_EQ(map->edge, "flank");
  EXPECT_EQ(map->burr_left, sim::study_folding(pressing(0.3))->burr_left);
}

// With the feed the drag pushes no trailing edge's burr over; without a belt nothing does.
TEST(FoldMap, IsNotThereWhereNothingIsPushedOver) {
  auto setup = pressing(0.3);
  setup.scenario.part.features = {outer_edge("back", Side::trailing, feather)};
  EXPECT_FALSE(sim::study_folding(setup));
  setup.belt(0).with_feed = false;
  EXPECT_TRUE(sim::study_folding(setup));
  setup.stations = {sim::FlipSetup{"over"}};
  EXPECT_FALSE(sim::study_folding(setup));
}
