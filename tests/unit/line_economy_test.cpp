#include "sim/line_economy.hpp"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "models/line/hold_down.hpp"
#include "sim/advice.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/overspeed.hpp"
#include "sim/run.hpp"

namespace drumlin::sim {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

/// A plain plate under one belt that removes in proportion: no threshold, no coating.
struct Lines {
  std::string part{};      ///< added to [part]
  std::string station{};   ///< added to [[station]]
  std::string belt{};      ///< added to its belt
  std::string conveyor{};  ///< added to [conveyor]
  std::string rest{};      ///< added at the end
};

std::string text_of(const Lines& lines) {
  return "[part]\nmaterial = \"S235\"\nthickness = \"2 mm\"\nwidth = \"300 mm\"\n"
         "length = \"400 mm\"\n" +
         lines.part +
         "[[station]]\nkind = \"belt\"\nspeed = \"10 m/s\"\n"
         "drum = { radius = \"100 mm\", cover = \"15 mm\", hardness = \"40 Shore A\" }\n" +
         lines.station +
         "setting = { line_load = \"1 N/mm\" }\n"
         "belt = { grit = \"P80\", abrasive = \"alumina\", threshold_pressure = \"0 MPa\"" +
         lines.belt + " }\n[conveyor]\nspeed = \"4 m/min\"\n" + lines.conveyor + lines.rest +
         "[numerics]\nmodel = \"fast\"\nbands = false\n";
}

Setup setup_of(const Lines& lines) {
  return set_up(cases::parse(text_of(lines), "plate.toml"));
}
Result result_of(const Lines& lines) {
  return run(setup_of(lines));
}

// F' v and u Q' are one power where K = mu / u. The sliding speed counts in both, and the solver's
// removal equals K P' v / v_f to 1e-4 (tests/README.md); 1 % is asked.
TEST(LinePower, IsWhatTheRemovedMetalTakes) {
  const Result result = result_of({});
  const auto setup = setup_of({});
  const double energy = setup.belt(0).specific_energy;
  const double per_width = energy * result.part.face.removal->value * setup.belt(0).feed;
  EXPECT_NEAR(result.stations[0].power->value / per_width, 1.0, 0.01);
  // Over one part of 300 mm; S235 at 1 N/mm: 0.4 x 1 x 9.93 m/s = 4 W/mm.
  const StationEconomy& station = result.line_economy->stations.at(0);
  EXPECT_EQ(station.covered_width, 300);
  EXPECT_NEAR(station.cutting_power->value, 300 * per_width, 0.01 * 300 * per_width);
}

TEST(LinePower, GrowsWithTheLanesAndEndsAtTheBeltsWidth) {
  const double one = result_of({}).line_economy->power->value;
  const Result three =
      result_of({.belt = ", width = \"1300 mm\", length = \"2 m\"", .conveyor = "lanes = 3\n"});
  EXPECT_NEAR(three.line_economy->power->value, 3 * one, 1e-9 * one);
  const StationEconomy& station = three.line_economy->stations.at(0);
  EXPECT_NEAR(station.full_width_power->value / station.power->value, 1300.0 / 900.0, 1e-12);
  EXPECT_NEAR(*station.belt_area, 2.6e6, 1e-6);
  // A narrow belt covers no more than itself.
  const Result narrow = result_of({.belt = ", width = \"200 mm\""});
  EXPECT_EQ(narrow.line_economy->stations.at(0).covered_width, 200);
}

// Energy per part times parts per time is the power, less the gaps.
TEST(LinePower, IsOnTheMeanTheShareThatPartsTakeOfTheFeed) {
  const LineEconomy line = *result_of({.conveyor = "gap = \"100 mm\"\nlanes = 2\n"}).line_economy;
  EXPECT_NEAR(line.mean_power->value / line.power->value, 400.0 / 500.0, 1e-12);
  EXPECT_NEAR(line.energy->value, line.power->value / 2 * 400 / (4000.0 / 60), 1e-6);
}

/// Grip margin of the one belt.
double margin(const Lines& lines) {
  return result_of(lines).line_economy->stations.at(0).grip_margin->value;
}

// (f / mu) (1 + q l / P') with mu 0.4, q = 7850 kg/m3 x 9.80665 m/s2 x 2 mm + suction.
TEST(LineHold, IsTheStaticsOfOnePartUnderOneTool) {
  const double weight = 7.85e-9 * 9806.65 * 2.0;
  EXPECT_NEAR(margin({.conveyor = "grip = 0.3\n"}), 0.3 / 0.4 * (1 + weight * 400), 1e-3);
  EXPECT_NEAR(margin({.conveyor = "grip = { friction = 0.3, suction = \"2 kPa\" }\n"}),
              0.3 / 0.4 * (1 + (weight + 2e-3) * 400), 1e-3);
}

TEST(LineHold, GrowsWithFrictionSuctionAndThePartAndFallsWithTheLoad) {
  const double base = margin({.conveyor = "grip = 0.3\n"});
  EXPECT_GT(margin({.conveyor = "grip = 0.35\n"}), base);
  EXPECT_GT(margin({.conveyor = "grip = { friction = 0.3, suction = \"1 kPa\" }\n"}), base);
  std::string longer = text_of({.conveyor = "grip = 0.3\n"});
  longer.replace(longer.find("400 mm"), 6, "800 mm");
  const auto margin_of = [](const std::string& text) {
    return run(set_up(cases::parse(text, "plate.toml")))
        .line_economy->stations.at(0)
        .grip_margin->value;
  };
  EXPECT_GT(margin_of(longer), base);
  std::string heavier = text_of({.conveyor = "grip = 0.3\n"});
  heavier.replace(heavier.find("1 N/mm"), 6, "2 N/mm");
  EXPECT_LT(margin_of(heavier), base);
}

TEST(LineHold, WarnsFirstOfAPartThatSlipsAndNamesTheSmallestThatWouldHold) {
  const Result result =
      result_of({.conveyor = "grip = { friction = 0.3, suction = \"0.5 kPa\" }\n"});
  const StationEconomy& station = result.line_economy->stations.at(0);
  ASSERT_LT(station.grip_margin->value, 1.0);
  ASSERT_FALSE(result.warnings.empty());
  EXPECT_THAT(result.warnings[0], StartsWith("station[0]: the part slips: grip margin 0."));
  EXPECT_THAT(result.warnings[0], HasSubstr("pushes it forward"));
  // q l = P' (mu / f - 1): with 154 Pa of weight and 500 Pa of suction 510 mm.
  const double least = (0.4 / 0.3 - 1.0) / (7.85e-9 * 9806.65 * 2.0 + 0.5e-3);
  EXPECT_NEAR(station.smallest_length->value, least, 0.005 * least);
  EXPECT_THAT(result.warnings[0], HasSubstr("the smallest part that would hold is"));
  // That suction in place of the given one holds this part.
  const double suction = station.holding_suction->value;
  EXPECT_NEAR(margin({.conveyor = "grip = { friction = 0.3, suction = \"" +
                                  std::to_string(suction * 1e6) + " Pa\" }\n"}),
              1.0, 1e-3);
}

TEST(LineHold, TellsWhichWayTheToolPushes) {
  const Result against =
      result_of({.station = "direction = \"against-feed\"\n", .conveyor = "grip = 0.2\n"});
  ASSERT_FALSE(against.warnings.empty());
  EXPECT_THAT(against.warnings[0], HasSubstr("holds it back"));
  EXPECT_EQ(against.line_economy->stations.at(0).direction, "against-feed");
}

/// The plate under two belts, the second as told.
std::string second_belt(const std::string& direction) {
  return "[[station]]\nkind = \"belt\"\nspeed = \"10 m/s\"\ndirection = \"" + direction +
         "\"\ndrum = { radius = \"100 mm\", cover = \"15 mm\", hardness = \"40 Shore A\" }\n"
         "setting = { line_load = \"0.8 N/mm\" }\n"
         "belt = { grit = \"P80\", abrasive = \"alumina\", threshold_pressure = \"0 MPa\" }\n";
}

TEST(LineHold, UnderTwoBeltsAtOnceIsBetterIfTheyRunAgainstEachOther) {
  const auto under_all = [](const std::string& direction) {
    return result_of({.rest = second_belt(direction)}).line_economy->grip_margin_all->value;
  };
  const double along = under_all("with-feed");
  EXPECT_GT(under_all("against-feed"), along);
  // Weight counts once for both: less than under either alone.
  const Result two = result_of({.rest = second_belt("with-feed")});
  for (const StationEconomy& station : two.line_economy->stations)
    EXPECT_LT(along, station.grip_margin->value);
  EXPECT_FALSE(result_of({}).line_economy->grip_margin_all);
}

TEST(LineHold, CarriesTheBandOfFrictionAndGrip) {
  const StationEconomy station = result_of({}).line_economy->stations.at(0);
  EXPECT_LT(*station.grip_margin->low, 1.0) << "0.4 to 0.8 of grip against 0.3 to 0.6 of the belt";
  EXPECT_GT(*station.grip_margin->high, station.grip_margin->value);
  EXPECT_EQ(station.smallest_length->value, 0.0);
  EXPECT_GT(*station.smallest_length->high, 0.0) << "at the low end only a long part holds";
}

TEST(LineCost, IsAbsentWithoutPricesAndSaysSo) {
  const LineEconomy line = *result_of({}).line_economy;
  EXPECT_FALSE(line.cost);
  ASSERT_EQ(line.missing.size(), 1U);
  EXPECT_THAT(line.missing[0], HasSubstr("give [cost]"));
}

TEST(LineCost, NamesTheKeyThatACauseLacks) {
  const LineEconomy line =
      *result_of({.rest = "[environment]\ncooling = \"wet\"\n[cost]\nbelt = \"120 EUR\"\n"
                          "rework = \"1 EUR\"\n"})
           .line_economy;
  EXPECT_FALSE(line.cost) << "a price alone costs nothing yet";
  EXPECT_THAT(line.missing,
              testing::ElementsAre(HasSubstr("cost.line_rate"), HasSubstr("of cost.belt"),
                                   HasSubstr("cost.power"), HasSubstr("cost.fluid"),
                                   HasSubstr("share of cost.rework")));
}

TEST(LineCost, TakesALifeThatIsPredicted) {
  const auto setup = setup_of({.rest = "[cost]\nbelt = \"120 EUR\"\n"});
  const LineEconomy line = line_economy(setup, run(setup).stations, {4000.0});
  ASSERT_TRUE(line.cost);
  EXPECT_NEAR(line.cost->sum->value, 120.0 / 4000.0, 1e-12);
}

TEST(LineCost, PaysForTheEnergyOfAPartAndForItsBeltByArea) {
  const LineEconomy line =
      *result_of({.belt = ", length = \"2 m\", width = \"1 m\"",
                  .rest = "[cost]\npower = \"0.36 EUR/kWh\"\nbelt = { price = \"50 EUR/m2\", life "
                          "= \"10000 parts\" }\n"})
           .line_economy;
  ASSERT_EQ(line.cost->items.size(), 2U);
  EXPECT_NEAR(line.cost->items[0].per_part->value, 2 * 50.0 / 10000, 1e-12);
  EXPECT_NEAR(line.cost->items[1].per_part->value, 0.36 * line.energy->value / 3.6e9, 1e-15);
  EXPECT_NEAR(line.cost->per_length->value, line.cost->sum->value / 400, 1e-15);
}

TEST(LineCost, CountsOneBeltPriceForEachBeltStation) {
  const std::string price = "[cost]\nbelt = { price = \"120 EUR\", life = \"8000 parts\" }\n";
  const LineEconomy two = *result_of({.rest = price + second_belt("with-feed")}).line_economy;
  EXPECT_NEAR(two.cost->sum->value, 2 * 120.0 / 8000, 1e-12);
}

TEST(DriveOfABelt, IsWarnedOfWhereItsTensionHoldsTheDragNoMore) {
  // 1 + 0.4 x 1 / 0.1 = 5 > 3.51.
  const Result slack = result_of({.belt = ", tension = \"0.1 N/mm\", mass = \"0 kg/m2\""});
  EXPECT_NEAR(slack.line_economy->stations.at(0).tension_ratio->value, 5.0, 0.01);
  EXPECT_THAT(slack.warnings, testing::Contains(HasSubstr("the belt slips on its drive")));
  for (const std::string& warning : result_of({}).warnings)
    EXPECT_THAT(warning, testing::Not(HasSubstr("slips on its drive")));
}

TEST(ForcedSpeed, StandsFirstAmongWarningsAndCautions) {
  const Result result = result_of({.station = "allow_overspeed = true\n",
                                   .belt = ", speed_limit = \"8 m/s\"",
                                   .conveyor = "grip = 0.2\n"});
  ASSERT_GE(result.warnings.size(), 2U);
  EXPECT_THAT(result.warnings[0],
              HasSubstr("station[0] is forced: 10 m/s is above the 8 m/s that its belt"));
  EXPECT_THAT(result.warnings[1], HasSubstr("slips"));
  EXPECT_THAT(result.cautions[0], HasSubstr("faster than it is marked for"));
  EXPECT_EQ(result.line_economy->forced.size(), 1U);
  EXPECT_THAT(result_of({}).cautions[0], HasSubstr("A process estimate"));
}

/// The plate with bands, for the studies that go with them.
Result with_studies(const Lines& lines) {
  std::string text = text_of(lines);
  text.replace(text.find("bands = false"), 13, "bands = true");
  return run(set_up(cases::parse(text, "plate.toml")));
}

// Wet friction 0.3 for dry 0.4 (alumina): removal K = mu / u and power mu P' v go with it.
TEST(WetAndDry, StandSideBySideWithTheirFrictions) {
  const WetDryStudy study =
      *with_studies({.rest = "[cost]\nfluid = \"0.80 EUR/h\"\nline_rate = \"90 EUR/h\"\n"}).wet_dry;
  ASSERT_EQ(study.columns.size(), 2U);
  const CoolingColumn& dry = study.columns[0];
  const CoolingColumn& wet = study.columns[1];
  EXPECT_EQ(dry.cooling, "dry");
  EXPECT_EQ(wet.cooling, "wet");
  // At a set working line load both go with friction alone; the fast model is good to 1e-4.
  EXPECT_NEAR(*wet.removal / *dry.removal, 0.3 / 0.4, 1e-3);
  EXPECT_NEAR(*wet.power / *dry.power, 0.3 / 0.4, 1e-3);
  EXPECT_NEAR(*wet.grip_margin / *dry.grip_margin, (0.3 / 0.3) / (0.6 / 0.4), 1e-3);
  // 0.80 an hour over the parts of an hour.
  EXPECT_NEAR(*wet.cost - *dry.cost, 0.80 / (4000.0 * 60 / 400), 1e-9);
}

TEST(WetAndDry, AreTheRunsThemselves) {
  const WetDryStudy study = *with_studies({}).wet_dry;
  const Result dry = result_of({});
  const Result wet = result_of({.rest = "[environment]\ncooling = \"wet\"\n"});
  EXPECT_EQ(*study.columns[0].removal, dry.part.face.removal->value);
  EXPECT_EQ(*study.columns[1].removal, wet.part.face.removal->value);
  EXPECT_EQ(*study.columns[1].power, wet.line_economy->power->value);
}

TEST(WetAndDry, LeaveOutWhatABeltDoesNotStand) {
  const WetDryStudy study = *with_studies({.belt = ", backing = \"paper\""}).wet_dry;
  ASSERT_EQ(study.columns.size(), 1U);
  EXPECT_EQ(study.columns[0].cooling, "dry");
  EXPECT_THAT(study.notes[0], HasSubstr("no wet column: the belt of station[0] must stay dry"));
}

}  // namespace
}  // namespace drumlin::sim
