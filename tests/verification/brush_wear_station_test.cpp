#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "models/brush/brush.hpp"
#include "models/brush/wear.hpp"
#include "sim/app/brush_text.hpp"
#include "tests/support/brush_cases.hpp"

/// A brush that wears between two changes: from the case file to what is read.
using namespace drumlin;
using testing::HasSubstr;
using tests::brush_line;
using tests::named;
using tests::run_text;

namespace {

/// Long steel wires, so that 3 mm less of them press hardly harder.
std::string worn_by(const std::string& wear, const std::string& length = "80 mm") {
  return "[[station]]\nkind = \"brush\"\nfilament = { material = \"steel\", diameter = \"0.3 mm\", "
         "free_length = \"" +
         length +
         "\" }\nradius = \"200 mm\"\nspeed = \"15 m/s\"\npenetration = \"1.5 mm\"\n"
         "wear_coefficient = \"1e-9 1/MPa\"\n" +
         wear;
}

/// Rollers leave sides along the feed as they are: nobody asks them for more.
constexpr const char* edge_limit =
    "[[accept.feature]]\nside = \"leading\"\nedge_radius = \">= 0.01 mm\"\n"
    "[[accept.feature]]\nside = \"trailing\"\nedge_radius = \">= 0.01 mm\"\n";

sim::Result line_with(const std::string& wear, const char* model = "line",
                      const std::string& length = "80 mm") {
  return run_text(brush_line(worn_by(wear, length), model, edge_limit));
}

}  // namespace

// Penetration 1.5 mm, 3 mm of radius worn off, not made up: no contact from 1.5 mm of wear on, no
// gain at any edge, not accepted.
TEST(WornBrushOnALine, LosesItsContactWithWhatItWasSetInBy) {
  ASSERT_EQ(line_with("").verdict.state, "accepted");
  EXPECT_GT(line_with("worn = \"1.4 mm\"\n").part.face.removal->value, 0.0);
  for (const char* worn : {"worn = \"1.5 mm\"\n", "worn = \"3 mm\"\n"}) {
    for (const char* model : {"line", "fast"}) {
      const sim::Result clear = line_with(worn, model);
      EXPECT_EQ(clear.stations[0].line_load->value, 0.0);
      EXPECT_EQ(clear.part.face.removal->value, 0.0);
      EXPECT_EQ(named(clear.part, "outline:trailing").edge_drop->value, 0.0);
      EXPECT_THAT(clear.warnings, testing::Contains(HasSubstr("the brush does not touch")));
      // Nothing works and nothing wears: there is no make-up to state.
      EXPECT_FALSE(clear.stations[0].make_up_rate.has_value());
    }
    EXPECT_EQ(line_with(worn).verdict.state, "not accepted");
  }
}

// Made up again by 3 mm, within 5 % of new at the edge. Two things stay: the tips run at 197/200 of
// their speed, 1.5 % less work, and the shorter trim is stiffer, between L^-2 and L^-2.5, by 8 to
// 10 % at 77 of 80 mm; radii go with the root of the work, so by 3 to 4.5 %. At 57 of 60 mm it is
// 5.8 %.
TEST(WornBrushOnALine, IsWithinFivePercentOfNewWhenMadeUp) {
  const sim::Result fresh = line_with("");
  const sim::Result made_up = line_with("worn = \"3 mm\"\nmake_up = \"3 mm\"\n");
  EXPECT_EQ(made_up.stations[0].penetration->value, fresh.stations[0].penetration->value);
  for (const char* edge : {"outline:leading", "outline:trailing"}) {
    const double ratio =
        named(made_up.part, edge).edge_radius->value / named(fresh.part, edge).edge_radius->value;
    EXPECT_NEAR(ratio, 1.0, 0.05) << edge;
  }
  EXPECT_EQ(made_up.verdict.state, "accepted");
  // A short trim is not as new: 30 mm of it press a quarter harder.
  const double harder = line_with("worn = \"3 mm\"\nmake_up = \"3 mm\"\n", "fast", "30 mm")
                            .stations[0]
                            .line_load->value /
                        line_with("", "fast", "30 mm").stations[0].line_load->value;
  EXPECT_GT(harder, 1.15);
}

// What the user reads: how much to move in per hour, from the wear of tips that rub all the time.
TEST(WornBrushOnALine, StatesItsMakeUpPerHour) {
  const sim::Result fresh = line_with("");
  const sim::Setup setup =
      sim::set_up(cases::parse(brush_line(worn_by(""), "line", edge_limit), "line.toml"));
  const auto& station = std::get<sim::BrushSetup>(setup.stations[0]);
  const double rate = models::wear_rate(
      station.brush, models::contact(station.brush, station.penetration, station.speed));
  ASSERT_GT(rate, 0.0);
  EXPECT_NEAR(fresh.stations[0].make_up_rate->value / rate, 1.0, 1e-12);
  const std::string text = app::brushes_text(fresh, {});
  EXPECT_THAT(text, HasSubstr("make-up"));
  EXPECT_THAT(text, HasSubstr("mm/h"));
}
