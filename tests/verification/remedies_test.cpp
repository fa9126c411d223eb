#include "sim/remedy/remedies.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <random>
#include <sstream>

#include <gtest/gtest.h>

#include "tests/support/places.hpp"
#include "tests/support/remedied_case.hpp"

using namespace drumlin;
using support::studied;

namespace {

const std::string file = support::in_tree("cases/examples/made-here.toml");

constexpr double K = 3e-5;           // [1/MPa]
constexpr double load = 0.6;         // [N/mm]
constexpr double belt_speed = 12e3;  // [mm/s]
constexpr double feed = 4000.0 / 60.0;

/// A flat face under one belt that runs with the feed, set by line load: h = K P' (v_b - v_f) /
/// v_f.
std::string flat_face(const std::string& limit, const std::string& belt = {},
                      const std::string& station = {}) {
  return R"(title = "flat face"
[part]
material = "DC01"
thickness = "1.5 mm"
width = "300 mm"
length = "400 mm"
[[station]]
kind = "belt"
drum = { radius = "100 mm", cover = "15 mm", hardness = "30 Shore A" }
setting = { line_load = "0.6 N/mm" }
speed = "12 m/s"
)" + station +
         R"([station.belt]
grit = "P120"
abrasive = "ceramic"
removal_coefficient = "3e-5 1/MPa"
threshold_pressure = "0 MPa"
speed_limit = "40 m/s"
)" + belt +
         R"([conveyor]
speed = "4 m/min"
[accept]
face_removal = ")" +
         limit +
         "\"\n[numerics]\nmodel = \"fast\"\ncover_motion = \"static\"\ncover_strain = \"linear\"\n";
}

double removal(double P, double v, double f) {
  return K * P * (v - f) / f;
}

const sim::RemedyKnob& knob_of(const sim::RemedyStudy& study, const sim::Remedy& remedy) {
  return study.knobs[static_cast<std::size_t>(remedy.changes.front().knob)];
}

std::optional<double> root_of(const sim::RemedyStudy& study, const std::string& key) {
  for (const sim::Remedy& remedy : study.limits.front().remedies)
    if (knob_of(study, remedy).key == key) return remedy.changes.front().to;
  return std::nullopt;
}

std::optional<double> elasticity_of(const sim::RemedyStudy& study, const std::string& key,
                                    const std::string& quantity) {
  for (const sim::Sensitivity& moved : study.sensitivities)
    if (study.knobs[static_cast<std::size_t>(moved.knob)].key == key && moved.quantity == quantity)
      return moved.elasticity;
  return std::nullopt;
}

bool holds(const sim::RowAnswer& answer, const std::string& name) {
  if (name == "all limits") {
    return std::all_of(answer.verdict.items.begin(), answer.verdict.items.end(), [](const auto& i) {
      return !i.margin || *i.margin >= -1e-9 * std::abs(i.high.value_or(i.low.value_or(1)));
    });
  }
  for (const sim::VerdictItem& item : answer.verdict.items)
    if (item.name == name)
      return item.margin.value() >= -1e-9 * std::abs(item.high.value_or(item.low.value_or(1)));
  ADD_FAILURE() << name;
  return false;
}

std::string shipped(const std::string& name) {
  std::ifstream in(support::examples() + name + ".toml");
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

}  // namespace

// Preston 1927 with the line load given: the face knows neither drum nor cover, so every root is a
// formula. The fast model finds the working depth to 1e-5 of itself, and with it load and removal:
// roots agree to 2e-5. The search itself is held to 1e-6 of the root: that much less does not do.
TEST(Remedies, OfAFlatFaceAreThoseOfPrestonsLaw) {
  for (const double wanted : {2e-3, 5e-3}) {
    const bool less = wanted < removal(load, belt_speed, feed);
    const std::string text = flat_face(fmt::format("{} {} um", less ? "<=" : ">=", 1e3 * wanted));
    const auto study = studied(text, file);
    ASSERT_FALSE(study.limits.empty());
    const double conveyor = K * load * belt_speed / (wanted + K * load);
    const double belt = feed * (1.0 + wanted / (K * load));
    const double press = wanted * feed / (K * (belt_speed - feed));
    const auto expect = [&](const char* key, double root) {
      const auto found = root_of(study, key);
      ASSERT_TRUE(found) << key;
      EXPECT_NEAR(*found / root, 1.0, 2e-5) << key;
      const auto knob = std::find_if(study.knobs.begin(), study.knobs.end(),
                                     [&](const sim::RemedyKnob& k) { return k.key == key; });
      const double back = *found > *knob->now ? -1e-6 : 1e-6;
      const auto with = [&](double value) {
        return holds(
            support::answer_to(
                *support::rewritten(text, key, support::written_number(*knob, value)), file),
            study.limits.front().name);
      };
      EXPECT_TRUE(with(*found)) << key;
      EXPECT_FALSE(with(*found * (1.0 + back))) << key;
    };
    expect("conveyor.speed", conveyor * 0.06);
    expect("station[0].speed", belt * 1e-3);
    expect("station[0].setting.line_load", press);
    // At equal line load hardness cancels on the face.
    EXPECT_FALSE(root_of(study, "station[0].drum.hardness"));
  }
}

TEST(Remedies, AndTheirSensitivitiesAreItsExponents) {
  const auto study = studied(flat_face("<= 2 um"), file);
  const char* lost = "face removal";
  // Second order in a step of half a per cent: below 1e-5 of the exponent.
  EXPECT_NEAR(elasticity_of(study, "station[0].setting.line_load", lost).value(), 1.0, 1e-5);
  const double slip = belt_speed / (belt_speed - feed);
  EXPECT_NEAR(elasticity_of(study, "station[0].speed", lost).value(), slip, 1e-5);
  EXPECT_NEAR(elasticity_of(study, "conveyor.speed", lost).value(), -slip, 1e-5);
  EXPECT_NEAR(elasticity_of(study, "station[0].drum.hardness", lost).value(), 0.0, 1e-5);
  EXPECT_NEAR(elasticity_of(study, "conveyor.speed", "throughput").value(), 1.0, 1e-9);
  for (const sim::Sensitivity& moved : study.sensitivities)
    EXPECT_TRUE(moved.smooth || moved.quantity != lost) << moved.knob;
}

// Acceptance numbers of a belt at the end of its life: K falls from 4.0e-5 to 2.2e-5 under a fixed
// line load, and equal removal asks 2.2 instead of 4.0 m/min (2 %).
TEST(Remedies, OfAWornOutBeltAreANewOneOrTheSlowerFeed) {
  const std::string wanted =
      fmt::format(">= {:.12g} um", 1e3 * removal(load, belt_speed, feed) * (1.0 - 1e-9));
  const auto study =
      studied(flat_face(wanted, "worn_share = 0.55\n", "belt_age = \"100 %\"\n"), file);
  EXPECT_NEAR(root_of(study, "conveyor.speed").value(), 2.2, 0.02 * 2.2);
  // Exactly, with the belt running with the feed.
  const double h = removal(load, belt_speed, feed);
  EXPECT_NEAR(root_of(study, "conveyor.speed").value() / 0.06,
              0.55 * K * load * belt_speed / (h + 0.55 * K * load), 1e-5 * feed);
  const auto& remedies = study.limits.front().remedies;
  EXPECT_TRUE(std::any_of(remedies.begin(), remedies.end(), [&](const sim::Remedy& remedy) {
    return knob_of(study, remedy).key == "station[0].belt_age" &&
           remedy.changes.front().text == "a new belt";
  }));
}

// The finer level: the file itself changed, read and run as any other. What is claimed passes, and
// a hundredth of the way less does not.
TEST(Remedies, OfShippedCasesHoldInTheChangedFileAndNotAHundredthShortOfIt) {
  int checked = 0;
  for (const char* name : {"panel-hard", "first-look"}) {
    const std::string text = shipped(name) + "\n[numerics]\nmodel = \"fast\"\n";
    const auto study = studied(text, file);
    ASSERT_FALSE(study.limits.empty()) << name;
    for (const sim::SoughtLimit& sought : study.limits) {
      for (const sim::Remedy& remedy : sought.remedies) {
        const sim::Turned& turned = remedy.changes.front();
        const sim::RemedyKnob& knob = knob_of(study, remedy);
        if (!turned.to || !knob.now || knob.key == "conveyor.passes") continue;
        const auto with = [&](double value) {
          const auto changed =
              support::rewritten(text, knob.key, support::written_number(knob, value));
          return changed ? std::optional(support::answer_to(*changed, file)) : std::nullopt;
        };
        const auto there = with(*turned.to);
        if (!there) continue;  // several keys at once
        EXPECT_TRUE(holds(*there, sought.name)) << name << ' ' << sought.name << ' ' << knob.key;
        EXPECT_TRUE(holds(*with(turned.setting.value()), sought.name)) << name << ' ' << knob.key;
        const double short_of_it = *knob.now * std::pow(*turned.to / *knob.now, 0.99);
        EXPECT_FALSE(holds(*with(short_of_it), sought.name)) << name << ' ' << knob.key;
        ++checked;
      }
    }
  }
  EXPECT_GE(checked, 10);
}

// What the line model is said to confirm, it confirms in the changed file, and the other way round.
TEST(Remedies, AreConfirmedByTheLineModelOrSaidNotToBe) {
  int asked = 0;
  for (const char* name : {"panel-hard", "first-look"}) {
    const std::string text = shipped(name) + "\n[numerics]\nbands = false\n";
    const auto study = studied(text, file);
    for (const sim::SoughtLimit& sought : study.limits) {
      for (const sim::Remedy& remedy : sought.remedies) {
        if (!remedy.line) continue;
        ++asked;
        const sim::RemedyKnob& knob = knob_of(study, remedy);
        const auto changed = support::rewritten(
            text, knob.key, support::written_number(knob, remedy.changes.front().setting.value()));
        ASSERT_TRUE(changed) << knob.key;
        EXPECT_EQ(holds(support::answer_to(*changed, file), sought.name), remedy.line->confirmed)
            << name << ' ' << knob.key;
      }
    }
  }
  EXPECT_EQ(asked, 6);  // the first three of each case
}

namespace {

/// A panel drawn at random, with limits that often fail.
class Panels {
 public:
  std::string text() {
    const bool by_load = even(0, 1) < 0.4;
    std::string out = "title = \"drawn\"\n[part]\nmaterial = \"DX51D\"\nthickness = \"1.5 mm\"\n";
    out += "[part.coating]\nmaterial = \"zinc\"\nmass_class = \"Z275\"\n";
    out += fmt::format(
        "[[part.feature]]\nname = \"hole\"\nkind = \"hole\"\nsize = \"6 mm\"\nside = "
        "\"trailing\"\nburr = {{ kind = \"wall\", height = \"{:.3f} mm\", root = \"{:.3f} mm\" "
        "}}\n",
        even(0.05, 0.2), even(0.05, 0.2));
    out += fmt::format(
        "[[station]]\nkind = \"belt\"\ndrum = {{ radius = \"100 mm\", cover = \"15 mm\", hardness "
        "= "
        "\"{:.1f} Shore A\" }}\nsetting = {{ {} }}\nspeed = \"{:.2f} m/s\"\n",
        even(20, 80),
        by_load ? fmt::format("line_load = \"{:.3f} N/mm\"", even(0.2, 2))
                : fmt::format("interference = \"{:.3f} mm\"", even(0.06, 0.5)),
        even(5, 14));
    out += "[station.belt]\ngrit = \"P120\"\nabrasive = \"ceramic\"\nspeed_limit = \"15 m/s\"\n";
    out += fmt::format("[conveyor]\nspeed = \"{:.2f} m/min\"\npasses = 1\n", even(1, 6));
    out +=
        fmt::format("[accept]\nburr_height = \"<= {:.3f} mm\"\ncoating_left = \">= {:.1f} um\"\n",
                    even(0.0, 0.05), even(5, 15));
    return out + "[numerics]\nmodel = \"fast\"\n";
  }

 private:
  double even(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_()) / 4294967296.0;
  }
  std::mt19937 engine_{2027};
};

}  // namespace

TEST(Remedies, ClaimedForCasesDrawnAtRandomHoldWhenRunAgain) {
  Panels panels;
  int claims = 0;
  int pairs = 0;
  for (int i = 0; i < 100; ++i) {
    const std::string text = panels.text();
    const auto study = studied(text, file);
    const auto check = [&](const sim::Remedy& remedy, const std::string& limit) {
      std::string changed = text;
      for (const sim::Turned& turned : remedy.changes) {
        const sim::RemedyKnob& knob = study.knobs[static_cast<std::size_t>(turned.knob)];
        const std::string value =
            turned.to ? support::written_number(knob, turned.setting.value_or(*turned.to))
                      : '"' + turned.text + '"';
        const auto rewritten = support::rewritten(changed, knob.key, value);
        if (!rewritten) return;  // all burrs at once
        changed = *rewritten;
        if (!turned.to) continue;
        EXPECT_GE(*turned.to, *knob.low * (1 - 1e-12)) << knob.key;
        EXPECT_LE(*turned.to, *knob.high * (1 + 1e-12)) << knob.key;
        if (knob.key == "station[0].speed") {
          EXPECT_LE(turned.setting.value_or(*turned.to), 15.0);
        }
      }
      const auto answer = support::answer_to(changed, file);
      EXPECT_TRUE(holds(answer, limit)) << i << ' ' << limit << '\n' << changed;
      for (const sim::VerdictItem& item : answer.verdict.items) {
        if (item.name == limit || !item.margin || std::abs(*item.margin) < 1e-9) continue;
        const bool said = std::find(remedy.failing.begin(), remedy.failing.end(), item.name) !=
                          remedy.failing.end();
        EXPECT_EQ(said, *item.margin < 0) << i << ' ' << item.name;
      }
      ++claims;
    };
    for (const sim::SoughtLimit& sought : study.limits)
      for (const sim::Remedy& remedy : sought.remedies)
        check(remedy, sought.name);
    for (const sim::Remedy& pair : study.pairs) {
      check(pair, "all limits");
      ++pairs;
    }
  }
  EXPECT_GE(claims, 100);
  EXPECT_GE(pairs, 5);
}

TEST(Remedies, AreTheSameEveryTime) {
  const std::string text = shipped("panel-hard") + "\n[numerics]\nmodel = \"fast\"\n";
  const auto one = studied(text, file);
  const auto other = studied(text, file);
  EXPECT_EQ(one.evaluations, other.evaluations);
  ASSERT_EQ(one.limits.size(), other.limits.size());
  for (std::size_t i = 0; i < one.limits.size(); ++i) {
    ASSERT_EQ(one.limits[i].remedies.size(), other.limits[i].remedies.size());
    for (std::size_t k = 0; k < one.limits[i].remedies.size(); ++k)
      EXPECT_EQ(one.limits[i].remedies[k].changes.front().to,
                other.limits[i].remedies[k].changes.front().to);
  }
}

TEST(Remedies, NeverGoAboveAMarkedSpeedNorAboveTheCasesOwnWhereNoneIsMarked) {
  std::string text = flat_face(">= 12 um");
  const auto marked = studied(text, file);
  // 12 um would ask 44 m/s of a belt that is marked with 40.
  EXPECT_FALSE(root_of(marked, "station[0].speed"));
  text.erase(text.find("speed_limit"), std::string("speed_limit = \"40 m/s\"\n").size());
  const auto unmarked = studied(text, file);
  for (const sim::Looked& looked : unmarked.limits.front().looked)
    if (unmarked.knobs[static_cast<std::size_t>(looked.knob)].key == "station[0].speed") {
      EXPECT_EQ(looked.way, -1);
    }
}

TEST(Remedies, AreNotProposedForACaseThatRunsAToolTooFast) {
  std::string text = flat_face("<= 2 um", {}, "allow_overspeed = true\n");
  text.replace(text.find("40 m/s"), 6, "10 m/s");
  const auto study = studied(text, file);
  EXPECT_NE(study.forced, "");
  EXPECT_TRUE(study.limits.empty());
  EXPECT_TRUE(study.pairs.empty());
}

TEST(Remedies, OfALimitMetNarrowlyAreWhereEachKnobLosesIt) {
  const double h = 1e3 * removal(load, belt_speed, feed);
  const auto study = studied(flat_face(fmt::format("<= {:.9g} um", 1.05 * h)), file);
  ASSERT_EQ(study.limits.size(), 1U);
  EXPECT_FALSE(study.limits.front().failed);
  for (const sim::Looked& looked : study.limits.front().looked) {
    if (study.knobs[static_cast<std::size_t>(looked.knob)].key != "station[0].setting.line_load")
      continue;
    EXPECT_EQ(looked.found, looked.way > 0);
    if (looked.found) {
      EXPECT_NEAR(*looked.to, 1.05 * load, 1e-6);
    }
  }
}
