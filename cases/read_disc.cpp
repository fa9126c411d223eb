#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_brush.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

std::string in_mm(double length) {
  return units::format(length, "mm", 6);
}

/// Tip speed by the station's `speed` or by the disc's `spindle_speed`.
void read_speed(const Section& section, const Section& table, const DiscKeys& keys,
                BrushStation& station) {
  read_each(section, brush_speed_fields, station);
  if (section.given("speed") && keys.spindle_speed)
    table.problem_at_key("spindle_speed", "give it or the station's speed, not both");
  else if (keys.spindle_speed)
    station.speed = 2.0 * std::numbers::pi * keys.brush.radius * *keys.spindle_speed;
  else if (section.lacks("speed"))
    section.problem(
        R"(expected the tips' speed, such as "8 m/s", or disc.spindle_speed, such as "1200 rpm")");
}

void check_discs(const Section& table, const models::DiscBrush& brush) {
  if (brush.radius > 0 && brush.inner_radius >= brush.radius)
    table.problem_at_value("inner_radius",
                           fmt::format("{} is not less than the disc's radius of {}",
                                       in_mm(brush.inner_radius), in_mm(brush.radius)));
  if (brush.heads > 1 && table.lacks("head_pitch"))
    table.problem(R"(several heads need their head_pitch, such as "150 mm")");
  if (brush.heads == 1 && table.given("head_pitch"))
    table.note_unused("head_pitch", "there is one head");
}

void read_carrier(const Section& section, BrushStation& station, models::DiscBrush& brush) {
  const auto table = section.open("carrier");
  if (!table) {
    if (section.lacks("carrier"))
      section.problem_at_value(
          "carrier",
          R"(missing; expected carrier = { radius = "150 mm", speed = "60 rpm", discs = 4 })");
    return;
  }
  CarrierKeys keys;
  read_fields<CarrierKeys>(*table, carrier_fields, keys);
  brush.carrier_radius = keys.radius;
  brush.discs = keys.discs;
  const double spindle = station.speed / (2.0 * std::numbers::pi * brush.radius);
  if (spindle > 0.0) brush.carrier_turns = (keys.opposite ? -1.0 : 1.0) * keys.speed / spindle;
  if (brush.discs < 2 || brush.radius <= 0.0 || brush.carrier_radius <= 0.0) return;
  // Chord between neighbouring axes.
  const double apart = 2.0 * brush.carrier_radius * std::sin(std::numbers::pi / brush.discs);
  if (apart < 2.0 * brush.radius)
    table->problem_at_value(
        "discs", fmt::format("{} discs of {} radius do not fit: their axes stand {} apart",
                             brush.discs, in_mm(brush.radius), in_mm(apart)));
}

}  // namespace

models::DiscBrush read_discs(const Section& section, BrushStation& station) {
  for (const std::string_view key : {"direction", "rows"})
    if (section.given(key)) section.note_unused(key, "discs turn on the face and have none");
  if (section.given("radius"))
    section.problem_at_key("radius", "is a roller's; a disc's stands in disc = { radius = ... }");
  DiscKeys keys;
  const auto table = section.open("disc");
  if (!table) {
    if (section.lacks("disc"))
      section.problem_at_value(
          "disc", R"(missing; expected disc = { radius = "75 mm", inner_radius = "30 mm" })");
    return keys.brush;
  }
  auto known = infos(disc_length_fields);
  known.push_back(spindle_fields.front().info);
  table->refuse_unknown(known);
  read_each(*table, disc_length_fields, keys.brush);
  read_each(*table, spindle_fields, keys);
  check_discs(*table, keys.brush);
  read_speed(section, *table, keys, station);
  if (station.arrangement == BrushArrangement::planetary)
    read_carrier(section, station, keys.brush);
  return keys.brush;
}

}  // namespace drumlin::cases
