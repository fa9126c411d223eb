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

TEST(OtherLayers, TakeTheirOwnDensity) {
  std::string text = support::with("thickness = \"20 um\"", "mass_class = \"ZA095\"");
  text.replace(text.find("material = \"zinc\""), 17, "material = \"zinc-alloy\"");
  // EN 10346: 95 g/m2 at 6.9 g/cm3 make 6.9 um on each face.
  EXPECT_NEAR(parse(text, "panel.toml").part.coating->thickness * 1e3, 95.0 / 2 / 6.9, 0.05);
}

}  // namespace
}  // namespace drumlin::cases
