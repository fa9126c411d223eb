#include "sim/lesson_axes.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include <fmt/format.h>

#include "models/elastomer/hardness.hpp"

namespace drumlin::sim {
namespace {

/// Step of interference and of sheet thickness alike, so that both add up on one grid [mm]. A hand
/// wheel reads a tenth; half of that shows the curve.
constexpr double step = 0.05;
/// Thickness either way [mm]: what sheets of 1 to 2 mm scatter by, and a trainer's round number.
constexpr int thickness_steps = 2;
/// Steps of interference below and above the case's own.
constexpr int most_below = 7;
constexpr int most_above = 6;

constexpr double same_hardness = 4;  // Shore A: closer than that two steps look alike
constexpr double same_speed = 0.08;  // of the speed

LessonAxis axis(std::string name, std::string unit) {
  LessonAxis made;
  made.name = std::move(name);
  made.unit = std::move(unit);
  return made;
}

void label(LessonAxis& axis) {
  for (const double level : axis.level)
    axis.label.push_back(fmt::format("{:.4g} {}", level, axis.unit));
}

/// Puts the case's own value among round ones, in place of one that is all but the same.
template <class Same>
void place_own(LessonAxis& axis, double own, const Same& same) {
  std::erase_if(axis.level, [&](double level) { return same(level, own); });
  const auto place = std::lower_bound(axis.level.begin(), axis.level.end(), own);
  axis.own = static_cast<std::size_t>(place - axis.level.begin());
  axis.level.insert(place, own);
}

LessonAxis covers(const cases::Drum& drum) {
  LessonAxis made = axis("cover", "Shore A");
  made.level = {20, 30, 40, 50, 60, 70, 80};
  if (drum.hardness) {
    place_own(made, *drum.hardness,
              [](double a, double b) { return std::abs(a - b) < same_hardness; });
    label(made);
    return made;
  }
  // A cover that the case gives by its modulus stands where its stiffness puts it.
  const auto softer = std::count_if(made.level.begin(), made.level.end(), [&](double hardness) {
    return models::gent_modulus(hardness) < *drum.modulus;
  });
  label(made);
  made.own = static_cast<std::size_t>(softer);
  // No hardness belongs to it: 0 marks it.
  made.level.insert(made.level.begin() + softer, 0.0);
  made.label.insert(made.label.begin() + softer, fmt::format("E {:.4g} MPa", *drum.modulus));
  return made;
}

LessonAxis speeds(double own) {
  LessonAxis made = axis("belt speed", "m/s");
  made.level = {5, 8, 12, 16, 20, 26};
  place_own(made, own, [](double a, double b) { return std::abs(a - b) < same_speed * b; });
  label(made);
  return made;
}

LessonAxis tensions(double own) {
  LessonAxis made = axis("belt tension", "N/mm");
  if (own > 0.0) {
    made.level = {own / 2, own, 2 * own};
    made.own = 1;
  } else {
    made.level = {0, 1, 2};
  }
  label(made);
  return made;
}

LessonAxis feeds(double own) {
  LessonAxis made = axis("feed", "m/min");
  for (const double factor : {0.5, 1.0, 1.5, 2.0})
    made.level.push_back(factor * own);
  made.own = 1;
  label(made);
  return made;
}

/// Interferences around the case's own, none so shallow that thin sheet would hang clear.
LessonAxis depths(double own, bool exact) {
  LessonAxis made = axis("interference", "mm");
  const double from = exact ? own : std::max(step * std::round(own / step), 2 * step);
  const int below = std::clamp(static_cast<int>(std::floor(from / step + 1e-6)) - 1, 0, most_below);
  for (int i = -below; i <= most_above; ++i)
    made.level.push_back(from + step * i);
  made.own = static_cast<std::size_t>(below);
  made.exact = exact;
  label(made);
  return made;
}

/// Two figures of a number, so that a line load that was reckoned can be read.
double two_figures(double value) {
  const double unit = std::pow(10.0, std::floor(std::log10(value)) - 1.0);
  return unit * std::round(value / unit);
}

LessonAxis loads(double own, bool exact) {
  LessonAxis made = axis("line load", "N/mm");
  const double from = exact ? own : two_figures(std::max(own, 1e-3));
  for (const double factor : {0.5, 0.75, 1.0, 1.5, 2.0, 3.0})
    made.level.push_back(factor * from);
  made.own = 2;
  made.exact = exact;
  label(made);
  return made;
}

LessonAxis thicknesses() {
  LessonAxis made = axis("sheet thickness", "mm");
  for (int i = -thickness_steps; i <= thickness_steps; ++i)
    made.level.push_back(step * i);
  made.own = thickness_steps;
  for (const double level : made.level)
    made.label.push_back(level == 0.0 ? "nominal" : fmt::format("{:+.2f} mm", level));
  return made;
}

bool across_drum(const cases::Feature& feature) {
  return !feature.side || *feature.side != cases::Side::side;
}

}  // namespace

std::optional<LessonTopic> lesson_topic(const cases::Case& scenario) {
  LessonTopic topic;
  const auto first = std::find_if(
      scenario.stations.begin(), scenario.stations.end(),
      [](const auto& station) { return std::holds_alternative<cases::BeltStation>(station); });
  if (first == scenario.stations.end()) return std::nullopt;
  topic.station = static_cast<std::size_t>(first - scenario.stations.begin());
  // The tallest; one on an edge along the feed only where there is no other.
  double best = 0.0;
  for (std::size_t i = 0; i < scenario.part.features.size(); ++i) {
    const cases::Feature& feature = scenario.part.features[i];
    const double height = models::height_of(feature.burr);
    if (height <= 0.0) continue;
    const double rank = across_drum(feature) ? 1e3 + height : height;
    if (rank <= best) continue;
    best = rank;
    topic.burr = i;
  }
  return topic;
}

cases::Case reduced_case(const cases::Case& scenario, const LessonTopic& topic) {
  cases::Case one = scenario;
  one.stations = {scenario.stations[topic.station]};
  one.conveyor.passes = 1;
  one.part.features.clear();
  one.part.angle = 0.0;
  one.part.burr_side = cases::BurrSide::up;
  one.accept = {};
  one.numerics.model = "fast";
  one.numerics.bands = false;
  if (topic.burr) {
    cases::Feature feature = scenario.part.features[*topic.burr];
    if (!feature.side || *feature.side == cases::Side::side) feature.side = cases::Side::trailing;
    one.part.features = {std::move(feature)};
  }
  return one;
}

void lay_out_sliders(const cases::Case& reduced, double depth, double load, Lesson& lesson) {
  const auto& station = std::get<cases::BeltStation>(reduced.stations.front());
  lesson.by_load = std::holds_alternative<cases::LineLoadSetting>(station.setting);
  lesson.cover = covers(station.drum);
  lesson.speed = speeds(station.speed / 1000.0);
  lesson.tension = tensions(station.belt.tension);
  lesson.feed = feeds(reduced.conveyor.speed * 0.06);
  const auto* set = std::get_if<cases::InterferenceSetting>(&station.setting);
  lesson.depth = depths(set != nullptr ? set->interference : depth, set != nullptr);
  const auto* force = std::get_if<cases::LineLoadSetting>(&station.setting);
  lesson.load = loads(force != nullptr ? force->line_load : load, force != nullptr);
  lesson.thickness = thicknesses();
}

}  // namespace drumlin::sim
