#include "sim/setup.hpp"

#include <cmath>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "models/elastomer/finite_strain.hpp"
#include "models/elastomer/hardness.hpp"
#include "models/elastomer/softening.hpp"
#include "sim/drum_state.hpp"
#include "tests/support/marked_case.hpp"

namespace drumlin::sim {
namespace {

using support::with;
using testing::HasSubstr;

/// The marked case with lines of [station.drum], [[station]] and [numerics] added.
struct Lines {
  std::string drum{};
  std::string station{};
  std::string numerics{};
  bool measured = false;  ///< keeps the drum's own relaxation
};

std::string text_of(const Lines& lines) {
  std::string text = support::whole_case();
  if (!lines.measured) text = support::without_relaxation(text);
  const auto add = [&](const std::string& section, const std::string& added) {
    text.insert(text.find("#@ " + section + "\n"), added + "\n");
  };
  add("station.drum", lines.drum);
  add("station", lines.station);
  add("numerics", lines.numerics);
  return text;
}

BeltSetup station_of(const Lines& lines) {
  return set_up(cases::parse(text_of(lines), "panel.toml")).belt(0);
}

const std::string at_rest =
    "cover_motion = \"static\"\ncover_geometry = \"flat\"\nbelt_grip = \"slip\"\ncover_strain = "
    "\"linear\"";

TEST(Nip, OfADrumAtRestIsTheLayerThatTheDurometerReads) {
  const BeltSetup station = station_of({.numerics = at_rest});
  const models::BeltOnCover nip = nip_of(station, 0.5);
  EXPECT_DOUBLE_EQ(nip.cover.layer.modulus, models::gent_modulus(20));
  EXPECT_EQ(nip.cover.curvature, 0);
  EXPECT_EQ(nip.cover.speed, 0);
  EXPECT_EQ(nip.belt.tension, 2);
  EXPECT_EQ(nip.belt.grain_compliance, 0) << "grains give beside the belt, not in it";
  EXPECT_EQ(nip.grip, models::Grip::slip);
  EXPECT_TRUE(std::holds_alternative<models::RateIndependent>(nip.cover.relaxation));
}

TEST(Nip, FollowsEveryOptionByDefault) {
  const BeltSetup station = station_of({.drum = "loss_factor = 0"});
  const models::BeltOnCover nip = nip_of(station, 0.75);
  // 0.75 of 15 mm is 5 %; a drum of R/t = 100/15.
  const double factor = models::finite_strain_factor(0.05, 0.47, 100.0 / 15.0);
  EXPECT_GT(factor, 1.02);
  EXPECT_NEAR(nip.cover.layer.modulus, models::gent_modulus(20) * factor, 1e-12);
  EXPECT_DOUBLE_EQ(nip.cover.curvature, 0.01);
  EXPECT_DOUBLE_EQ(nip.cover.density, 1.1e-9);
  EXPECT_EQ(nip.grip, models::Grip::stick);
}

TEST(Nip, MovesTheWayTheBeltRunsAtIt) {
  EXPECT_EQ(nip_of(station_of({}), 0.5).cover.speed, 8000);
  BeltSetup against = station_of({});
  against.with_feed = false;
  EXPECT_EQ(nip_of(against, 0.5).cover.speed, -8000);
  const std::string text = with("direction = \"with-feed\"", "direction = \"against-feed\"");
  EXPECT_FALSE(set_up(cases::parse(text, "panel.toml")).belt(0).with_feed);
}

// Centrifugal loss m' v^2: 1 kg/m2 loses 0.225 N/mm at 15 m/s and 0.9 N/mm at 30 m/s.
TEST(BeltTension, LosesWhatTheBeltsInertiaTakes) {
  BeltSetup station = station_of({});
  station.belt_mass = 1e-9;
  station.belt_speed = 15000;
  EXPECT_NEAR(tension_at_speed(station), 2 - 0.225, 1e-12);
  EXPECT_NEAR(nip_of(station, 0.5).belt.tension, 2 - 0.225, 1e-12);
  station.belt_speed = 30000;
  station.belt.tension = 0.8;
  EXPECT_EQ(tension_at_speed(station), 0) << "a belt cannot push";
  station.options.moving = false;
  EXPECT_EQ(tension_at_speed(station), 0.8);
}

TEST(Cover, WithoutLossHasAModulusThatNoRateChanges) {
  EXPECT_TRUE(std::holds_alternative<models::RateIndependent>(
      station_of({.drum = "loss_factor = 0"}).relaxation));
  EXPECT_EQ(dynamic_stiffening(station_of({.drum = "loss_factor = 0"}), 0.5), 1);
  const auto usual = station_of({}).relaxation;
  ASSERT_TRUE(std::holds_alternative<models::ConstantLoss>(usual));
  EXPECT_EQ(std::get<models::ConstantLoss>(usual).loss_factor, 0.1);
}

// G' = G(3 s) Gamma(1 - n) (3 s omega)^n cos(pi n / 2), n = (2/pi) atan(tan delta), softened by
// strain; omega = v / a, a = sqrt(1.5 R delta).
TEST(Cover, StiffensWithTheFrequencyOfTheNip) {
  const BeltSetup station = station_of({.drum = "loss_factor = 0.1"});
  const double omega = 8000 / std::sqrt(1.5 * 100 * 0.5);
  const double n = 2 / std::numbers::pi * std::atan(0.1);
  const double expected = std::tgamma(1 - n) * std::pow(3 * omega, n) *
                          std::cos(std::numbers::pi * n / 2) * models::strain_softening(0.5 / 15);
  EXPECT_NEAR(dynamic_stiffening(station, 0.5), expected, 1e-12);
  EXPECT_GT(expected, 1.2);
}

// Measured EPDM: 2.1 times stiffer at 1 kHz and 2.5 times at 10 kHz than after 3 s, within the last
// digit given.
TEST(Cover, OfMeasuredCompoundStiffensAsMeasured) {
  const BeltSetup station = station_of({.drum = "cover_material = \"EPDM-70\""});
  const double hertz = 2 * std::numbers::pi;
  EXPECT_NEAR(models::modulus_ratio(station.compound->relaxation, 1e3 * hertz).real(), 2.1, 0.05);
  EXPECT_NEAR(models::modulus_ratio(station.compound->relaxation, 1e4 * hertz).real(), 2.5, 0.05);
}

TEST(Cover, TakesTheUsersOwnRelaxationBeforeAnythingElse) {
  const auto law = station_of({.measured = true}).relaxation;
  ASSERT_TRUE(std::holds_alternative<models::PronySeries>(law));
  EXPECT_EQ(std::get<models::PronySeries>(law).relaxed, 0.5);
}

TEST(Cover, SoftensAndGrowsWithWarmth) {
  const BeltSetup cold = station_of({});
  EXPECT_EQ(cold.softening, 1);
  const BeltSetup warm = station_of({.drum = "temperature = \"43 degC\""});
  EXPECT_NEAR(warm.temperature_rise, 20, 1e-9);
  EXPECT_DOUBLE_EQ(warm.softening, models::temperature_softening(warm.temperature_rise));
  // t alpha dT (1 + nu) / (1 - nu), of the order of 0.1 mm for 20 K on 15 mm; and what speed pulls
  // out of a softer cover.
  EXPECT_NEAR(cover_growth(warm) - cover_growth(cold) / warm.softening,
              15 * 2e-4 * 20 * 1.47 / 0.53, 1e-9);
}

// rho v^2 t^2 / (2 R M); at rest nothing pulls.
TEST(Cover, GrowsWithSpeed) {
  BeltSetup station = station_of({});
  const double M = models::constrained_modulus(station.cover);
  EXPECT_NEAR(cover_growth(station), 1.1e-9 * 8000 * 8000 * 15 * 15 / (2 * 100 * M), 1e-12);
  station.options.moving = false;
  EXPECT_EQ(cover_growth(station), 0);
}

// Warm rubber relaxes earlier, so that it is read after more of its relaxation: with a_T of 39 degC
// against that of 23 degC, straight between 18 (0.118) and 25 degC (0).
TEST(Cover, OfMeasuredCompoundIsShiftedInsteadOfSoftened) {
  const BeltSetup warm =
      station_of({.drum = "cover_material = \"EPDM-70\"\ntemperature = \"39 degC\""});
  const auto after_reading = [&](double log10_shift) {
    double g = warm.compound->relaxation.relaxed;
    for (const auto& term : warm.compound->relaxation.terms)
      g += term.modulus * std::exp(-3 / (term.time * std::pow(10, log10_shift)));
    return g;
  };
  EXPECT_NEAR(warm.softening, after_reading(-0.672) / after_reading(0.118 * 2 / 7), 1e-9);
  EXPECT_NEAR(std::get<models::PronySeries>(warm.relaxation).time_shift, std::pow(10, -0.672),
              1e-9);
  EXPECT_LT(warm.softening, 1);
}

TEST(Cover, KeepsItsShiftInsideWhatWasMeasured) {
  BeltSetup station = station_of({.drum = "cover_material = \"EPDM-70\""});
  set_temperature_rise(station, 500);
  EXPECT_NEAR(std::get<models::PronySeries>(station.relaxation).time_shift, std::pow(10, -1.350),
              1e-9);
}

TEST(Lands, RaiseThePressureThatGrainsMeet) {
  const BeltSetup plain = station_of({});
  const BeltSetup lands = station_of({.drum = "land_ratio = 0.25"});
  const auto law = std::get<models::Preston>(lands.substrate.law);
  const auto plain_law = std::get<models::Preston>(plain.substrate.law);
  // A quarter of the time at four times the pressure, each time K (4 p - p_th).
  for (const double pressure : {0.001, 0.004, 0.05, 0.5})
    EXPECT_NEAR(law.per_path(pressure), 0.25 * plain_law.per_path(4 * pressure), 1e-15) << pressure;
}

std::vector<cases::Problem> problems_of(const std::string& text) {
  try {
    static_cast<void>(set_up(cases::parse(text, "panel.toml")));
  } catch (const cases::CaseError& error) {
    return error.problems();
  }
  return {};
}

std::string at_speed(const std::string& speed, const Lines& lines = {}) {
  std::string text = text_of(lines);
  return text.replace(text.find("\"8 m/s\""), 7, "\"" + speed + "\"");
}

TEST(BeltSpeed, ThatNoCoverFollowsIsRefusedAtItsPlaceWithOneThatWouldDo) {
  const std::string text = at_speed("60 m/s");
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].file, "panel.toml");
  EXPECT_EQ(problems[0].key, "station[0].speed");
  const std::size_t at = text.find("\"60 m/s\"");
  EXPECT_EQ(problems[0].line,
            1 + std::count(text.begin(), text.begin() + static_cast<long>(at), '\n'));
  EXPECT_EQ(problems[0].column, static_cast<int>(at - text.rfind('\n', at)));
  EXPECT_THAT(problems[0].text, HasSubstr("theory, no measured onset"));
  const std::string offer = "nearest speed that would do: \"";
  const std::size_t from = problems[0].text.find(offer);
  ASSERT_NE(from, std::string::npos) << problems[0].text;
  const std::size_t start = from + offer.size();
  const std::string speed =
      problems[0].text.substr(start, problems[0].text.find('"', start) - start);
  EXPECT_TRUE(problems_of(at_speed(speed)).empty()) << speed;
  // It is the nearest: half a metre per second more is refused again.
  const double more = std::stod(speed) + 0.5;
  EXPECT_EQ(problems_of(at_speed(std::to_string(more) + " m/s")).size(), 1U) << speed;
}

TEST(BeltSpeed, OfADrumAtRestIsNeverRefused) {
  EXPECT_TRUE(problems_of(at_speed("60 m/s", {.numerics = "cover_motion = \"static\""})).empty());
}

TEST(BeltSpeed, ThatAHarderCoverFollowsIsNotRefusedThere) {
  std::string text = at_speed("50 m/s");
  EXPECT_EQ(problems_of(text).size(), 1U);
  text.replace(text.find("20 Shore A"), 10, "70 Shore A");
  EXPECT_TRUE(problems_of(text).empty());
}

TEST(Inertia, IsCappedAtNineTenthsOfTheCriticalSpeed) {
  BeltSetup station = station_of({.drum = "loss_factor = 0.02"});
  const double critical = critical_speed_of(station, 0.5).value();
  station.belt_speed = 0.85 * critical;
  EXPECT_EQ(nip_of(station, 0.5).cover.density, station.density);
  station.belt_speed = 1.2 * critical;
  const models::BeltOnCover nip = nip_of(station, 0.5);
  EXPECT_EQ(nip.cover.speed, station.belt_speed) << "frequencies stay those of the belt";
  // The faster belt meets a slightly stiffer cover, whose waves are faster.
  const double most = 0.9 * critical_speed_of(station, 0.5).value();
  EXPECT_NEAR(nip.cover.density * nip.cover.speed * nip.cover.speed, station.density * most * most,
              1e-9);
}

// Without any loss the bare cover's own waves stay undamped from its Rayleigh speed on, whatever
// the belt holds down.
TEST(Inertia, OfACoverWithoutLossIsCappedAtNineTenthsOfItsRayleighSpeedToo) {
  BeltSetup station = station_of({.drum = "loss_factor = 0"});
  station.belt.bending_stiffness = 50.0;
  const double rayleigh = station.belt_speed / rayleigh_ratio(station, 0.5);
  station.belt_speed = 1.1 * rayleigh;
  const models::BeltOnCover nip = nip_of(station, 0.5);
  EXPECT_NEAR(nip.cover.density * nip.cover.speed * nip.cover.speed,
              station.density * 0.81 * rayleigh * rayleigh,
              1e-6 * station.density * rayleigh * rayleigh);
}

// Since the drum was set a thicker belt reaches deeper and a worn cover falls short of the part.
TEST(Interference, LosesWhatCoverAndBeltLost) {
  const BeltSetup as_set = station_of({});
  EXPECT_EQ(as_set.interference_offset, 0);
  const BeltSetup worn = station_of({.drum = "wear = \"0.2 mm\""});
  EXPECT_DOUBLE_EQ(worn.interference_offset, -0.2);
  EXPECT_DOUBLE_EQ(worn.cover.thickness, as_set.cover.thickness - 0.2);
  EXPECT_DOUBLE_EQ(worn.radius, as_set.radius - 0.2);
  std::string text = text_of({.drum = "wear = \"0.2 mm\""});
  text.insert(text.find("#@ station.belt\n"), "thickness_change = \"-0.1 mm\"\n");
  EXPECT_DOUBLE_EQ(set_up(cases::parse(text, "panel.toml")).belt(0).interference_offset, -0.3);
  text.replace(text.find("\"-0.1 mm\""), 9, "\"0.15 mm\"");
  EXPECT_DOUBLE_EQ(set_up(cases::parse(text, "panel.toml")).belt(0).interference_offset, -0.05);
}

TEST(Layers, EachHaveTheLawOfTheirOwnMaterial) {
  std::string text = text_of({});
  text.replace(text.find("removal_coefficient"), 35, "");
  text.insert(text.find("#@ part.coating\n"),
              "top = { material = \"primer\", thickness = \"60 um\" }\n");
  const BeltSetup station = set_up(cases::parse(text, "panel.toml")).belt(0);
  EXPECT_EQ(station.top.material, "primer");
  EXPECT_EQ(station.coating.material, "zinc");
  // K = mu / u: the softer the layer, the faster it goes.
  EXPECT_GT(station.top.coefficient, station.coating.coefficient);
  EXPECT_GT(station.coating.coefficient, station.substrate.coefficient);
  EXPECT_EQ(station_of({}).top.material, "zinc") << "as the coating where there is no other layer";
}

TEST(Grains, TakeTheirSpacingAndItsBandFromTheBelt) {
  const BeltSetup station = station_of({});
  EXPECT_DOUBLE_EQ(station.grain_spacing, 4 * 0.125);
  EXPECT_DOUBLE_EQ(station.spacing_low, 2 * 0.125);
  EXPECT_DOUBLE_EQ(station.spacing_high, 10 * 0.125);
}

TEST(Tools, ThatAreNoBeltsKeepTheirNumbers) {
  std::string text = text_of({});
  text.insert(text.find("[[station]]"),
              "[[station]]\nkind = \"knock-off\"\nclearance = \"0.2 mm\"\nline_force = \"50 "
              "N/mm\"\n[[station]]\nkind = \"flip\"\n");
  const sim::Setup setup = set_up(cases::parse(text, "panel.toml"));
  ASSERT_EQ(setup.stations.size(), 3U);
  const auto& tool = std::get<KnockOffSetup>(setup.stations[0]);
  EXPECT_EQ(tool.clearance, 0.2);
  EXPECT_EQ(tool.line_force, 50);
  EXPECT_EQ(tool.description, "knock-off, clearance 0.2 mm, 50 N/mm");
  EXPECT_EQ(std::get<FlipSetup>(setup.stations[1]).description, "part turned over");
}

}  // namespace
}  // namespace drumlin::sim
