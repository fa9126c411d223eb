#include <algorithm>
#include <filesystem>
#include <map>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "sim/run.hpp"
#include "tests/support/places.hpp"

using namespace drumlin;

namespace {

std::filesystem::path examples() {
  return support::examples();
}

sim::Result result_of(const std::string& name, bool bands) {
  cases::Case scenario = cases::read(examples() / (name + ".toml"));
  scenario.numerics.bands = bands;
  return sim::run(sim::set_up(std::move(scenario)));
}

const sim::FeatureResult& named_in(const sim::FaceState& face, const std::string& name) {
  for (const auto& f : face.features) {
    if (f.name == name) return f;
  }
  throw std::out_of_range(name);
}

const sim::FeatureResult& named(const sim::Result& result, const std::string& name) {
  return named_in(result.part, name);
}

/// The four panels: soft and hard drum, at one interference and at one line load. Each is run when
/// first asked for.
const sim::Result& panel(const std::string& name) {
  static std::map<std::string, sim::Result> results;
  if (!results.contains(name)) results[name] = result_of("panel-" + name, false);
  return results[name];
}

}  // namespace

// The lesson at one interference: the hard drum's line load is some ten times the soft one's (the
// moduli stand 12.8 apart; the belt's own stiffness helps the soft drum), and so is what it takes.
TEST(Panels, SoftDrumSparesTheFaceAtOneInterference) {
  const double ratio =
      panel("hard").part.face.removal->value / panel("soft").part.face.removal->value;
  EXPECT_GT(ratio, 6.0);
  EXPECT_LT(ratio, 12.8);
  EXPECT_GT(panel("soft").part.face.coating_left->value, 0.0);
  EXPECT_EQ(panel("hard").part.face.coating_left->value, 0.0);
}

// An independent prototype of the same equations (single grid, another solver, looser steps) gave
// 11.7 and 101 um of face removal, 1.00 and 10.4 N/mm. Its hard-drum removal lies 3.5 % under the
// direct solution of the steady equation (PlainPass.AgreesWithTheSteadyEquationSolvedDirectly),
// which is what its tolerance here allows for.
TEST(Panels, AgreeWithAnIndependentSolverOfTheFlatStaticCase) {
  const auto flat = [](double hardness) {
    cases::Case scenario = cases::read(examples() / "panel-soft.toml");
    scenario.numerics.cover_geometry = "flat";
    scenario.numerics.cover_motion = "static";
    scenario.numerics.belt_grip = "slip";
    scenario.numerics.cover_strain = "linear";
    scenario.numerics.bands = false;
    auto& station = std::get<cases::BeltStation>(scenario.stations.front());
    station.drum.hardness = hardness;
    station.setting = cases::InterferenceSetting{0.5};
    station.belt.removal_coefficient = 4e-5;
    station.belt.threshold_pressure = 0.0;
    station.belt.bending_stiffness = 0.5;
    station.belt.tension = 2.0;
    station.belt.grain_compliance = 1e-3;
    station.speed = 8000.0;
    scenario.conveyor.speed = 8000.0 / 301.0;  // the belt runs 300 times faster than the part
    return sim::run(sim::set_up(std::move(scenario)));
  };
  const sim::Result soft = flat(20.0);
  const sim::Result hard = flat(80.0);
  EXPECT_NEAR(soft.part.face.removal->value / 11.7e-3, 1.0, 0.03);
  EXPECT_NEAR(hard.part.face.removal->value / 101e-3, 1.0, 0.04);
  EXPECT_NEAR(soft.stations[0].line_load->value / 1.00, 1.0, 0.02);
  EXPECT_NEAR(hard.stations[0].line_load->value / 10.4, 1.0, 0.02);
}

// The lesson at one line load: the face loses the same (identity: hardness cancels; 1 % for the two
// nips' sampling), the soft drum rounds the edge more, and its load answers far less to thickness.
TEST(Panels, FaceLosesTheSameAtOneLineLoadWhateverTheHardness) {
  EXPECT_NEAR(panel("soft-line-load").part.face.removal->value /
                  panel("hard-line-load").part.face.removal->value,
              1.0, 0.01);
  EXPECT_GT(panel("hard-line-load").stations[0].line_load_slope->value,
            3.0 * panel("soft-line-load").stations[0].line_load_slope->value);
}

TEST(Panels, SoftDrumRoundsTheEdgeMoreAtOneLineLoad) {
  for (const auto& f : panel("soft-line-load").part.features) {
    if (!f.edge_drop) continue;
    EXPECT_GT(f.edge_drop->value, named(panel("hard-line-load"), f.name).edge_drop->value)
        << f.name;
  }
}

// Belt and grains keep the burr pressure high on the soft drum: burr over face pressure is several
// times the hard drum's.
TEST(Panels, SoftDrumPressesRelativelyHarderOnTheBurr) {
  const auto contrast = [](const sim::Result& r) {
    double most = 0.0;
    for (const auto& f : r.part.features) {
      if (f.peak_pressure) most = std::max(most, f.peak_pressure->value);
    }
    return most / r.stations[0].peak_pressure->value;
  };
  EXPECT_GT(contrast(panel("soft")), 3.0 * contrast(panel("hard")));
}

// Mass is conserved through coating and base metal: what is left and what went make what there was.
TEST(Panels, CoatingLeftAndRemovalAddUp) {
  const double given = panel("soft").coating_thickness;
  EXPECT_NEAR(panel("soft").part.face.coating_left->value + panel("soft").part.face.removal->value,
              given, 2e-3 * given);
  EXPECT_NEAR(panel("soft").part.face.coating_left_fraction->value,
              panel("soft").part.face.coating_left->value / given, 1e-12);
}

TEST(Panels, EveryValueCarriesABandAndSaysItIsUncalibrated) {
  const sim::Result soft = result_of("panel-soft", true);
  EXPECT_FALSE(soft.calibrated);
  const auto& removal = *soft.part.face.removal;
  ASSERT_TRUE(removal.low && removal.high);
  EXPECT_LT(*removal.low, removal.value);
  EXPECT_GT(*removal.high, removal.value);
  for (const auto& f : soft.part.features) {
    if (!f.burr_height) continue;
    ASSERT_TRUE(f.burr_height->low && f.burr_height->high) << f.name;
  }
  EXPECT_THAT(soft.notes, testing::Contains(testing::HasSubstr("uncalibrated")));
  EXPECT_FALSE(soft.samples.empty());
}

// Steps report what they cost and how well they ended; the stated measure holds in every one.
TEST(Panels, EveryStepMeetsTheStatedGapError) {
  for (const auto& section : panel("soft").sections) {
    ASSERT_FALSE(section.history.empty());
    for (const auto& step : section.history) {
      EXPECT_LE(step.residual, 1e-6);
      EXPECT_GE(step.applications, 1);
    }
  }
}

TEST(Panels, GiveTheSameNumbersTwice) {
  const sim::Result again = result_of("panel-soft", false);
  EXPECT_EQ(again.part.face.removal->value, panel("soft").part.face.removal->value);
  ASSERT_EQ(again.sections.size(), panel("soft").sections.size());
  for (std::size_t k = 0; k < again.sections.size(); ++k) {
    const auto& a = again.sections[k].after;
    const auto& b = panel("soft").sections[k].after;
    ASSERT_EQ(a.size(), b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
      EXPECT_TRUE(a[i] == b[i] || (a[i] != a[i] && b[i] != b[i]));
    }
  }
}

TEST(FirstLook, RunsOnLibraryDefaultsAlone) {
  const sim::Result result = result_of("first-look", true);
  EXPECT_GT(result.part.face.removal->value, 0.0);
  EXPECT_FALSE(result.defaults.empty());
}

// What the punched panel's last comment says: the belt rolls the thin burrs into the small hole,
// the brush takes them, and the zinc beyond 2 mm stays above the customer's 7 um.
TEST(PunchedPanel, LosesToTheBrushWhatTheBeltRolledIntoTheHole) {
  const sim::Result result = result_of("panel-punched", false);
  const auto& belt = result.stations.at(0).after;
  const auto& rolled = named_in(belt, "hole-4:leading");
  EXPECT_EQ(rolled.outcome, "folded beyond the edge");
  EXPECT_GT(rolled.secondary_burr->value, 0.05);
  EXPECT_EQ(named_in(belt, "hole-8:leading").outcome, "ground off");
  for (const auto& feature : result.part.features)
    EXPECT_EQ(feature.secondary_burr->value, 0.0) << feature.name;
  EXPECT_GT(result.part.face.coating_left->value, 0.007);
  EXPECT_LT(result.part.face.coating_left->value, belt.face.coating_left->value);
  EXPECT_TRUE(result.verdict.accepted);
}

// What the bracket's last comment says: dross knocked off or ground, edges dropped without being
// round, and nearly all of the oxide still on the flanks.
TEST(LaserBracket, KeepsTheOxideOnItsFlanksWhateverBeltsDoToItsEdges) {
  const sim::Result result = result_of("bracket-laser", false);
  EXPECT_EQ(result.verdict.state, "not accepted");
  EXPECT_EQ(named(result, "outline:leading").outcome, "broken off");
  EXPECT_EQ(named(result, "hole-9:leading").outcome, "ground off");
  for (const char* name : {"outline:leading", "outline:trailing", "hole-9:leading"}) {
    const auto& edge = named(result, name);
    EXPECT_GT(edge.oxide_left->value, 0.95) << name;
    EXPECT_LT(edge.oxide_left->value, 0.99) << name;
    EXPECT_GT(edge.edge_drop->value, 0.05) << name;
    EXPECT_LT(edge.minimum_radius->value, 0.005) << name;  // less than a cell: sharp
  }
  EXPECT_GT(named(result, "tab").protrusion->value, 0.0);
}

// What the cover's last comment says: the belt rounds ends by the way it runs, the planets add
// alike at ends, sides and rims, less where tips hang into a small hole, and sides are struck at
// all.
TEST(PlanetaryCover, RoundsItsSidesAsItsEnds) {
  const sim::Result result = result_of("cover-planetary", false);
  EXPECT_TRUE(result.verdict.accepted);
  const auto& belt = result.stations.at(0).after;
  EXPECT_LT(named_in(belt, "outline:leading").edge_radius->value,
            0.7 * named_in(belt, "outline:trailing").edge_radius->value);
  // Areas add up, so what the planets round is told by the squares of the radii.
  const auto gain = [&](const char* name) {
    const double before = named_in(belt, name).edge_radius->value;
    const double after = named(result, name).edge_radius->value;
    return after * after - before * before;
  };
  const double end = gain("outline:leading");
  EXPECT_GT(end, 0.05 * 0.05);
  EXPECT_NEAR(gain("outline:trailing") / end, 1.0, 0.35);
  EXPECT_NEAR(gain("outline:side") / end, 1.0, 0.35);
  EXPECT_NEAR(gain("hole-30:side") / end, 1.0, 0.35);
  EXPECT_LT(gain("hole-6:side"), 0.8 * end);
  EXPECT_NEAR(named(result, "hole-6:side").flank_reach->value, 0.7, 0.05);
  EXPECT_EQ(named(result, "outline:side").flank_reach->value, 1.5);  // all of the sheet
  const auto& disc = result.stations.at(1).disc.value();
  EXPECT_GT(disc.rubbed_most, 2.0 * disc.rubbed_least);
}

// What the grained cover's last comment says: the first belt takes the delivered face away, the
// second its lay, the web little; the value meets 2K and the band, a factor of charts, does not.
TEST(GrainedCover, LosesItsDeliveredFaceAndMeetsItsFinishByValue) {
  const sim::Result result = result_of("cover-grained", false);
  EXPECT_TRUE(result.verdict.accepted);
  const auto& face = result.part.face;
  const auto after = [&](std::size_t i) { return result.stations.at(i).after.face; };
  EXPECT_GT(face.lay_covered->value, 0.99);
  EXPECT_LT(after(1).roughness->value, 0.7 * after(0).roughness->value);
  EXPECT_NEAR(face.roughness->value / after(1).roughness->value, 1.0, 0.1);
  EXPECT_LT(face.roughness->value, 0.5e-3);
  EXPECT_GT(*face.roughness->high, 0.5e-3);
  EXPECT_EQ(face.lay, "along the feed");
}
