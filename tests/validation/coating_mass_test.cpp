#include <gtest/gtest.h>

#include "cases/library.hpp"
#include "cases/reader.hpp"
#include "tests/support/marked_case.hpp"

namespace drumlin::cases {
namespace {

struct PublishedClass {
  const char* name;
  double by_density;  ///< [um] per face at an even split and 7.14 g/cm3, worked by hand
  double typical;     ///< [um] as published; 0: none
};

void PrintTo(const PublishedClass& row, std::ostream* out) {
  *out << row.name;
}

class ZincClass : public testing::TestWithParam<PublishedClass> {};

double thickness_um(const std::string& name) {
  const std::string text = support::with("thickness = \"20 um\"", "mass_class = \"" + name + "\"");
  return parse(text, "panel.toml").part.coating->thickness * 1e3;
}

// mass / 2 / 7.14 to one decimal: half of the last digit is 0.05 um.
TEST_P(ZincClass, HasTheThicknessOfItsMass) {
  EXPECT_NEAR(thickness_um(GetParam().name), GetParam().by_density, 0.05);
}

// Published typical values are rounded to whole micrometres, some upwards by up to 0.7 um.
TEST_P(ZincClass, LiesWithinAMicrometreOfThePublishedTypicalValue) {
  if (GetParam().typical > 0) {
    EXPECT_NEAR(thickness_um(GetParam().name), GetParam().typical, 1.0);
  }
}

TEST_P(ZincClass, LiesWithinItsPublishedRange) {
  const CoatingClass row = Library().coating_class(GetParam().name);
  EXPECT_GE(thickness_um(GetParam().name), row.low * 1e3);
  EXPECT_LE(thickness_um(GetParam().name), row.high * 1e3);
}

// EN 10346 (values of the older EN 10326 table): triple-spot mass of both faces, typical thickness.
INSTANTIATE_TEST_SUITE_P(
    En10346, ZincClass,
    testing::Values(PublishedClass{"Z100", 7.0, 7}, PublishedClass{"Z140", 9.8, 10},
                    PublishedClass{"Z200", 14.0, 14}, PublishedClass{"Z225", 15.8, 16},
                    PublishedClass{"Z275", 19.3, 20}, PublishedClass{"Z350", 24.5, 25},
                    PublishedClass{"Z450", 31.5, 32}, PublishedClass{"Z600", 42.0, 42}));

// ASTM A653: 1 oz/ft2 = 305.15 g/m2 = 1.68 mil on both faces; G90 is 0.90 oz/ft2.
INSTANTIATE_TEST_SUITE_P(AstmA653, ZincClass,
                         testing::Values(PublishedClass{"G30", 6.4, 0},
                                         PublishedClass{"G60", 12.8, 0},
                                         PublishedClass{"G90", 19.2, 0},
                                         PublishedClass{"G140", 29.9, 0},
                                         PublishedClass{"G235", 50.2, 0}));

// ASTM A653: 0.90 oz/ft2 is 1.68 mil x 0.90 on both faces, 25.4 um to the mil; the mil is printed
// to three digits, 0.3 %.
TEST(AstmA653Zinc, AgreesWithItsOwnThicknessInMils) {
  EXPECT_NEAR(thickness_um("G90"), 0.90 * 1.68 * 25.4 / 2, 0.003 * 19.2);
}

// ASTM A653 pairs G90 with Z275: 274.6 against 275 g/m2.
TEST(AstmA653Zinc, IsTheEuropeanClassOfItsPair) {
  EXPECT_NEAR(thickness_um("G90"), thickness_um("Z275"), 0.05);
}

// A user's question, worked by hand: Z200, equal split, 7.14 g/cm3; 5.0 um gone leave 9.0, 64 %.
TEST(Z200, LosingFiveMicrometresKeepsSixtyFourPercent) {
  const double start = thickness_um("Z200");
  EXPECT_NEAR(start - 5.0, 9.0, 0.05);
  EXPECT_NEAR((start - 5.0) / start, 0.64, 0.005);
}

struct OtherClass {
  const char* name;
  const char* layer;
  double mass;     ///< [g/m2] both faces
  double density;  ///< [g/cm3]
  double typical;  ///< [um] as published
};

void PrintTo(const OtherClass& row, std::ostream* out) {
  *out << row.name;
}

class OtherLayer : public testing::TestWithParam<OtherClass> {};

// EN 10346: masses of both faces at the layer's own density; typical thicknesses are printed in
// whole micrometres, upwards by up to 0.7 um.
TEST_P(OtherLayer, TakesItsOwnDensity) {
  std::string text = support::with("thickness = \"20 um\"",
                                   "mass_class = \"" + std::string(GetParam().name) + "\"");
  text.replace(text.find("material = \"zinc\""), 17,
               "material = \"" + std::string(GetParam().layer) + "\"");
  const auto coating = parse(text, "panel.toml").part.coating;
  const double expected = GetParam().mass / 2 / GetParam().density;
  EXPECT_NEAR(coating->thickness * 1e3, expected, 1e-9 * expected);
  EXPECT_NEAR(coating->reverse_thickness * 1e3, expected, 1e-9 * expected);
  EXPECT_NEAR(coating->thickness * 1e3, GetParam().typical, 1.0);
}

INSTANTIATE_TEST_SUITE_P(En10346, OtherLayer,
                         testing::Values(OtherClass{"ZA095", "zinc-alloy", 95, 6.9, 7},
                                         OtherClass{"ZA130", "zinc-alloy", 130, 6.9, 10},
                                         OtherClass{"ZF100", "galvannealed", 100, 7.1, 7},
                                         OtherClass{"ZF140", "galvannealed", 140, 7.1, 10},
                                         OtherClass{"ZM120", "zinc-magnesium", 120, 6.6, 9},
                                         OtherClass{"ZM310", "zinc-magnesium", 310, 6.6, 24}));

}  // namespace
}  // namespace drumlin::cases
