// Scatter of a case against closed forms: a plain face under a fixed line load loses K P' v / v_f.

#include "cases/scatter.hpp"

#include <cmath>
#include <filesystem>
#include <fstream>

#include <boost/math/distributions/normal.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/reader.hpp"
#include "sim/run.hpp"
#include "sim/scatter/scatter_study.hpp"

namespace drumlin::sim {
namespace {

using testing::HasSubstr;

constexpr double coefficient = 3e-5;  // 1/MPa
constexpr double line_load = 0.6;     // N/mm
constexpr double speed_ratio = 180;   // 12 m/s on 4 m/min

/// The flat face of acceptance scenario 1, without a layer, a burr or a threshold.
std::string flat_face(const std::string& setting, const std::string& limit,
                      const std::string& uncertainty) {
  return R"(
[part]
material = "S235"
thickness = "3 mm"
width = "200 mm"
length = "300 mm"
[[part.feature]]
name = "front"
kind = "outer-edge"
side = "leading"
burr = { kind = "none" }
[[station]]
kind = "belt"
drum = { radius = "100 mm", cover = "15 mm", hardness = "40 Shore A" }
setting = { )" +
         setting + R"( }
speed = "12 m/s"
direction = "with-feed"
[station.belt]
grit = "P120"
abrasive = "ceramic"
removal_coefficient = "3e-5 1/MPa"
threshold_pressure = "0 MPa"
[conveyor]
speed = "4 m/min"
[accept]
face_removal = ")" +
         limit + R"("
[numerics]
model = "fast"
bands = false
[uncertainty]
)" + uncertainty;
}

ScatterStudy studied(const std::string& text, unsigned threads = 0) {
  const cases::Case scenario = cases::parse(text, "face.toml");
  const Result result = run(set_up(scenario));
  return scatter_study(cases::scatter_of(scenario), result.part, result.verdict,
                       {.threads = threads, .progress = {}, .stop = {}});
}

// ln r = ln K + ln P' + const is normal with the variances added: everything follows.
TEST(ScatterOfAFlatFace, HasTheProbabilityAndSharesOfAProductOfLognormals) {
  const double k = std::log(1.2);
  const double load = std::log(1.1);
  const double sigma = std::hypot(k, load);
  const double median = 1e3 * coefficient * line_load * speed_ratio;  // um
  // Belt and part move the same way: v is their difference, one 180th less; the limit stands in um.
  constexpr double limit = 4.2;
  const ScatterStudy s = studied(flat_face(
      "line_load = \"0.6 N/mm\"", "<= 4.2 um",
      "size = 1024\n"
      "\"station[0].belt.removal_coefficient\" = { kind = \"lognormal\", median = \"3e-5 1/MPa\", "
      "factor = 1.2 }\n"
      "\"station[0].setting.line_load\" = { kind = \"lognormal\", median = \"0.6 N/mm\", factor = "
      "1.1 }\n"
      "\"station[0].drum.hardness\" = \"5 Shore A\"\n"));
  ASSERT_EQ(s.limits.size(), 1U);
  const ScatterOutput& face = s.limits[0];
  EXPECT_EQ(face.name, "face face_removal");
  EXPECT_NEAR(face.value->p50, median, 0.01 * median);
  EXPECT_NEAR(face.value->p95, face.value->p50 * std::exp(1.6449 * sigma), 0.005 * limit);
  EXPECT_NEAR(face.value->p5, face.value->p50 * std::exp(-1.6449 * sigma), 0.005 * limit);
  const double truth = cdf(boost::math::normal(), std::log(limit / face.value->p50) / sigma);
  // 2048 even points: the order 0.75 of pick_freeze_test leaves some 0.002.
  EXPECT_NEAR(face.met->value, truth, 0.004);
  EXPECT_LT(face.met->low, truth);
  EXPECT_GT(face.met->high, truth);
  EXPECT_EQ(s.all_met->met, face.met->met);
  const double whole = std::expm1(sigma * sigma);
  EXPECT_NEAR(face.shares[0].first, std::expm1(k * k) / whole, 0.01);
  EXPECT_NEAR(face.shares[1].first, std::expm1(load * load) / whole, 0.01);
  EXPECT_NEAR(face.shares[0].total, std::exp(load * load) * std::expm1(k * k) / whole, 0.01);
  EXPECT_NEAR(face.shares[1].total, std::exp(k * k) * std::expm1(load * load) / whole, 0.01);
  // Hardness cancels at equal line load (acceptance scenario 1).
  EXPECT_NEAR(face.shares[2].total, 0, 1e-6);
  EXPECT_NEAR(*face.margin_deviations, face.margin->mean / face.margin->deviation, 1e-12);
  EXPECT_THAT(face.decides,
              HasSubstr("scatter of station[0].belt.removal_coefficient decides: 0.7"));
}

// One input, linear: the margin in deviations is the argument of Phi.
TEST(ScatterOfAFlatFace, OfOneNormalKeyIsPhiOfItsMarginInDeviations) {
  const ScatterStudy s = studied(flat_face("line_load = \"0.6 N/mm\"", "<= 3.6 um",
                                           "\"station[0].belt.removal_coefficient\" = \"3e-6 "
                                           "1/MPa\"\n"));
  const ScatterOutput& face = s.limits.at(0);
  EXPECT_NEAR(face.value->deviation, 0.1 * face.value->mean, 0.002 * face.value->mean);
  const double phi = cdf(boost::math::normal(), *face.margin_deviations);
  EXPECT_NEAR(face.met->value, phi, 0.006);
  EXPECT_NEAR(face.shares.at(0).first, 1, 0.02);
  EXPECT_NEAR(face.shares.at(0).total, 1, 0.02);
}

TEST(ScatterOfAFlatFace, SaysTheUpperEndWhereNothingFails) {
  const ScatterStudy s = studied(flat_face("line_load = \"0.6 N/mm\"", "<= 40 um",
                                           "size = 64\n\"station[0].belt.removal_coefficient\" = "
                                           "\"1e-6 1/MPa\"\n"));
  EXPECT_EQ(s.limits.at(0).met->met, 128U);
  EXPECT_EQ(s.limits[0].met->high, 1);
  EXPECT_NEAR(s.limits[0].met->low, std::pow(0.025, 1.0 / 128), 1e-12);
}

// A drum set by its gap: a thicker sheet is more interference and nothing else.
TEST(ScatterOfThickness, IsFeltAsInterference) {
  const std::string set = "interference = \"0.3 mm\"";
  const ScatterStudy sheet =
      studied(flat_face(set, "<= 40 um", "size = 32\n\"part.thickness\" = \"0.03 mm\"\n"));
  const ScatterStudy gap = studied(
      flat_face(set, "<= 40 um", "size = 32\n\"station[0].setting.interference\" = \"0.03 mm\"\n"));
  const auto& a = sheet.limits.at(0).values;
  const auto& b = gap.limits.at(0).values;
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i)
    EXPECT_NEAR(a[i], b[i], 1e-6 * b[i]) << i;
  EXPECT_GT(sheet.limits[0].value->deviation, 0.05 * sheet.limits[0].value->mean);
  const auto said = testing::Contains(HasSubstr("comes to them as interference"));
  EXPECT_THAT(sheet.notes, said);
}

// Draws beyond what makes a case count as not met, and are said.
TEST(ScatterThatMakesNoCase, CountsAsNotMet) {
  const ScatterStudy s = studied(flat_face(
      "interference = \"4 mm\"", "<= 400 um",
      "size = 64\n\"station[0].drum.cover\" = { kind = \"uniform\", low = \"3 mm\", high = \"20 "
      "mm\" }\n"));
  ASSERT_FALSE(s.failures.empty());
  EXPECT_EQ(s.failures[0].what, "bad input");
  EXPECT_GT(s.failures[0].draws, 0U);
  EXPECT_LE(s.limits.at(0).met->met, s.draws - s.failures[0].draws);
  EXPECT_EQ(s.limits[0].met->of, s.draws);
  EXPECT_EQ(s.limits[0].not_known, s.failures[0].draws);
  EXPECT_THAT(s.notes, testing::Contains(HasSubstr("count as not met")));
}

TEST(ScatterOfACase, DoesNotDependOnThreadsAndDoesOnTheSeed) {
  const std::string text = flat_face("interference = \"0.3 mm\"", "<= 8 um",
                                     "size = 32\nseed = 3\n\"part.thickness\" = \"0.03 mm\"\n"
                                     "\"station[0].drum.hardness\" = \"4\"\n");
  const ScatterStudy one = studied(text, 1);
  const ScatterStudy two = studied(text, 2);
  EXPECT_EQ(one.limits.at(0).values, two.limits.at(0).values);
  EXPECT_EQ(one.limits[0].shares[0].total, two.limits[0].shares[0].total);
  std::string other = text;
  other.replace(other.find("seed = 3"), 8, "seed = 4");
  EXPECT_NE(studied(other).limits.at(0).values, one.limits[0].values);
}

}  // namespace
}  // namespace drumlin::sim
