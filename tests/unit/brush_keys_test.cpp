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

}  // namespace
}  // namespace drumlin::cases
