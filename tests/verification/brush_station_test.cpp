#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "models/brush/edge.hpp"
#include "sim/line/line_result.hpp"
#include "tests/support/fast_cases.hpp"

/// Brush stations in both models: against closed forms, against each other, and what scenarios of
/// the trade ask for.
using namespace drumlin;
using cases::Side;
using tests::hole;
using tests::outer_edge;

namespace {

constexpr double steel = 15000.0;  // specific energy [MPa]

models::FilamentBrush nylon() {
  return {.filament = {1.0, 40, 3500, 1.25e-9, 0.35},
          .radius = 150,
          .fill = 0.4,
          .rows = 0,
          .abrasion = {1e-6, 4.0, 0.0, 1.0}};
}

sim::BrushSetup brush(double penetration, bool with_feed = true) {
  sim::BrushSetup station;
  station.brush = nylon();
  station.penetration = penetration;
  station.speed = 14000.0;
  station.feed = 60.0;
  station.with_feed = with_feed;
  station.base = {1e-6, 0.0};
  station.coating = station.top = {3e-6, 0.0};
  station.specific_energy = steel;
  station.sheet_modulus = 210e3;
  station.fracture_ductility = 1.0;
  return station;
}

sim::Setup line_of(std::vector<sim::StationSetup> stations, std::vector<cases::Feature> features,
                   double coating = 0.0) {
  sim::Setup setup;
  setup.scenario.part.thickness = 1.2;
  setup.scenario.part.material.specific_energy.value = steel;
  setup.scenario.part.features = std::move(features);
  if (coating > 0.0) {
    setup.scenario.part.coating.emplace();
    setup.scenario.part.coating->thickness = coating;
  }
  setup.stations = std::move(stations);
  return setup;
}

sim::BeltSetup belt() {
  sim::BeltSetup station = tests::belted_drum(40);
  station.setting = cases::InterferenceSetting{0.3};
  station.grain_spacing = 0.6;
  station.specific_energy = steel;
  station.feed = 60.0;
  return station;
}

sim::StatedAnswer of_line(const sim::Setup& setup) {
  return sim::line::state(setup, sim::line::simulate(setup, {}), false);
}

sim::StatedAnswer of(const sim::Setup& setup, bool fast) {
  return fast ? tests::fast_answer(setup) : of_line(setup);
}

const sim::FeatureResult& named(const sim::StatedAnswer& answer, const std::string& name) {
  for (const auto& feature : answer.part.features)
    if (feature.name == name) return feature;
  throw std::out_of_range(name);
}

/// Radius to which a brush rounds a sharp outer edge, by the closed form.
double radius_after(const sim::BrushSetup& station, models::EdgeSide side) {
  const auto contact = models::edge_contact(nylon(), station.penetration, station.speed, side);
  return models::edge_work(nylon(), contact, station.speed, station.feed, station.base.coefficient,
                           0.0)
      .radius;
}

const models::WallBurr feather{.height = 0.12, .root = 0.02, .taper = 0, .flow_stress = 220};

/// Longest lip in the hole, either rim.
double lip_after(std::vector<sim::StationSetup> stations, bool fast) {
  const auto answer = of(line_of(std::move(stations), {hole(feather)}), fast);
  return std::max(named(answer, "hole:leading").secondary_burr->value,
                  named(answer, "hole:trailing").secondary_burr->value);
}

}  // namespace

// K rub / v_f: 5 um of the coating go first, at its own coefficient, and what work is left goes
// into the base.
TEST(BrushStation, TakesOffTheFaceWhatItsWorkComesTo) {
  const sim::BrushSetup station = brush(2.0);
  const double work =
      models::contact(nylon(), station.penetration, station.speed).rub / station.feed;
  for (const bool fast : {false, true}) {
    const auto bare = of(line_of({station}, {}), fast);
    EXPECT_NEAR(bare.part.face.removal->value, 1e-6 * work, 1e-12);
    const double thin = 1e-6 * work;  // a third of what the work could take of it
    const auto through = of(line_of({station}, {}, thin), fast);
    EXPECT_EQ(through.part.face.coating_left->value, 0.0);
    EXPECT_NEAR(through.part.face.removal->value, thin + 1e-6 * (work - thin / 3e-6), 1e-12);
    const auto within = of(line_of({station}, {}, 10.0 * thin), fast);
    EXPECT_NEAR(within.part.face.coating_left->value, 10.0 * thin - 3e-6 * work, 1e-12);
  }
}

// A sharp outer edge gets the closed form's radius: read from the profile within a cell's width
// over the radius, 5 um in 60 to 80.
TEST(BrushStation, RoundsOuterEdgesAsTheClosedFormDoes) {
  const sim::BrushSetup station = brush(2.0);
  const auto answer =
      of_line(line_of({station}, {outer_edge("first", Side::leading, models::NoBurr{}),
                                  outer_edge("last", Side::trailing, models::NoBurr{})}));
  // Tips run as the part does, towards the end that comes in first: off the metal there.
  const double off = radius_after(station, models::EdgeSide::off_metal);
  const double onto = radius_after(station, models::EdgeSide::onto_metal);
  EXPECT_NEAR(named(answer, "first").edge_radius->value / off, 1.0, 0.06);
  EXPECT_NEAR(named(answer, "last").edge_radius->value / onto, 1.0, 0.06);
  // Flanks that tips run onto are reached as deep as the brush is set, others as deep as rounded.
  EXPECT_NEAR(named(answer, "last").flank_reach->value, 1.2, 1e-12);  // all of the sheet
  EXPECT_LT(named(answer, "first").flank_reach->value, 1.2 * off);
}

// Which end of the part is which depends on the way the tips run, and on nothing else.
TEST(BrushStation, SwapsTheEndsWithTheWayItsTipsRun) {
  const std::vector<cases::Feature> ends{outer_edge("first", Side::leading, models::NoBurr{}),
                                         outer_edge("last", Side::trailing, models::NoBurr{})};
  const auto with = of_line(line_of({brush(2.0, true)}, ends));
  const auto against = of_line(line_of({brush(2.0, false)}, ends));
  EXPECT_NEAR(named(with, "first").edge_radius->value, named(against, "last").edge_radius->value,
              1e-9);
  EXPECT_NEAR(named(with, "last").edge_radius->value, named(against, "first").edge_radius->value,
              1e-9);
}

// Nothing touches, nothing happens: worn off by what it was set in, and made up again as new.
TEST(BrushStation, DoesNothingOnceItIsWornClearOfTheFace) {
  const std::vector<cases::Feature> edge{outer_edge("edge", Side::leading, models::NoBurr{})};
  for (const bool fast : {false, true}) {
    const auto clear = of(line_of({brush(0.0)}, edge), fast);
    EXPECT_EQ(clear.part.face.removal->value, 0.0);
    EXPECT_EQ(clear.part.features[0].edge_drop->value, 0.0);
    EXPECT_EQ(clear.stations[0].line_load->value, 0.0);
    sim::BrushSetup thicker = brush(0.0);
    thicker.interference_offset = 2.0;
    const auto set_in = of(line_of({thicker}, edge), fast);
    const auto as_new = of(line_of({brush(2.0)}, edge), fast);
    EXPECT_EQ(set_in.part.face.removal->value, as_new.part.face.removal->value);
  }
}

// A lip that hangs in the way loses its tip: the same area in both models as the closed form's
// work, which a lip of even thickness gives up as length. Cells of 2.5 um tell its end.
TEST(BrushStation, WearsALipFromItsTip) {
  const models::RolledBurr rolled{.overhang = 0.1, .thickness = 0.03, .flow_stress = 2000};
  const sim::BrushSetup station = brush(1.0);
  const auto contact = models::edge_contact(nylon(), station.penetration, station.speed,
                                            models::EdgeSide::off_metal);
  const double passing =
      models::filaments_per_angle(nylon()) * station.speed / 150.0 / station.feed;
  const double taken = 1e-6 * passing * contact.crossing * nylon().filament.diameter / 0.03;
  ASSERT_GT(taken, 0.003);
  ASSERT_LT(taken, 0.05);
  const std::vector<cases::Feature> edge{outer_edge("edge", Side::leading, rolled)};
  EXPECT_NEAR(named(of_line(line_of({station}, edge)), "edge").secondary_burr->value, 0.1 - taken,
              0.0051);
  EXPECT_NEAR(tests::fast_answer(line_of({station}, edge)).part.features[0].secondary_burr->value,
              0.1 - taken, 0.2 * taken);
  // Enough of it takes the lip off and goes on to round the edge.
  sim::BrushSetup harsh = station;
  sim::scale_removal(harsh, 100.0);
  for (const bool fast : {false, true}) {
    const auto left = of(line_of({harsh}, edge), fast).part.features[0];
    EXPECT_EQ(left.secondary_burr->value, 0.0) << fast;
    EXPECT_EQ(left.outcome, "ground off") << fast;
    EXPECT_GT(left.edge_drop->value, 0.01) << fast;
  }
}

// A root that strikes bend beyond its strength for good is gone; half of its life twice over too.
TEST(BrushStation, BreaksALipOffOnceItsRootHasBorneWhatItCan) {
  const models::RolledBurr weak{.overhang = 0.12, .thickness = 0.02, .flow_stress = 220};
  sim::BrushSetup station = brush(2.0);
  sim::scale_removal(station, 1e-6);
  const std::vector<cases::Feature> edge{outer_edge("edge", Side::leading, weak)};
  for (const bool fast : {false, true}) {
    const auto once = of(line_of({station}, edge), fast).part.features[0];
    ASSERT_TRUE(once.root_life_used) << fast;
    EXPECT_EQ(once.outcome, "folded beyond the edge");
    // A life is known to a factor of ten.
    EXPECT_NEAR(*once.root_life_used->high / *once.root_life_used->low, 100.0, 1e-9);
    sim::Setup again = line_of({station}, edge);
    again.scenario.conveyor.passes = static_cast<int>(std::ceil(1.0 / once.root_life_used->value));
    ASSERT_GT(again.scenario.conveyor.passes, 1);
    const auto last = of(again, fast).part.features[0];
    EXPECT_EQ(last.outcome, "broken off") << fast;
    EXPECT_EQ(last.secondary_burr->value, 0.0) << fast;
    --again.scenario.conveyor.passes;
    EXPECT_EQ(of(again, fast).part.features[0].outcome, "folded beyond the edge") << fast;
  }
}

// Belt, then brush leaves the smallest lip where the tips run off over the rim that the belt rolled
// the burr over. Against the feed they come at that lip out of the hole, into which they hang less
// deep than they are set: they still wear it, but a brush before the belt, which lays the feather
// on the face there, then leaves less.
TEST(BrushStation, TakesLipsOffBehindABeltAndNotBeforeIt) {
  for (const bool fast : {false, true}) {
    const double alone = lip_after({belt()}, fast);
    ASSERT_GT(alone, 0.0);
    for (const bool with_feed : {true, false}) {
      const sim::BrushSetup tips = brush(3.0, with_feed);
      const double behind = lip_after({belt(), tips}, fast);
      EXPECT_LT(behind, alone) << fast << with_feed;
      if (with_feed) {
        EXPECT_LT(behind, lip_after({tips, belt()}, fast)) << fast;
      }
    }
  }
}

// A ridge half as high as it is wide is no plate: strikes neither bend it nor use up a life of it,
// they cut it down. A feather goes over at once.
TEST(BrushStation, BendsFeathersAndCutsRidgesDown) {
  const models::WallBurr ridge{.height = 0.07, .root = 0.15, .taper = 0, .flow_stress = 220};
  for (const bool fast : {false, true}) {
    const auto after = [&](const models::WallBurr& burr, double penetration) {
      return of(line_of({brush(penetration)}, {outer_edge("edge", Side::leading, burr)}), fast)
          .part.features[0];
    };
    const auto cut = after(ridge, 1.0);
    EXPECT_EQ(cut.outcome, "stands") << fast;
    EXPECT_FALSE(cut.fold_start || cut.root_life_used) << fast;
    EXPECT_LT(cut.burr_height->value, ridge.height) << fast;
    const auto bent = after(feather, 1.0);
    EXPECT_EQ(bent.outcome, "folded beyond the edge") << fast;
    EXPECT_NEAR(bent.fold_start->value, feather.height, 1e-9) << fast;
  }
}

// Where a wall began to bend counts from the face as the station before left it: a first brush that
// takes burr and face down alike leaves it as high over the face as it was.
TEST(BrushStation, CountsBendingFromTheFaceAsItIs) {
  sim::BrushSetup rubs = brush(1.0);
  rubs.brush = models::NonWovenBrush{
      .radius = 150, .depth = 40, .contact_modulus = 1.0, .friction = 0.4, .abrasion = {}};
  sim::scale_removal(rubs, 100.0);
  const std::vector<cases::Feature> edge{outer_edge("edge", Side::leading, feather)};
  for (const bool fast : {false, true}) {
    const auto answer = of(line_of({rubs, brush(1.0)}, edge), fast);
    EXPECT_GT(answer.stations[0].after.face.removal->value, 0.003) << fast;
    EXPECT_NEAR(answer.part.features[0].fold_start->value, feather.height, 1e-9) << fast;
  }
}

// Of a plate that hangs along the feed nothing is claimed, least of all that it is gone.
TEST(BrushStation, SaysNothingOfARolledBurrAlongTheFeed) {
  const models::RolledBurr rolled{.overhang = 0.1, .thickness = 0.03, .flow_stress = 220};
  for (const sim::StationSetup& station :
       {sim::StationSetup(brush(2.0)), sim::StationSetup(belt())}) {
    sim::Setup setup = line_of({station}, {outer_edge("edge", Side::side, rolled)});
    setup.scenario.part.width = 200.0;
    setup.scenario.part.length = 300.0;
    const auto answer = of_line(setup);
    const auto& edge = named(answer, "edge");
    EXPECT_FALSE(edge.secondary_burr || edge.edge_radius || edge.edge_size);
    EXPECT_EQ(edge.outcome, "");
    EXPECT_NE(edge.note.find("is not followed"), std::string::npos);
  }
}

// What goes from belt to brush is the part and nothing else.
TEST(BrushStation, DoesTheSameInALineAsOnItsOwn) {
  const std::vector<cases::Feature> features{hole(feather)};
  const auto whole = sim::line::simulate(line_of({belt(), brush(2.0)}, features), {});
  const auto one = sim::line::simulate(line_of({belt()}, features), {}, &whole.unworn);
  const auto two = sim::line::simulate(line_of({brush(2.0)}, features), {}, &one.last.back().part);
  const auto& a = whole.last.back().part.burrs;
  const auto& b = two.last.back().part.burrs;
  EXPECT_EQ(a.face.removed, b.face.removed);
  for (std::size_t k = 0; k < a.strips.size(); ++k)
    EXPECT_EQ(a.strips[k].height, b.strips[k].height);
}

// Into a short opening tips hang less deep, so its far rim is rounded less than an outer edge.
TEST(BrushStation, RoundsTheRimOfASmallHoleLessThanAnOuterEdge) {
  const auto answer =
      of_line(line_of({brush(3.0)}, {hole(models::NoBurr{}),
                                     outer_edge("edge", Side::trailing, models::NoBurr{})}));
  const auto& rim = named(answer, "hole:trailing");
  const auto& edge = named(answer, "edge");
  EXPECT_LT(rim.edge_radius->value, edge.edge_radius->value);
  const double dip = models::dip(nylon(), 3.0, brush(3.0).speed, 6.0).far_flank;
  EXPECT_NEAR(rim.flank_reach->value, dip, 0.02);  // the opening is a whole number of cells long
}

// 15 um of oxide on flanks of 3 mm: tips that run onto the edge strike 2 mm of it, so at best a
// third stays; those that run off strike none. Either way far more than 5 % is left.
TEST(BrushStation, ReachesDownTheFlankAsFarAsItsTipsHang) {
  sim::Setup setup = line_of({brush(2.0)}, {outer_edge("first", Side::leading, models::NoBurr{}),
                                            outer_edge("last", Side::trailing, models::NoBurr{})});
  setup.scenario.part.thickness = 3.0;
  setup.scenario.part.flank_oxide = 0.015;
  const auto answer = of_line(setup);
  const auto& onto = named(answer, "last");
  EXPECT_NEAR(onto.flank_reach->value, 2.0, 1e-12);
  EXPECT_NEAR(*onto.oxide_left->low, 1.0 / 3.0, 1e-12);
  EXPECT_NEAR(*onto.oxide_left->high, 1.0 - onto.edge_drop->value / 3.0, 1e-12);
  EXPECT_GE(onto.oxide_left->value, *onto.oxide_left->low);
  EXPECT_LE(onto.oxide_left->value, *onto.oxide_left->high);
  const auto& off = named(answer, "first");
  EXPECT_NEAR(off.oxide_left->value, 1.0 - off.edge_drop->value / 3.0, 1e-12);
  EXPECT_GT(off.oxide_left->value, 0.95);
}

// Both models round with one law; fast's cells are coarse, so areas are compared: what the drop at
// the edge line tells is the same to a cell.
TEST(BrushStation, LeavesTheSameFaceAndCoatingInBothModels) {
  const std::vector<cases::Feature> features{hole(models::NoBurr{})};
  const auto line = of(line_of({brush(2.0)}, features, 0.02), false);
  const auto fast = of(line_of({brush(2.0)}, features, 0.02), true);
  EXPECT_EQ(line.part.face.removal->value, fast.part.face.removal->value);
  EXPECT_EQ(line.part.face.coating_left->value, fast.part.face.coating_left->value);
  EXPECT_EQ(line.stations[0].line_load->value, fast.stations[0].line_load->value);
}
