#include "cases/units.hpp"

#include <cmath>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace drumlin::cases::units {
namespace {

using testing::HasSubstr;
namespace dim = models::dimension;

double inner(std::string_view text) {
  return parse(text).value;
}

std::string complaint(std::string_view text, const models::Dimension& expected) {
  try {
    static_cast<void>(parse_as(text, expected));
  } catch (const UnitError& error) {
    return error.what();
  }
  return "";
}

struct Conversion {
  const char* text;
  double inner;
  models::Dimension dimension;
};

void PrintTo(const Conversion& conversion, std::ostream* out) {
  *out << conversion.text;
}

class Units : public testing::TestWithParam<Conversion> {};

TEST_P(Units, ConvertToTheInnerSet) {
  const auto& [text, expected, dimension] = GetParam();
  const auto quantity = parse(text);
  // A handful of roundings: the number, the factor, its powers, the product.
  EXPECT_NEAR(quantity.value, expected, 8e-16 * std::abs(expected)) << text;
  EXPECT_EQ(quantity.unit.dimension, dimension) << text;
}

INSTANTIATE_TEST_SUITE_P(
    ByDefinition, Units,
    testing::Values(
        Conversion{"0.5 mm", 0.5, dim::length}, Conversion{"0.5mm", 0.5, dim::length},
        Conversion{"+0.5 mm", 0.5, dim::length}, Conversion{"-3 um", -0.003, dim::length},
        Conversion{"0.2 in", 5.08, dim::length}, Conversion{"12 um", 0.012, dim::length},
        Conversion{"12 \u00b5m", 0.012, dim::length}, Conversion{"12 \u03bcm", 0.012, dim::length},
        Conversion{"3 m/min", 50, dim::speed}, Conversion{"8 m/s", 8000, dim::speed},
        Conversion{"1e-3 mm/MPa", 1e-3, dim::compliance},
        Conversion{"4e-5 1/MPa", 4e-5, dim::per_pressure},
        Conversion{"4e-5 MPa^-1", 4e-5, dim::per_pressure},
        Conversion{"0.5 N mm", 0.5, dim::bending_stiffness},
        Conversion{"0.5 N*mm", 0.5, dim::bending_stiffness},
        Conversion{"0.5 N\u00b7mm", 0.5, dim::bending_stiffness},
        Conversion{"1100 kg/m^3", 1.1e-9, dim::density},
        Conversion{"1100 kg/m\u00b3", 1.1e-9, dim::density},
        Conversion{"7.14 g/cm3", 7.14e-9, dim::density},
        Conversion{"200 g/m2", 200e-12, dim::area_density},
        Conversion{"14 J/mm3", 14000, dim::specific_energy},
        Conversion{"2 N/mm", 2, dim::line_load}, Conversion{"2 kN/m", 2, dim::line_load},
        Conversion{"5 deg", 5 * std::numbers::pi / 180, dim::angle},
        Conversion{"5\u00b0", 5 * std::numbers::pi / 180, dim::angle},
        Conversion{"90 EUR/h", 0.025, models::Dimension{.time = -1, .money = 1}},
        Conversion{"20 degC", 293.15, dim::temperature},
        Conversion{"20 \u00b0C", 293.15, dim::temperature},
        Conversion{"293.15 K", 293.15, dim::temperature}, Conversion{"40 %", 0.4, dim::number},
        Conversion{"8000 parts", 8000, dim::parts}, Conversion{"40 Shore A", 40, dim::hardness},
        Conversion{"1 bar", 0.1, dim::pressure}, Conversion{"40", 40, dim::number}));

// 1 lb = 0.45359237 kg and 1 in = 25.4 mm by definition of 1959; psi with standard gravity.
TEST(ImperialUnits, FollowFromInchAndPound) {
  EXPECT_NEAR(inner("145.0377 psi"), 1.0, 1e-6);         // printed to seven digits
  EXPECT_NEAR(inner("1 oz/ft2"), 305.15e-12, 0.01e-12);  // ASTM A653: 305.15 g/m2
  EXPECT_DOUBLE_EQ(inner("1 ft"), 12 * inner("1 in"));
  EXPECT_DOUBLE_EQ(inner("1 lb"), inner("16 oz"));
}

TEST(SpecificEnergy, IsAPressureAThousandTimes) {
  EXPECT_EQ(parse_unit("J/mm3").dimension, dim::pressure);
  EXPECT_DOUBLE_EQ(parse_unit("J/mm3").factor, 1000);
}

TEST(EveryUnit, ComesBackAsItWasWritten) {
  for (const std::string& symbol : symbols()) {
    for (const char* number : {"3.7", "0.001", "-12", "4e-5"}) {
      // Beside 273.15 a small number keeps fewer than the twelve digits that are written.
      if (symbol == "degC" && std::abs(parse(number).value) < 0.1) continue;
      const std::string text = std::string(number) + " " + symbol;
      EXPECT_EQ(format(inner(text), symbol), text);
    }
  }
}

TEST(EveryUnit, OfACompoundComesBackToo) {
  for (const char* text :
       {"3 m/min", "7.14 g/cm3", "275 g/m2", "0.5 N mm", "90 EUR/h", "14 J/mm3"}) {
    const auto quantity = parse(text);
    EXPECT_EQ(format(quantity.value, quantity.unit.symbol), text);
  }
}

TEST(EveryExample, HasTheDimensionItStandsFor) {
  for (const auto& dimension :
       {dim::length, dim::area, dim::time, dim::speed, dim::angle, dim::temperature, dim::money,
        dim::hardness, dim::parts, dim::force, dim::pressure, dim::per_pressure, dim::line_load,
        dim::bending_stiffness, dim::compliance, dim::density, dim::area_density})
    EXPECT_EQ(parse(example(dimension)).unit.dimension, dimension) << example(dimension);
}

TEST(UnitMessages, AskForTheUnitOfABareNumber) {
  EXPECT_THAT(complaint("40", dim::hardness),
              HasSubstr("expected a hardness with its unit, such as \"40 Shore A\""));
}

TEST(UnitMessages, TellTheDimensionThatWasFound) {
  EXPECT_EQ(complaint("40 mm", dim::hardness),
            "\"40 mm\" is a length; expected a hardness, such as \"40 Shore A\"");
  EXPECT_THAT(complaint("3 m s", dim::length), HasSubstr("is a quantity in mm s;"));
  EXPECT_THAT(complaint("3 mm/s2", dim::length), HasSubstr("is a quantity in mm s^-2;"));
}

TEST(UnitMessages, NameTheNearestUnit) {
  EXPECT_THAT(complaint("3 mmm/min", dim::speed),
              HasSubstr("unknown unit \"mmm\"; nearest is \"mm\""));
  EXPECT_THAT(complaint("3 Mpa", dim::pressure),
              HasSubstr("unknown unit \"Mpa\"; nearest is \"MPa\""));
  EXPECT_THAT(complaint("40 Shor A", dim::hardness), HasSubstr("unknown unit \"Shor\""));
}

TEST(UnitMessages, ShowADecimalCommaItsPoint) {
  EXPECT_THAT(complaint("0,5 mm", dim::length), HasSubstr("write \"0.5 mm\""));
  EXPECT_THAT(complaint("-1,25mm", dim::length), HasSubstr("write \"-1.25mm\""));
}

TEST(UnitMessages, RefuseWhatIsNoFiniteNumber) {
  for (const char* text : {"nan mm", "inf mm", "-inf mm", "NaN mm", "1e999 mm", "1e308 km"})
    EXPECT_THAT(complaint(text, dim::length),
                testing::AnyOf(HasSubstr("not a finite number"), HasSubstr("computed with")))
        << text;
}

TEST(UnitMessages, RefuseWhatStandsAroundTheNumber) {
  for (const char* text :
       {"", " ", "mm", "about 5 mm", "5 mm mm mm", "--5 mm", "+-5 mm", "5.5.5 mm", "5 mm^",
        "5 mm^0", "5 mm12", "5 /mm", "5 mm/", "5 1", "0x10 mm", "5 mm or 6", "5 mm\n"})
    EXPECT_NE(complaint(text, dim::length), "") << text;
  EXPECT_THAT(complaint("1 000 mm", dim::length), HasSubstr("gap in its number"));
}

TEST(UnitMessages, RefuseADivisorThatCanBeReadInTwoWays) {
  EXPECT_THAT(complaint("3 W/m K", dim::length), HasSubstr("two ways"));
  EXPECT_EQ(complaint("3 m/m/m m", dim::length).find("unknown"), std::string::npos);
}

TEST(Celsius, StandsOnlyAlone) {
  EXPECT_THAT(complaint("3 W/degC", dim::length), HasSubstr("degC stands only alone"));
  EXPECT_THAT(complaint("3 degC m", dim::length), HasSubstr("degC stands only alone"));
}

TEST(ShoreD, IsAnotherScale) {
  EXPECT_THAT(complaint("40 Shore D", dim::hardness), HasSubstr("another scale"));
}

}  // namespace
}  // namespace drumlin::cases::units
