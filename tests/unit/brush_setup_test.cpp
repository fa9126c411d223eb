#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "sim/bands.hpp"
#include "sim/setup.hpp"
#include "tests/support/marked_case.hpp"

/// What a brush station becomes before anything is solved.
namespace drumlin::sim {
namespace {

using testing::HasSubstr;

cases::Case with_brush(const std::string& lines, const std::string& diameter = "0.3 mm") {
  std::string text = support::whole_case();
  text.insert(text.find("[conveyor]"),
              "[[station]]\nkind = \"brush\"\nradius = \"150 mm\"\n" + lines +
                  "\n[station.filament]\nmaterial = \"steel\"\ndiameter = \"" + diameter +
                  "\"\nfree_length = \"30 mm\"\n");
  return cases::parse(text, "panel.toml");
}

BrushSetup brush_of(const std::string& lines) {
  return std::get<BrushSetup>(set_up(with_brush(lines)).stations.at(1));
}

// 1.6 m/min of conveyor off 20 m/s of tips, or on top of it.
TEST(BrushSetup, CountsTheConveyorsSpeed) {
  const double feed = 1600.0 / 60.0;
  const std::string set = "speed = \"20 m/s\"\npenetration = \"1 mm\"\n";
  EXPECT_NEAR(brush_of(set).speed, 20000.0 - feed, 1e-9);
  EXPECT_NEAR(brush_of(set + "direction = \"against-feed\"").speed, 20000.0 + feed, 1e-9);
}

// A brush of 150 mm that has lost 3 mm runs at 147/150 of its speed, on filaments of 27 mm, and of
// 1.5 mm penetration nothing is left; moved in by 3 mm all of it.
TEST(BrushSetup, TakesWearOffThePenetrationAndMakeUpToIt) {
  const std::string set = "speed = \"20 m/s\"\npenetration = \"1.5 mm\"\nworn = \"3 mm\"\n";
  const BrushSetup worn = brush_of(set);
  EXPECT_EQ(worn.penetration, 0.0);
  ASSERT_FALSE(worn.warnings.empty());
  EXPECT_THAT(worn.warnings.back(), HasSubstr("the brush does not touch"));
  const BrushSetup made_up = brush_of(set + "make_up = \"3 mm\"");
  EXPECT_NEAR(made_up.penetration, 1.5, 1e-12);
  EXPECT_NEAR(made_up.speed, 20000.0 * 147.0 / 150.0 - 1600.0 / 60.0, 1e-9);
  EXPECT_EQ(std::get<models::FilamentBrush>(made_up.brush).filament.free_length, 27.0);
}

// Layers go in proportion to their specific energies, as under a belt: zinc comes off easier.
TEST(BrushSetup, TakesLayersInProportionToTheirSpecificEnergy) {
  const cases::Case c = with_brush("speed = \"20 m/s\"\npenetration = \"1 mm\"");
  const double base = c.part.material.specific_energy.value;
  const double zinc = c.part.coating->material.specific_energy.value;
  const auto brush = std::get<BrushSetup>(set_up(c).stations.at(1));
  EXPECT_NEAR(brush.coating.coefficient / brush.base.coefficient, base / zinc, 1e-12);
}

std::string refusal(const cases::Case& c) {
  try {
    static_cast<void>(set_up(c));
  } catch (const cases::CaseError& error) {
    return error.what();
  }
  return {};
}

TEST(BrushSetup, RefusesWhatTheFilamentsLawDoesNotHoldFor) {
  EXPECT_THAT(refusal(with_brush("speed = \"20 m/s\"\npenetration = \"7 mm\"")),
              HasSubstr("station[1].penetration: 7 mm is left of it, more than such a brush can be "
                        "followed to; expected at most 6 mm"));
  EXPECT_THAT(refusal(with_brush("speed = \"60 m/s\"\npenetration = \"1 mm\"", "0.05 mm")),
              HasSubstr("filaments of 0.05 x 30 mm are ropes at"));
}

TEST(BrushSetup, SaysWhenTipsRunOutsideTheUsualSpeeds) {
  const BrushSetup fast = brush_of("speed = \"40 m/s\"\npenetration = \"1 mm\"");
  ASSERT_FALSE(fast.warnings.empty());
  EXPECT_THAT(fast.warnings[0], HasSubstr("outside the 10 to 35 m/s"));
}

TEST(BrushSetup, VariesWhatIsNotKnownOfTheBrush) {
  const sim::Setup setup = set_up(with_brush("speed = \"20 m/s\"\npenetration = \"1 mm\""));
  std::vector<std::string> inputs;
  for (const Variation& variation : variations(setup))
    inputs.push_back(variation.input);
  EXPECT_THAT(inputs, testing::IsSupersetOf({"station[1].removal_coefficient",
                                             "station[1].filament.modulus", "station[1].fill"}));
  sim::Setup moved = setup;
  for (const Variation& variation : variations(setup))
    if (variation.input == "part.thickness_tolerance") variation.apply(moved, true);
  EXPECT_EQ(std::get<BrushSetup>(moved.stations[1]).interference_offset, 0.07);
}

}  // namespace
}  // namespace drumlin::sim
