#include "viz/lesson_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>

#include <nlohmann/json.hpp>

namespace drumlin::viz {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array<LessonColumn, sim::lesson_values> columns{{
    {"line_load", "line load", "N/mm", 2, true},
    {"working_load", "line load while the face wears", "N/mm", 2, true},
    {"load_slope", "line load per 0.1 mm", "N/mm", 2, true},
    {"half_width", "half width of the strip", "mm", 2, true},
    {"depth", "interference at work", "mm", 3, true},
    {"face_pressure", "highest pressure on the face", "MPa", 3, true},
    {"burr_pressure", "highest pressure on the burr", "MPa", 2, true},
    {"removal", "face loses", "µm", 1, true},
    {"coating_left", "coating left", "µm", 1, false},
    {"burr_left", "burr left above the face", "mm", 3, false},
    {"lip", "lip beyond the edge", "µm", 0, false},
    {"edge_drop", "edge drop", "µm", 0, false},
    {"power", "power", "W/mm", 2, true},
    {"face_heat", "hottest place of the face", "°C", 0, false},
}};

constexpr double codes = 65535;

struct Range {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
};

/// Of what is shown; of a logarithmic column without its zeros.
Range range_of(const sim::Lesson& lesson, std::size_t column) {
  Range range;
  for (const sim::LessonStep& step : lesson.steps) {
    if (!step.shown() || !step.value[column]) continue;
    const double value = *step.value[column];
    if (columns[column].logarithmic && value <= 0.0) continue;
    range.low = std::min(range.low, value);
    range.high = std::max(range.high, value);
  }
  if (!(range.high >= range.low)) return {1.0, 1.0};
  return range;
}

std::uint16_t code_of(std::optional<double> value, const Range& range, bool logarithmic) {
  if (!value) return 0;
  const bool flat = range.high <= range.low;
  if (logarithmic) {
    if (*value <= 0.0) return 1;
    const double share =
        flat ? 0.0 : std::log(*value / range.low) / std::log(range.high / range.low);
    return static_cast<std::uint16_t>(2.0 + std::round(share * (codes - 2.0)));
  }
  const double share = flat ? 0.0 : (*value - range.low) / (range.high - range.low);
  return static_cast<std::uint16_t>(1.0 + std::round(share * (codes - 1.0)));
}

void put(std::string& bytes, unsigned value) {
  bytes += static_cast<char>(value & 0xffU);
  bytes += static_cast<char>(value >> 8U & 0xffU);
}

Json axis_json(const sim::LessonAxis& axis) {
  return {{"name", axis.name},
          {"unit", axis.unit},
          {"level", axis.level},
          {"label", axis.label},
          {"own", axis.own}};
}

Json meta_of(const sim::Lesson& lesson, const std::array<Range, sim::lesson_values>& ranges) {
  Json meta;
  meta["axes"] = {{"cover", axis_json(lesson.cover)},    {"depth", axis_json(lesson.depth)},
                  {"load", axis_json(lesson.load)},      {"thickness", axis_json(lesson.thickness)},
                  {"speed", axis_json(lesson.speed)},    {"feed", axis_json(lesson.feed)},
                  {"tension", axis_json(lesson.tension)}};
  meta["by_load"] = lesson.by_load;
  Json list = Json::array();
  for (std::size_t i = 0; i < columns.size(); ++i)
    list.push_back({{"key", columns[i].key},
                    {"unit", columns[i].unit},
                    {"decimals", columns[i].decimals},
                    {"logarithmic", columns[i].logarithmic},
                    {"low", ranges[i].low},
                    {"high", ranges[i].high}});
  meta["columns"] = std::move(list);
  meta["hides"] = sim::lesson_flag::hides;
  Json warnings = Json::array();
  for (const sim::LessonWarning& warning : lesson.warnings)
    warnings.push_back({{"flag", warning.flag}, {"text", warning.text}});
  meta["warnings"] = std::move(warnings);
  meta["outcomes"] = sim::lesson_outcomes;
  meta["radius"] = lesson.drum_radius;
  meta["cover_thickness"] = lesson.cover_thickness;
  meta["coating"] = lesson.coating;
  meta["coating_thickness"] = lesson.coating_thickness;
  meta["burr"] = lesson.burr;
  meta["burr_height"] = lesson.burr_height;
  meta["burr_root"] = lesson.burr_root;
  return meta;
}

/// Inside a page nothing of it may look like a tag.
std::string in_page(const Json& json) {
  std::string text;
  for (const char c : json.dump())
    text += c == '<' ? "\\u003c" : std::string(1, c);
  return text;
}

}  // namespace

const LessonColumn& lesson_column(sim::LessonValue which) {
  return columns[static_cast<std::size_t>(which)];
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view letters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t group = 0;
    for (std::size_t k = 0; k < 3; ++k)
      group = group << 8U | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    for (std::size_t k = 0; k < 4; ++k)
      text += i + k > bytes.size() ? '=' : letters[group >> (18U - 6U * k) & 63U];
  }
  return text;
}

LessonTable lesson_table(const sim::Lesson& lesson) {
  LessonTable table;
  std::array<Range, sim::lesson_values> ranges;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    ranges[i] = range_of(lesson, i);
    if (columns[i].logarithmic)
      table.relative_error =
          std::max(table.relative_error,
                   std::expm1(0.5 * std::log(ranges[i].high / ranges[i].low) / (codes - 2.0)));
  }
  table.straight_error = 0.5 / (codes - 1.0);
  std::string bytes;
  bytes.reserve(lesson.steps.size() * 32);
  for (const sim::LessonStep& step : lesson.steps) {
    for (std::size_t i = 0; i < columns.size(); ++i)
      put(bytes, step.shown() ? code_of(step.value[i], ranges[i], columns[i].logarithmic) : 0U);
    put(bytes, step.flags);
    put(bytes, step.outcome);
  }
  table.steps = base64(bytes);
  bytes.clear();
  for (const sim::LessonShape& shape : lesson.shapes)
    for (const double share : shape)
      bytes += static_cast<char>(
          static_cast<unsigned char>(std::lround(255.0 * std::clamp(share, 0.0, 1.0))));
  table.shapes = base64(bytes);
  table.meta = in_page(meta_of(lesson, ranges));
  return table;
}

}  // namespace drumlin::viz
