#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/library.hpp"
#include "cases/reader.hpp"
#include "tests/support/marked_case.hpp"

/// Keys of the part as it is: how it lies, its layers, what stands on its edges, and the tools that
/// are no belts.
namespace drumlin::cases {
namespace {

using support::whole_case;
using support::with;
using support::with_added;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

Case parsed(const std::string& text) {
  return parse(text, "panel.toml");
}

const Belt& belt_of(const Case& scenario) {
  return std::get<BeltStation>(scenario.stations.at(0)).belt;
}

/// The marked case with its burr replaced by another.
Case with_burr(const std::string& burr, const std::string& oxide = "") {
  std::string text = oxide.empty() ? whole_case() : with_added("part.coating", oxide);
  const std::size_t at = text.find("[part.feature.burr]");
  const std::string marker = "#@ part.feature.burr\n";
  const std::size_t end = text.find(marker) + marker.size();
  return parsed(text.replace(at, end - at, "[part.feature.burr]\n" + burr + "\n"));
}

TEST(Part, TellsWhichWayItsBurrsPoint) {
  EXPECT_EQ(parsed(whole_case()).part.burr_side, BurrSide::up);
  EXPECT_EQ(parsed(with_added("part", "burr_side = \"down\"")).part.burr_side, BurrSide::down);
  EXPECT_THAT(parsed(whole_case()).defaults, Contains(StartsWith("part.burr_side = up: ")));
}

TEST(Part, TakesBowAndAngleWithTheirEffect) {
  std::string text = with("angle = \"0 deg\"", "angle = \"90 deg\"\nbow = \"0.2 mm\"");
  const Case c = parsed(text);
  EXPECT_EQ(c.part.bow, 0.2);
  EXPECT_NEAR(c.part.angle, 1.5707963267948966, 1e-15);
  for (const UnusedKey& unused : c.unused)
    EXPECT_THAT(unused.key, Not(StartsWith("part.")));
}

TEST(Feature, TakesItsPlaceOnThePart) {
  const Case c = parsed(with_added("part.feature", "along = \"50 mm\"\nacross = \"-20 mm\""));
  EXPECT_EQ(c.part.features[0].along, 50);
  EXPECT_EQ(c.part.features[0].across, -20);
}

TEST(Coating, GoesToTheOtherFaceAsWellUnlessTheCaseSaysOtherwise) {
  EXPECT_DOUBLE_EQ(parsed(whole_case()).part.coating->reverse_thickness, 0.020);
  const Case other = parsed(with_added("part.coating", "reverse_thickness = \"5 um\""));
  EXPECT_DOUBLE_EQ(other.part.coating->reverse_thickness, 0.005);
}

// Z200 at 7.14 g/cm3 makes 28.0 um on both faces together, whatever the split.
TEST(Coating, OfAClassLeavesTheOtherShareToTheOtherFace) {
  const auto coating =
      parsed(with("thickness = \"20 um\"", "mass_class = \"Z200\"\nsplit = \"40 %\"")).part.coating;
  EXPECT_DOUBLE_EQ(coating->thickness + coating->reverse_thickness, 0.200 / 7.14);
  EXPECT_NEAR(coating->thickness / coating->reverse_thickness, 0.4 / 0.6, 1e-12);
}

TEST(Coating, TakesALayerOverIt) {
  const auto coating =
      parsed(with_added("part.coating",
                        "bare_below = \"1 um\"\ntop = { material = \"primer\", thickness = \"60 "
                        "um\" }"))
          .part.coating;
  ASSERT_TRUE(coating->top);
  EXPECT_EQ(coating->top->material.family, "polymer");
  EXPECT_DOUBLE_EQ(coating->top->thickness, 0.060);
  EXPECT_DOUBLE_EQ(coating->bare_below, 0.001);
}

TEST(Coating, CountsAsBareFarBelowItsThinnestClass) {
  const Case c = parsed(whole_case());
  // A hundredth of the 5 um that the thinnest class may have on a face.
  EXPECT_DOUBLE_EQ(c.part.coating->bare_below, 0.005 / 100);
  EXPECT_THAT(c.defaults, Contains(StartsWith("part.coating.bare_below = 0.05 um: ")));
}

TEST(Oxide, LiesOnTheFlanksWithoutAnyLayerOnTheFaces) {
  const Case c = parsed(with("material = \"zinc\"\nthickness = \"20 um\"", "oxide = \"15 um\""));
  EXPECT_FALSE(c.part.coating);
  EXPECT_DOUBLE_EQ(c.part.flank_oxide, 0.015);
  const Case both = parsed(with_added("part.coating", "oxide = \"15 um\""));
  EXPECT_TRUE(both.part.coating);
  EXPECT_DOUBLE_EQ(both.part.flank_oxide, 0.015);
  for (const UnusedKey& unused : both.unused)
    EXPECT_NE(unused.key, "part.coating.oxide");
}

TEST(Burr, OfEveryKindIsReadByItsOwnKeys) {
  const auto bead = with_burr(
      "kind = \"bead\"\nwidth = \"2 mm\"\nheight = \"1 mm\"\nspecific_energy = \"30 "
      "J/mm3\"\nbond_strength = \"50 MPa\"");
  EXPECT_EQ(std::get<models::Bead>(bead.part.features[0].burr).specific_energy, 30000);
  EXPECT_TRUE(bead.part.features[0].burr_bands.empty()) << "given, so without a band";
  const auto rolled =
      with_burr("kind = \"rolled\"\noverhang = \"0.1 mm\"\nthickness = \"0.05 mm\"");
  EXPECT_EQ(std::get<models::RolledBurr>(rolled.part.features[0].burr).overhang, 0.1);
  EXPECT_TRUE(
      std::holds_alternative<models::NoBurr>(with_burr("kind = \"none\"").part.features[0].burr));
}

TEST(Burr, OfAStubBelongsToAStub) {
  std::string text = whole_case();
  text.erase(text.find("[[accept.feature]]"),
             text.find("#@ accept.feature") - text.find("[[accept.feature]]"));
  text.replace(text.find("kind = \"hole\"\nsize = \"6 mm\""), 27,
               "kind = \"stub\"\nsize = \"0.5 mm\"");
  const std::size_t at = text.find("kind = \"wall\"");
  text.replace(at, text.find("#@ part.feature.burr\n") - at,
               "kind = \"stub\"\nprotrusion = \"0.4 mm\"\nheight = \"0 mm\"\nroot = \"0.2 mm\"\n");
  const Feature feature = parsed(text).part.features[0];
  EXPECT_EQ(feature.kind, FeatureKind::stub);
  EXPECT_EQ(feature.size, 0.5);
  EXPECT_EQ(std::get<models::Stub>(feature.burr).protrusion, 0.4);
}

// 1.5 times the yield stress; the band from 1.3 times its lower to twice its upper end.
TEST(Burr, TakesTheFlowStressOfTheMetalWithItsBand) {
  const Case c = with_burr("kind = \"rolled\"\noverhang = \"0.1 mm\"\nthickness = \"0.05 mm\"");
  const Sourced yield = *c.part.material.yield_stress;
  const Sourced& band = c.part.features[0].burr_bands.at("flow_stress");
  EXPECT_DOUBLE_EQ(std::get<models::RolledBurr>(c.part.features[0].burr).flow_stress,
                   1.5 * yield.value);
  EXPECT_DOUBLE_EQ(band.low, 1.3 * yield.low);
  EXPECT_DOUBLE_EQ(band.high, 2 * yield.high);
}

TEST(Burr, IsDrossUnlessOxygenLeftItsOxide) {
  const std::string bead = "kind = \"bead\"\nwidth = \"2 mm\"\nheight = \"1 mm\"";
  const Case dross = with_burr(bead);
  const Case slag = with_burr(bead, "oxide = \"15 um\"");
  const Library library;
  for (const auto& [c, name] : {std::pair(&dross, "dross"), std::pair(&slag, "slag")}) {
    const auto& burr = std::get<models::Bead>(c->part.features[0].burr);
    EXPECT_EQ(burr.bond_strength, library.material(name).bond_strength->value);
    EXPECT_EQ(burr.specific_energy, library.material(name).specific_energy.value);
    EXPECT_EQ(c->part.features[0].burr_bands.at("bond_strength").high,
              library.material(name).bond_strength->high);
    EXPECT_THAT(c->defaults,
                Contains(testing::AllOf(StartsWith("part.feature[0].burr.bond_strength = "),
                                        HasSubstr(std::string(name) + " of the library, band "))));
  }
}

// As wide on the face as its foot is said to be, by either word; else a half circle.
TEST(Burr, OfDrossIsAHalfCircleUnlessItsFootIsGiven) {
  const auto width = [](const std::string& line) {
    const Case c = with_burr("kind = \"bead\"\nheight = \"1 mm\"\n" + line);
    return std::get<models::Bead>(c.part.features[0].burr).width;
  };
  EXPECT_EQ(width("width = \"2.5 mm\""), 2.5);
  EXPECT_EQ(width("root = \"2.5 mm\""), 2.5);
  EXPECT_EQ(width(""), 2);
}

TEST(Belt, CutsWithGrainsSomeDiametersApart) {
  std::string text = whole_case();
  const Belt usual = belt_of(parsed(text));
  // P120: 0.125 mm; 4 of them, 2 to 10 as the table of grits says.
  EXPECT_DOUBLE_EQ(usual.grain_spacing, 4 * 0.125);
  EXPECT_DOUBLE_EQ(usual.grain_spacing_band.low, 2 * 0.125);
  EXPECT_DOUBLE_EQ(usual.grain_spacing_band.high, 10 * 0.125);
  const Belt given = belt_of(parsed(with_added("station.belt", "grain_spacing = \"0 mm\"")));
  EXPECT_EQ(given.grain_spacing, 0);
  EXPECT_EQ(given.grain_spacing_band.high, 0);
}

TEST(Station, KnowsWhatHappenedSinceItWasSet) {
  const Case worn = parsed(with_added("station.drum", "wear = \"0.2 mm\""));
  EXPECT_EQ(std::get<BeltStation>(worn.stations[0]).drum.wear, 0.2);
  const Case thin = parsed(with_added("station.belt", "thickness_change = \"-0.1 mm\""));
  EXPECT_EQ(belt_of(thin).thickness_change, -0.1);
}

TEST(Line, TakesToolsThatAreNoBelts) {
  std::string text = whole_case();
  text.insert(text.find("[[station]]"),
              "[[station]]\nkind = \"knock-off\"\nclearance = \"0.2 mm\"\n[[station]]\nkind = "
              "\"flip\"\n");
  const Case c = parsed(text);
  ASSERT_EQ(c.stations.size(), 3U);
  const auto& tool = std::get<KnockOffStation>(c.stations[0]);
  EXPECT_EQ(tool.clearance, 0.2);
  EXPECT_EQ(tool.line_force, 200);
  EXPECT_TRUE(std::holds_alternative<FlipStation>(c.stations[1]));
  EXPECT_THAT(c.defaults, Contains(StartsWith("station[0].line_force = 200 N/mm: ")));
}

TEST(Limits, TakeSharesAndSignedEdgeSizes) {
  const Case c = parsed(
      with_added("accept", "edge_size = \"-0.3..-0.05 mm\"\nminimum_radius = \">= 0.1 mm\""));
  EXPECT_DOUBLE_EQ(*c.accept.limits.at("edge_size").low, -0.3);
  EXPECT_DOUBLE_EQ(*c.accept.limits.at("edge_size").high, -0.05);
  std::string text = with_added("accept", "flank_oxide = \"<= 5 %\"");
  text.insert(text.find("#@ part.coating"), "oxide = \"15 um\"\n");
  const Limit oxide = parsed(text).accept.limits.at("flank_oxide");
  EXPECT_DOUBLE_EQ(*oxide.high, 0.05);
  EXPECT_EQ(oxide.unit, "%");
  EXPECT_DOUBLE_EQ(oxide.scale, 0.01);
}

}  // namespace
}  // namespace drumlin::cases
