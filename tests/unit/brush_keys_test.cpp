#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "tests/support/marked_case.hpp"
#include "tests/support/problems.hpp"

/// Keys of brush stations.
namespace drumlin::cases {
namespace {

using support::problems_of;
using support::whole_case;
using testing::Contains;
using testing::HasSubstr;
using testing::StartsWith;

/// The marked case with a brush of wires behind its belt, and lines added to the station.
std::string with_brush(const std::string& lines, const std::string& filament = "0.3 mm") {
  std::string text = whole_case();
  return text.insert(text.find("[conveyor]"),
                     "[[station]]\nkind = \"brush\"\nradius = \"150 mm\"\nspeed = \"20 m/s\"\n" +
                         lines + "\n[station.filament]\nmaterial = \"steel\"\ndiameter = \"" +
                         filament + "\"\nfree_length = \"30 mm\"\n");
}

BrushStation brush_of(const std::string& text) {
  return std::get<BrushStation>(parse(text, "panel.toml").stations.at(1));
}

TEST(BrushKeys, AreReadWithTheFilamentsMaterialFromTheTable) {
  const BrushStation station = brush_of(
      with_brush("penetration = \"1.5 mm\"\nfill = 0.25\nrows = 24\ndirection = \"against-feed\"\n"
                 "worn = \"3 mm\"\nset = 0.2\nmake_up = \"2 mm\""));
  const auto& brush = std::get<models::FilamentBrush>(station.brush);
  EXPECT_EQ(brush.radius, 150);
  EXPECT_EQ(brush.fill, 0.25);
  EXPECT_EQ(brush.rows, 24);
  EXPECT_EQ(brush.filament.diameter, 0.3);
  EXPECT_EQ(brush.filament.free_length, 30);
  EXPECT_EQ(brush.filament.modulus, 205e3);
  EXPECT_EQ(station.penetration, 1.5);
  EXPECT_EQ(station.speed, 20e3);
  EXPECT_EQ(station.direction, Direction::against_feed);
  EXPECT_EQ(station.wear.radius_loss, 3);
  EXPECT_EQ(station.wear.set, 0.2);
  EXPECT_EQ(station.wear.make_up, 2);
  EXPECT_EQ(station.fill_band.low, 0.25);
  EXPECT_EQ(station.fill_band.high, 0.25);
}

// Nobody has a removal coefficient of his brush: the usual one comes with a factor of four.
TEST(BrushKeys, SayWhatTheyTookForGrantedAndHowWideItsBandIs) {
  const Case c = parse(with_brush("penetration = \"1 mm\""), "panel.toml");
  const auto& station = std::get<BrushStation>(c.stations.at(1));
  EXPECT_EQ(station.removal_band.high, 4.0 * station.removal_band.value);
  EXPECT_EQ(station.removal_band.low, station.removal_band.value / 4.0);
  EXPECT_THAT(c.defaults, Contains(StartsWith("station[1].removal_coefficient = 2.5e-7 1/MPa: ")));
  EXPECT_THAT(c.defaults, Contains(StartsWith("station[1].fill = 0.3: ")));
  EXPECT_THAT(c.defaults, Contains(StartsWith("station[1].filament.modulus = 205000 MPa: ")));
}

TEST(BrushKeys, HaveNoBandWhereTheCaseGivesTheNumber) {
  const BrushStation station =
      brush_of(with_brush("penetration = \"1 mm\"\nremoval_coefficient = \"5e-7 1/MPa\""));
  EXPECT_EQ(station.removal_band.low, 5e-7);
  EXPECT_EQ(station.removal_band.high, 5e-7);
}

TEST(BrushKeys, RefuseABrushThatCannotBeBuilt) {
  const auto message = [](const std::string& text) {
    const auto problems = problems_of(text);
    EXPECT_EQ(problems.size(), 1U);
    return problems.empty() ? std::string() : problems[0].key + ": " + problems[0].text;
  };
  EXPECT_THAT(message(with_brush("penetration = \"1 mm\"\nworn = \"31 mm\"")),
              HasSubstr("station[1].worn: 31 mm is not less than its filaments of 30 mm"));
  std::string text = with_brush("penetration = \"1 mm\"");
  text.replace(text.find("radius = \"150 mm\""), 17, "radius = \"20 mm\"");
  EXPECT_THAT(message(text), HasSubstr("leaves no hub under its filaments of 30 mm"));
  text = with_brush("type = \"non-woven\"\npenetration = \"1 mm\"");
  EXPECT_THAT(problems_of(text)[0].text + problems_of(text)[1].text,
              HasSubstr("belongs to a brush of type \"filament\""));
  text = with_brush("penetration = \"1 mm\"");
  text.erase(text.find("[station.filament]"),
             text.find("[conveyor]") - text.find("[station.filament]"));
  EXPECT_THAT(message(text), HasSubstr("expected filament = { material = \"steel\""));
}

/// The marked case with a brush of discs behind its belt.
std::string with_discs(const std::string& lines) {
  std::string text = whole_case();
  text.insert(
      text.find("[conveyor]"),
      "[[station]]\nkind = \"brush\"\nfilament = { material = \"abrasive-nylon\", diameter = "
      "\"1 mm\", free_length = \"40 mm\" }\npenetration = \"2 mm\"\n" +
          lines);
  return text;
}

const std::string ring = "disc = { radius = \"75 mm\", inner_radius = \"30 mm\" }\n";

TEST(DiscKeys, AreReadWithTheirCarrier) {
  const BrushStation station = brush_of(with_discs(
      "arrangement = \"planetary\"\nspeed = \"7.5 m/s\"\n" + ring +
      "carrier = { radius = \"150 mm\", speed = \"60 rpm\", discs = 4, turn = \"same\" }\n"));
  const auto& brush = std::get<models::DiscBrush>(station.brush);
  EXPECT_EQ(station.arrangement, BrushArrangement::planetary);
  EXPECT_EQ(brush.radius, 75);
  EXPECT_EQ(brush.inner_radius, 30);
  EXPECT_EQ(brush.carrier_radius, 150);
  // One turn a second over 7500 / (2 pi 75).
  EXPECT_NEAR(brush.carrier_turns, 2.0 * 3.14159265358979 * 75 / 7500, 1e-12);
  EXPECT_EQ(brush.heads, 1);
  EXPECT_EQ(brush.fill, 0.3);
}

TEST(DiscKeys, SayWhatIsMissingAndWhatDoesNotBelong) {
  const std::string disc = "arrangement = \"disc\"\n";
  const auto says = [](const std::string& lines, const std::string& what) {
    std::string all;
    for (const Problem& problem : problems_of(with_discs(lines)))
      all += problem.key + ": " + problem.text + '\n';
    EXPECT_THAT(all, HasSubstr(what)) << lines;
  };
  says("arrangement = \"dsc\"\nspeed = \"8 m/s\"\n", "nearest is \"disc\"");
  says(disc + "speed = \"8 m/s\"\n", "station[1].disc: missing; expected disc = {");
  says(disc + ring, "expected the tips' speed, such as \"8 m/s\", or disc.spindle_speed");
  says(disc + "speed = \"8 m/s\"\nradius = \"75 mm\"\n" + ring, "is a roller's");
  says(disc + "speed = \"8 m/s\"\ntype = \"non-woven\"\n" + ring, "discs of web are not modelled");
  says(disc + "speed = \"8 m/s\"\ndisc = { radius = \"75 mm\", inner_radius = \"80 mm\" }\n",
       "80 mm is not less than the disc's radius of 75 mm");
  says(disc + "speed = \"8 m/s\"\ndisc = { radius = \"75 mm\", spindle_speed = \"900 rpm\" }\n",
       "give it or the station's speed, not both");
  says(disc + "speed = \"8 m/s\"\ndisc = { radius = \"75 mm\", heads = 3 }\n",
       "several heads need their head_pitch");
  says(disc + "speed = \"8 m/s\"\n" + ring + "second = { worn = \"1 mm\" }\n",
       "belongs to a brush of arrangement \"counter-rotating\", not \"disc\"");
  says("arrangement = \"planetary\"\nspeed = \"8 m/s\"\n" + ring, "station[1].carrier: missing");
  says("arrangement = \"planetary\"\nspeed = \"8 m/s\"\n" + ring +
           "carrier = { radius = \"90 mm\", speed = \"60 rpm\", discs = 4 }\n",
       "4 discs of 75 mm radius do not fit");
  says("radius = \"150 mm\"\nspeed = \"8 m/s\"\n" + ring,
       "belongs to a brush of arrangement \"disc\" or \"planetary\", not \"roller\"");
}

// Both rollers of a pair are read from one entry; stations after it keep their place in the file.
TEST(CounterRotatingKeys, MakeTwoStationsOfOneEntry) {
  std::string text = with_discs(
      "arrangement = \"counter-rotating\"\nradius = \"150 mm\"\nspeed = \"12 m/s\"\n"
      "second = { penetration = \"1 mm\", worn = \"0.5 mm\" }\n");
  const Case c = parse(text, "panel.toml");
  ASSERT_EQ(c.stations.size(), 3U);
  const auto& first = std::get<BrushStation>(c.stations[1]);
  const auto& second = std::get<BrushStation>(c.stations[2]);
  EXPECT_EQ(first.penetration, 2.0);
  EXPECT_EQ(second.penetration, 1.0);
  EXPECT_EQ(second.wear.radius_loss, 0.5);
  EXPECT_EQ(first.direction, Direction::with_feed);
  EXPECT_EQ(second.direction, Direction::against_feed);
  EXPECT_EQ(index_in_file(c.stations, 0), 0U);
  EXPECT_EQ(index_in_file(c.stations, 1), 1U);
  EXPECT_EQ(index_in_file(c.stations, 2), 1U);
}

}  // namespace
}  // namespace drumlin::cases
