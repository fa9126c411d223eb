#include "viz/lesson_table.hpp"

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cases/reader.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/lesson.hpp"
#include "tests/support/places.hpp"

/// The table of a lesson page, read by a decoder of its own, against the fast model run anew on the
/// case as a user would edit it.
namespace drumlin {
namespace {

using Json = nlohmann::json;

std::vector<unsigned> decoded(const std::string& text) {
  std::vector<unsigned> bytes;
  unsigned bits = 0;
  int count = 0;
  for (const char c : text) {
    if (c == '=') break;
    const unsigned value = c >= 'A' && c <= 'Z'   ? static_cast<unsigned>(c - 'A')
                           : c >= 'a' && c <= 'z' ? static_cast<unsigned>(c - 'a') + 26U
                           : c >= '0' && c <= '9' ? static_cast<unsigned>(c - '0') + 52U
                           : c == '+'             ? 62U
                                                  : 63U;
    bits = (bits << 6U | value) & 0xffffffU;
    count += 6;
    if (count < 8) continue;
    count -= 8;
    bytes.push_back(bits >> static_cast<unsigned>(count) & 0xffU);
  }
  return bytes;
}

/// What a page knows: the table's text and nothing of the program.
struct PageTable {
  Json meta;
  std::vector<unsigned> bytes;

  [[nodiscard]] std::size_t count(const char* axis) const {
    return meta["axes"][axis]["level"].size();
  }
  [[nodiscard]] unsigned word(std::size_t at) const { return bytes[at] + 256U * bytes[at + 1]; }
  [[nodiscard]] bool shown(std::size_t step) const {
    return (word(32 * step + 28) & meta["hides"].get<unsigned>()) == 0;
  }
  [[nodiscard]] double value(std::size_t step, const std::string& key) const {
    for (std::size_t i = 0; i < meta["columns"].size(); ++i) {
      const Json& column = meta["columns"][i];
      if (column["key"] != key) continue;
      const double code = word(32 * step + 2 * i);
      const double low = column["low"];
      const double high = column["high"];
      if (code == 0) return std::nan("");
      if (!column["logarithmic"]) return low + (high - low) * (code - 1) / 65534;
      return code == 1 ? 0.0 : low * std::pow(high / low, (code - 2) / 65533);
    }
    return std::nan("");
  }
  [[nodiscard]] double range(const std::string& key) const {
    for (const Json& column : meta["columns"])
      if (column["key"] == key) return column["high"].get<double>() - column["low"].get<double>();
    return 0;
  }
};

struct Sliders {
  std::size_t cover, speed, tension, feed, setting, thickness;
  bool by_load;
};

std::size_t index_of(const PageTable& page, const Sliders& at) {
  const std::size_t drum = at.cover * page.count("speed") + at.speed;
  const std::size_t depths = page.count("depth") + page.count("thickness") - 1;
  if (!at.by_load)
    return ((drum * page.count("tension") + at.tension) * page.count("feed") + at.feed) * depths +
           at.setting + at.thickness;
  return page.count("cover") * page.count("speed") * page.count("tension") * page.count("feed") *
             depths +
         ((drum * page.count("feed") + at.feed) * page.count("load") + at.setting) *
             page.count("thickness") +
         at.thickness;
}

/// The case with the sliders' values written into it, in one pass over the one edge.
sim::StatedAnswer run_anew(cases::Case scenario, const PageTable& page, const Sliders& at) {
  const Json& axes = page.meta["axes"];
  const auto level = [&](const char* axis, std::size_t i) {
    return axes[axis]["level"][i].get<double>();
  };
  auto& station = std::get<cases::BeltStation>(scenario.stations.front());
  station.drum.hardness = level("cover", at.cover);
  station.speed = 1000.0 * level("speed", at.speed);
  station.belt.tension = level("tension", at.tension);
  scenario.conveyor.speed = level("feed", at.feed) / 0.06;
  if (at.by_load)
    station.setting = cases::LineLoadSetting{level("load", at.setting)};
  else
    station.setting = cases::InterferenceSetting{level("depth", at.setting)};
  std::erase_if(scenario.part.features,
                [](const cases::Feature& feature) { return feature.name != "hole-6"; });
  scenario.accept = {};
  sim::Setup setup = sim::set_up(std::move(scenario));
  sim::deepen(setup.stations[0], level("thickness", at.thickness));
  sim::fast::Drums drums;
  return sim::fast::state(setup, sim::fast::simulate(setup, drums), /*waves=*/false);
}

class LessonTable : public testing::Test {
 protected:
  void SetUp() override {
    scenario = cases::read(support::in_tree("cases/examples/panel-soft.toml"));
    const auto lesson = sim::work_out_lesson(scenario);
    ASSERT_TRUE(lesson);
    const viz::LessonTable table = viz::lesson_table(*lesson);
    page = {Json::parse(table.meta), decoded(table.steps)};
    ASSERT_EQ(page.bytes.size(), 32 * lesson->steps.size());
    // Promised: half a per cent of each value, a thousandth of a range.
    EXPECT_LT(table.relative_error, 5e-3);
    EXPECT_LT(table.straight_error, 1e-3);
  }
  void agrees(const Sliders& at);
  [[nodiscard]] double own(const char* axis) const { return page.meta["axes"][axis]["own"]; }

  cases::Case scenario;
  PageTable page;
};

void LessonTable::agrees(const Sliders& at) {
  const sim::StatedAnswer anew = run_anew(scenario, page, at);
  const auto& station = anew.stations.front();
  const auto& edge = anew.part.features.front();
  const std::size_t step = index_of(page, at);
  const auto near = [&](const char* key, double expected) {
    EXPECT_NEAR(page.value(step, key), expected, 5e-3 * std::abs(expected)) << key;
  };
  near("line_load", station.line_load->value);
  near("working_load", station.working_line_load->value);
  near("load_slope", 0.1 * station.line_load_slope->value);
  near("half_width", station.half_width->value);
  near("face_pressure", station.peak_pressure->value);
  near("burr_pressure", edge.peak_pressure->value);
  near("removal", 1e3 * anew.part.face.removal->value);
  const auto within = [&](const char* key, double expected) {
    EXPECT_NEAR(page.value(step, key), expected, 1e-3 * page.range(key)) << key;
  };
  within("coating_left", 1e3 * anew.part.face.coating_left->value);
  within("burr_left", edge.burr_height->value);
  within("edge_drop", 1e3 * edge.edge_drop->value);
}

// Own places by a plain congruential generator, so that every run checks the same ones.
TEST_F(LessonTable, HoldsWhatTheFastModelSaysOfTheEditedCase) {
  std::uint32_t state = 12345;
  const auto pick = [&](std::size_t among) {
    state = state * 1664525U + 1013904223U;
    return static_cast<std::size_t>(state >> 8U) % among;
  };
  int checked = 0;
  for (int i = 0; i < 60 && checked < 30; ++i) {
    Sliders at{.cover = pick(page.count("cover")),
               .speed = pick(page.count("speed")),
               .tension = pick(page.count("tension")),
               .feed = pick(page.count("feed")),
               .setting = 0,
               .thickness = pick(page.count("thickness")),
               .by_load = i % 2 == 1};
    at.setting = pick(page.count(at.by_load ? "load" : "depth"));
    // By line load the table knows the case's own tension only.
    if (at.by_load) at.tension = static_cast<std::size_t>(own("tension"));
    if (!page.shown(index_of(page, at))) continue;
    SCOPED_TRACE(testing::Message()
                 << at.cover << ' ' << at.speed << ' ' << at.tension << ' ' << at.feed << ' '
                 << at.setting << ' ' << at.thickness << ' ' << at.by_load);
    agrees(at);
    ++checked;
  }
  EXPECT_GE(checked, 25);
  // What must hold on the way: more interference, more load; at one depth a harder cover carries
  // more; at one line load hardness cancels on the face under Preston's law, the slope does not.
  Sliders at{0,
             static_cast<std::size_t>(own("speed")),
             static_cast<std::size_t>(own("tension")),
             static_cast<std::size_t>(own("feed")),
             0,
             static_cast<std::size_t>(own("thickness")),
             false};
  const std::size_t covers = page.count("cover");
  for (std::size_t i = 0; i + 1 < page.count("depth"); ++i) {
    at.setting = i;
    const double load = page.value(index_of(page, at), "line_load");
    at.setting = i + 1;
    EXPECT_GT(page.value(index_of(page, at), "line_load"), load);
  }
  at.setting = static_cast<std::size_t>(own("depth"));
  for (std::size_t i = 0; i + 1 < covers; ++i) {
    at.cover = i;
    const double load = page.value(index_of(page, at), "line_load");
    at.cover = i + 1;
    EXPECT_GT(page.value(index_of(page, at), "line_load"), load);
  }
  at.by_load = true;
  at.setting = static_cast<std::size_t>(own("load"));
  at.cover = 0;
  const std::size_t soft = index_of(page, at);
  at.cover = covers - 1;
  const std::size_t hard = index_of(page, at);
  // 2 %: scenario 4 of the acceptance list; the closed form h = K P' v / v_f has no hardness in it.
  EXPECT_NEAR(page.value(hard, "removal") / page.value(soft, "removal"), 1.0, 0.02);
  EXPECT_GT(page.value(hard, "load_slope"), 3.0 * page.value(soft, "load_slope"));
}

}  // namespace
}  // namespace drumlin
