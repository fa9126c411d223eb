#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tests/support/run_program.hpp"

/// The life view from outside: a belt that falls from 4.0e-5 to 2.2e-5 /MPa over 8,000 parts.
namespace drumlin {
namespace {

using Json = nlohmann::json;
using support::run_program;
using support::ScratchFolder;

std::string plate(const std::string& more) {
  return R"(title = "Plate PL-11"
[part]
material = "DC01"
thickness = "1.5 mm"
[[part.feature]]
name = "edge"
kind = "outer-edge"
side = "trailing"
burr = { kind = "wall", height = "0.06 mm", root = "0.1 mm" }
[[station]]
kind = "belt"
drum = { radius = "100 mm", cover = "15 mm", hardness = "40 Shore A" }
belt = { grit = "P120", abrasive = "alumina", removal_coefficient = "4.0e-5 1/MPa", threshold_pressure = "0 MPa", life = "8000 parts", worn_share = 0.55 }
setting = { line_load = "0.5 N/mm" }
speed = "12 m/s"
)" + more +
         R"([conveyor]
speed = "4.0 m/min"
[accept]
face_removal = ">= 2.8 um"
)";
}

Json summary_of(const std::string& text) {
  const ScratchFolder scratch;
  const auto outcome = run_program({"run", scratch.file("plate.toml", text), "--out",
                                    scratch.at("out"), "--quiet", "--no-pictures"});
  EXPECT_EQ(outcome.exit_code, 0) << outcome.err;
  return Json::parse(support::read_file(scratch.at("out/summary.json")));
}

// h = K P' v / v_f: 3.58 um fresh (v = 12 m/s less the feed), 55 % of it at the end; the limit of
// 2.8 um is lost where K has fallen to 0.78 of 4.0e-5, the search good to a hundredth of the life.
TEST(LifeView, FollowsABeltOverItsParts) {
  const Json life = summary_of(plate("")).at("life_study");
  const Json& points = life.at("points");
  ASSERT_EQ(points.size(), 3U);
  EXPECT_NEAR(points[1].at("parts").get<double>(), 4000, 1e-6);
  EXPECT_NEAR(points[2].at("parts").get<double>(), 8000, 1e-6);
  const double fresh = 4e-5 * 0.5 * (12000.0 - 4000.0 / 60.0) / (4000.0 / 60.0) * 1e3;
  EXPECT_NEAR(points[0].at("face").at("removal_um").get<double>(), fresh, 0.005 * fresh);
  EXPECT_NEAR(points[2].at("face").at("removal_um").get<double>(), 0.55 * fresh, 0.005 * fresh);
  for (const Json& point : points) {
    EXPECT_TRUE(point.at("face").contains("roughness_um"));
    EXPECT_TRUE(point.at("features")[0].contains("edge_drop_um") ||
                point.at("features")[0].contains("edge_radius_um"));
  }
  EXPECT_LT(points[2].at("face").at("roughness_um"), points[0].at("face").at("roughness_um"));
  EXPECT_NEAR(life.at("feed_for_equal_removal_m_per_min").get<double>(), 2.2, 0.02 * 2.2);
  // g(x) = 2.8 / fresh for the run-in of a quarter of life.
  const double fall = (1.0 - 2.8 / fresh) * (1.0 - std::exp(-4.0)) / 0.45;
  const double lost = -0.25 * std::log(1.0 - fall) * 8000;
  EXPECT_NEAR(life.at("limit_lost_after_parts").get<double>(), lost, 0.015 * 8000);
  EXPECT_EQ(life.at("limit_lost"), "face face_removal");
}

// 8000 parts of the usual 400 mm at 4 m/min take 13.3 h: too short for 20 h, long enough for 10 h.
TEST(LifeView, IsJudgedAgainstTheLifeThatIsAskedFor) {
  const auto item = [](const std::string& limit) {
    const Json verdict = summary_of(plate("") + "belt_life = \"" + limit + "\"\n").at("verdict");
    for (const Json& entry : verdict.at("items"))
      if (entry.at("name") == "station[0] belt_life") return entry;
    return Json();
  };
  const Json short_of = item(">= 20 h");
  EXPECT_NEAR(short_of.at("value").get<double>(), 8000.0 * 0.4 / 4.0 / 60.0, 1e-6);
  EXPECT_EQ(short_of.at("unit"), "h");
  EXPECT_FALSE(short_of.at("accepted").get<bool>());
  EXPECT_TRUE(item(">= 10 h").at("accepted").get<bool>());
}

// The same belt at an age is the belt of the life view: half its parts, half-way down.
TEST(LifeView, AgreesWithARunAtThatAge) {
  const Json run = summary_of(plate("belt_age = \"4000 parts\"\n"));
  const Json& points = run.at("life_study").at("points");
  EXPECT_NEAR(run.at("face").at("removal_um").get<double>(),
              points[1].at("face").at("removal_um").get<double>(), 0.01);
  EXPECT_LT(run.at("face").at("removal_um").get<double>(),
            0.8 * points[0].at("face").at("removal_um").get<double>());
}

}  // namespace
}  // namespace drumlin
