#include <cmath>
#include <numbers>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "models/brush/disc.hpp"
#include "models/brush/dragged.hpp"
#include "sim/bands.hpp"
#include "sim/brush/brush_tool.hpp"
#include "tests/support/brush_cases.hpp"

/// Discs, planetary heads and counter-rotating rollers as stations of a line.
using namespace drumlin;
using testing::HasSubstr;
using testing::Not;
using tests::brush_line;
using tests::brush_station;
using tests::named;
using tests::run_text;

namespace {

const std::string ring =
    "disc = { radius = \"75 mm\", inner_radius = \"30 mm\", "
    "spindle_speed = \"1000 rpm\", heads = 3, head_pitch = \"";
const std::string discs = brush_station("arrangement = \"disc\"\n" + ring +
                                        "145 mm\" }\nfill = 0.1\npenetration = \"2 mm\"\n");
const std::string planets =
    brush_station("arrangement = \"planetary\"\n" + ring +
                  "250 mm\" }\ncarrier = { radius = \"150 mm\", speed = \"60 rpm\", discs = 4 }\n"
                  "fill = 0.1\npenetration = \"2 mm\"\n");

sim::BrushSetup brush_of(const std::string& text, std::size_t index = 0) {
  return std::get<sim::BrushSetup>(sim::set_up(cases::parse(text, "line.toml")).stations.at(index));
}

}  // namespace

// Turns per minute of the spindle are the tips' speed at the rim, and either may be given.
TEST(DiscStation, TakesSpindleOrTipSpeed) {
  const sim::BrushSetup station = brush_of(brush_line(discs, "fast"));
  EXPECT_NEAR(station.speed, 2.0 * std::numbers::pi * 75.0 * 1000.0 / 60.0, 1e-9);
  const sim::BrushSetup carried = brush_of(brush_line(planets, "fast"));
  const auto& brush = std::get<models::DiscBrush>(carried.brush);
  EXPECT_NEAR(brush.carrier_turns, -0.06, 1e-12);
  EXPECT_EQ(brush.discs, 4);
  EXPECT_EQ(brush.fill, 0.1);
}

// K rub / v_f over the width of the part, in both models: the sum over places and tips, each with
// its own speed, times the force of a filament.
TEST(DiscStation, TakesOffTheFaceWhatItsWorkComesTo) {
  for (const std::string& stations : {discs, planets}) {
    const sim::BrushSetup station = brush_of(brush_line(stations, "fast"));
    const auto& brush = std::get<models::DiscBrush>(station.brush);
    double path = 0.0;
    for (const auto& place : models::places_across(brush, 400.0))
      path += place.share * models::rubbing(models::tips_over(brush, station.speed, station.feed,
                                                              place.across, 5))
                                .path;
    const double work =
        models::dragged_over_face(brush.filament, 2.0).normal_force * path / station.feed;
    for (const char* model : {"line", "fast"}) {
      const sim::Result result = run_text(brush_line(stations, model));
      EXPECT_NEAR(result.part.face.removal->value / (station.base.coefficient * work), 1.0, 1e-12)
          << model;
    }
  }
}

// Planetary heads round the ends, the sides along the feed and the rims all round alike: edges of
// one kind within a few per cent of each other, as their work does (its root); a cell is 5 um.
TEST(PlanetaryStation, RoundsEdgesOfEveryDirectionAlike) {
  const sim::Result result = run_text(brush_line(planets, "line"));
  const double leading = named(result.part, "outline:leading").edge_radius->value;
  EXPECT_GT(leading, 0.05);
  EXPECT_NEAR(named(result.part, "outline:trailing").edge_radius->value / leading, 1.0, 0.03);
  // The sides run where the outer heads' rings end: what passes there differs from the mean.
  EXPECT_NEAR(named(result.part, "outline:side").edge_radius->value / leading, 1.0, 0.2);
  const double rim = named(result.part, "hole:leading").edge_radius->value;
  EXPECT_NEAR(named(result.part, "hole:trailing").edge_radius->value / rim, 1.0, 0.03);
  EXPECT_NEAR(named(result.part, "hole:side").edge_radius->value / rim, 1.0, 0.1);
  // Every flank is reached as deep as tips hang, the sides' too, and says nothing of a roller.
  for (const auto& feature : result.part.features) {
    EXPECT_GT(feature.flank_reach->value, 1.0) << feature.name;
    EXPECT_THAT(feature.note, Not(HasSubstr("roller"))) << feature.name;
  }
  ASSERT_TRUE(result.stations[0].disc);
  EXPECT_GT(result.stations[0].disc->evenness, 0.2);
  EXPECT_LT(result.stations[0].disc->evenness, 1.0);
  EXPECT_NEAR(result.stations[0].disc->reversed_on_sides, 1.0, 0.05);
}

// A roller of the same filaments leaves the sides as it leaves the face, and says so.
TEST(PlanetaryStation, DoesAtTheSidesWhatARollerDoesNot) {
  const std::string roller =
      brush_station("radius = \"150 mm\"\nspeed = \"8 m/s\"\npenetration = \"2 mm\"\n");
  const sim::Result rolled = run_text(brush_line(roller, "line"));
  const auto& side = named(rolled.part, "outline:side");
  EXPECT_NEAR(side.edge_drop->value, 0.0, 1e-12);
  EXPECT_THAT(side.note, HasSubstr("roller"));
  EXPECT_GT(named(rolled.part, "outline:trailing").edge_drop->value, 0.02);
  EXPECT_GT(named(run_text(brush_line(planets, "line")).part, "outline:side").edge_drop->value,
            0.02);
}

// Strikes from both sides bend a root to and fro: a wall that one roller lays over its edge breaks
// off under planetary heads.
TEST(PlanetaryStation, BreaksThinWallsThatAreStruckToAndFro) {
  std::string text = brush_line(planets, "line");
  text.replace(text.find("kind = \"outer-edge\"\n"), 20,
               "kind = \"outer-edge\"\nburr = { kind = \"wall\", height = \"0.12 mm\", "
               "root = \"0.02 mm\", flow_stress = \"220 MPa\" }\n");
  for (const char* model : {"line", "fast"}) {
    std::string here = text;
    if (std::string(model) == "fast")
      here.replace(here.find("model = \"line\""), 14, "model = \"fast\"");
    const sim::Result result = run_text(here);
    const auto& edge = named(result.part, "outline:leading");
    EXPECT_EQ(edge.outcome, "broken off") << model;
    EXPECT_EQ(edge.secondary_burr->value, 0.0) << model;
    EXPECT_GT(edge.root_life_used->value, 1.0) << model;
  }
}

// The fast model has no section along the drum: it says nothing of sides, as under belts.
TEST(DiscStation, LeavesSidesToTheLineModel) {
  const sim::Result result = run_text(brush_line(discs, "fast"));
  EXPECT_FALSE(named(result.part, "outline:side").edge_drop.has_value());
  EXPECT_GT(named(result.part, "outline:leading").edge_drop->value, 0.01);
}

// Worn and made up: discs keep their speed, and nothing touches once the penetration is gone.
TEST(DiscStation, DoesNothingOnceItIsWornClearOfTheFace) {
  for (const char* model : {"line", "fast"}) {
    const sim::Result clear = run_text(brush_line(planets + "worn = \"2 mm\"\n", model));
    EXPECT_EQ(clear.part.face.removal->value, 0.0) << model;
    EXPECT_EQ(named(clear.part, "outline:leading").edge_drop->value, 0.0) << model;
    EXPECT_FALSE(clear.stations[0].disc.has_value());
    const sim::Result made_up =
        run_text(brush_line(planets + "worn = \"2 mm\"\nmake_up = \"2 mm\"\n", model));
    EXPECT_GT(made_up.part.face.removal->value, 0.0) << model;
  }
}

TEST(DiscStation, SaysWhereTheRowIsNarrowerThanThePart) {
  const std::string one = brush_station(
      "arrangement = \"disc\"\ndisc = { radius = \"75 mm\" }\nspeed = \"8 m/s\"\n"
      "penetration = \"2 mm\"\n");
  const sim::Result result = run_text(brush_line(one, "line"));
  EXPECT_THAT(result.warnings,
              testing::Contains(HasSubstr("covers 150 mm of the 400 mm that parts take across")));
  EXPECT_EQ(result.stations[0].disc->evenness, 0.0);
  EXPECT_EQ(named(result.part, "outline:side").edge_drop->value, 0.0);
  EXPECT_GT(named(result.part, "outline:leading").edge_drop->value, 0.0);
}

// Two rollers that turn opposite ways are two stations in a row, bit for bit, whichever is told.
TEST(CounterRotatingPair, EqualsTwoRollersInARow) {
  const std::string roller =
      "radius = \"150 mm\"\nspeed = \"12 m/s\"\npenetration = \"2 mm\"\nworn = \"0.4 mm\"\n";
  const std::string pair =
      brush_station("arrangement = \"counter-rotating\"\n" + roller +
                    "second = { penetration = \"1.5 mm\", worn = \"0.2 mm\" }\n");
  const std::string both = brush_station(roller) +
                           brush_station(
                               "radius = \"150 mm\"\nspeed = \"12 m/s\"\npenetration = \"1.5 mm\"\n"
                               "worn = \"0.2 mm\"\ndirection = \"against-feed\"\n");
  for (const char* model : {"line", "fast"}) {
    const sim::Result a = run_text(brush_line(pair, model));
    const sim::Result b = run_text(brush_line(both, model));
    ASSERT_EQ(a.stations.size(), 2u);
    EXPECT_EQ(a.part.face.removal->value, b.part.face.removal->value);
    for (std::size_t i = 0; i < a.part.features.size(); ++i) {
      if (!a.part.features[i].edge_drop) continue;
      EXPECT_EQ(a.part.features[i].edge_drop->value, b.part.features[i].edge_drop->value);
    }
    EXPECT_EQ(a.stations[0].line_load->value, b.stations[0].line_load->value);
    EXPECT_EQ(a.stations[1].line_load->value, b.stations[1].line_load->value);
    EXPECT_THAT(a.stations[1].description, HasSubstr("second of two counter-rotating rollers"));
    EXPECT_THAT(a.notes, testing::Contains(HasSubstr("the two rollers of one counter-rotating")));
  }
}

// Set once, both rollers are set so; ends are then rounded alike but for their order.
TEST(CounterRotatingPair, StrikesBothSidesOfEveryEdgeAcrossTheFeed) {
  const std::string pair = brush_station(
      "arrangement = \"counter-rotating\"\nradius = \"150 mm\"\nspeed = \"12 m/s\"\n"
      "penetration = \"2 mm\"\n");
  const sim::Result result = run_text(brush_line(pair, "line"));
  EXPECT_EQ(result.stations[0].penetration->value, result.stations[1].penetration->value);
  const auto& leading = named(result.part, "outline:leading");
  const auto& trailing = named(result.part, "outline:trailing");
  // Speeds against the part differ by twice the feed, 0.7 %; a radius is read to a cell.
  EXPECT_NEAR(leading.edge_radius->value / trailing.edge_radius->value, 1.0, 0.06);
  EXPECT_EQ(leading.flank_reach->value, 2.0);
  EXPECT_EQ(trailing.flank_reach->value, 2.0);
}

// Bands of a pair: what is not known of the make counts for both rollers at once.
TEST(CounterRotatingPair, CountsWhatIsNotKnownOfItsMakeOnce) {
  const std::string pair = brush_station(
      "arrangement = \"counter-rotating\"\nradius = \"150 mm\"\nspeed = \"12 m/s\"\n"
      "penetration = \"2 mm\"\n");
  const sim::Setup setup = sim::set_up(cases::parse(brush_line(pair, "fast"), "line.toml"));
  int removal = 0;
  for (const auto& variation : sim::variations(setup)) {
    if (variation.input.find("removal_coefficient") == std::string::npos) continue;
    ++removal;
    sim::Setup moved = setup;
    variation.apply(moved, true);
    for (const auto& station : moved.stations)
      EXPECT_NEAR(std::get<sim::BrushSetup>(station).base.coefficient, 4e-6, 1e-18);
  }
  EXPECT_EQ(removal, 1);
}
