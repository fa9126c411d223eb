#include <utility>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_brush.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// Tips cover 20 to 60 % of the face of dense brushes (common practice, no source).
const Sourced usual_fill{0.3, 0.2, 0.6, "dense brushes 0.2 to 0.6; common practice, no source"};
const Sourced usual_web_modulus{0.3, 0.1, 1.0, "0.1 to 1 MPa; common practice, no source"};
/// Of a web on steel [1/MPa], as of abrasive nylon.
constexpr double web_removal = 1e-6;

/// Of the tips of disc and planetary heads [mm/s]; common practice, no source.
constexpr double slowest_disc = 3e3;
constexpr double fastest_disc = 10e3;

template <class... Lists>
std::vector<KeyInfo> joined(const Lists&... lists) {
  std::vector<KeyInfo> all;
  const auto add = [&all](const std::vector<KeyInfo>& keys) {
    all.insert(all.end(), keys.begin(), keys.end());
  };
  (add(infos(lists)), ...);
  return all;
}

/// The removal coefficient, and the band that goes with a stated or usual factor.
void read_abrasion(const Section& section, double usual, models::BrushAbrasion& abrasion,
                   BrushStation& station) {
  abrasion.removal_band = 0.0;
  read_each(section, abrasion_fields, abrasion);
  const bool given = section.given("removal_coefficient");
  if (!given) {
    abrasion.removal_coefficient = usual;
    section.note_default("removal_coefficient", units::format(usual, "1/MPa", 4),
                         "common practice, no source; to be calibrated on samples");
  }
  if (!section.given("removal_band"))
    abrasion.removal_band = given ? 1.0 : models::brush_removal_band;
  const double K = abrasion.removal_coefficient;
  station.removal_band = {K, K / abrasion.removal_band, K * abrasion.removal_band,
                          given ? "case" : "common practice, no source"};
}

/// Speed of a brush that has no other way to say it.
void read_tip_speed(const Section& section, BrushStation& station) {
  KeyInfo info = brush_speed_fields.front().info;
  info.required = true;
  if (const auto speed = read_quantity(section, info)) station.speed = *speed;
}

void missing_tool(const Section& section, std::string_view key, std::string_view example) {
  if (section.lacks(key))
    section.problem_at_value(key, fmt::format("missing; expected {} = {}", key, example));
}

models::Filament read_filament(const Section& section, BrushStation& station) {
  models::Filament filament;
  const auto table = section.open("filament");
  if (!table) {
    missing_tool(section, "filament",
                 R"({ material = "steel", diameter = "0.3 mm", free_length = "30 mm" })");
    return filament;
  }
  read_fields<models::Filament>(*table, filament_fields, filament);
  const auto index = read_choice(*table, filament_material_info);
  if (!index) return filament;
  const models::FilamentMaterial& material = models::filament_materials.at(*index);
  station.filament = material.name;
  station.slowest = material.slowest;
  station.fastest = material.fastest;
  const std::string source(material.source);
  const Sourced modulus{material.modulus, material.modulus_low, material.modulus_high, source};
  from_library(*table, "modulus", modulus, "MPa", filament.modulus);
  station.modulus_band = band(*table, "modulus", modulus, filament.modulus);
  from_library(*table, "density", {material.density, material.density, material.density, source},
               "kg/m3", filament.density);
  from_library(
      *table, "friction",
      {material.friction, material.friction, material.friction, "common practice, no source"}, "",
      filament.friction);
  return filament;
}

double usual_removal(const BrushStation& station) {
  for (const models::FilamentMaterial& material : models::filament_materials)
    if (material.name == station.filament) return material.removal;
  return web_removal;
}

/// A brush has a hub under what brushes, and some of that left.
void check_lengths(const Section& section, const BrushStation& station, double radius,
                   double length, std::string_view what) {
  if (length <= 0) return;
  const auto in_mm = [](double value) { return units::format(value, "mm", 6); };
  if (radius > 0 && length >= radius)
    section.problem_at_value(
        "radius", fmt::format("{} of the brush leaves no hub under its {} of {}", in_mm(radius),
                              what, in_mm(length)));
  if (station.wear.radius_loss >= length)
    section.problem_at_value(
        "worn", fmt::format("{} is not less than its {} of {}", in_mm(station.wear.radius_loss),
                            what, in_mm(length)));
}

models::FilamentBrush read_filament_brush(const Section& section, BrushStation& station) {
  models::FilamentBrush brush;
  read_each(section, filament_brush_fields, brush);
  brush.filament = read_filament(section, station);
  from_library(section, "fill", usual_fill, "", brush.fill);
  station.fill_band = band(section, "fill", usual_fill, brush.fill);
  read_abrasion(section, usual_removal(station), brush.abrasion, station);
  if (section.given("web"))
    section.problem_at_key("web", R"(belongs to a brush of type "non-woven", not "filament")");
  check_lengths(section, station, brush.radius, brush.filament.free_length, "filaments");
  return brush;
}

models::NonWovenBrush read_web(const Section& section, BrushStation& station) {
  models::NonWovenBrush brush;
  read_each(section, web_radius_fields, brush);
  if (section.given("filament"))
    section.problem_at_key("filament", R"(belongs to a brush of type "filament", not "non-woven")");
  read_abrasion(section, web_removal, brush.abrasion, station);
  const auto table = section.open("web");
  if (!table) {
    missing_tool(section, "web", R"({ depth = "40 mm" })");
    return brush;
  }
  read_fields<models::NonWovenBrush>(*table, web_fields, brush);
  from_library(*table, "contact_modulus", usual_web_modulus, "MPa", brush.contact_modulus);
  station.modulus_band = band(*table, "contact_modulus", usual_web_modulus, brush.contact_modulus);
  check_lengths(section, station, brush.radius, brush.depth, "web");
  return brush;
}

/// Wires carry no grain; nylon and webs do.
void read_grit(const Section& section, const Reading& reading, BrushStation& station) {
  const bool web = std::holds_alternative<models::NonWovenBrush>(station.brush);
  if (!web && station.filament.empty()) return;  // reported
  if (!web && station.filament != "abrasive-nylon") {
    if (section.given("grit"))
      section.problem_at_key(
          "grit", fmt::format("filaments of {} carry no grain; it belongs to abrasive-nylon and to "
                              "brushes of type \"non-woven\"",
                              station.filament));
    return;
  }
  std::optional<std::string> name = web ? "P180" : "P120";
  if (section.given("grit"))
    name = read_name(section, "grit", R"(grit with its grading, such as "P120" or "US 120")");
  else
    section.note_default("grit", *name, "common practice, no source");
  if (name)
    station.grit = look_up(section, section.given("grit") ? "grit" : "type",
                           [&] { return reading.library.grit(*name); });
}

models::DiscBrush read_disc_brush(const Section& section, BrushStation& station) {
  models::DiscBrush brush = read_discs(section, station);
  read_each(section, disc_fill_fields, brush);
  brush.filament = read_filament(section, station);
  station.slowest = slowest_disc;
  station.fastest = fastest_disc;
  from_library(section, "fill", usual_fill, "", brush.fill);
  station.fill_band = band(section, "fill", usual_fill, brush.fill);
  read_abrasion(section, usual_removal(station), brush.abrasion, station);
  check_lengths(section, station, 0.0, brush.filament.free_length, "filaments");
  return brush;
}

/// Tables that belong to other arrangements.
void refuse_tables(const Section& section, BrushArrangement arrangement) {
  const auto only = [&](std::string_view key, bool belongs, std::string_view to) {
    if (!belongs && section.given(key))
      section.problem_at_key(
          key, fmt::format("belongs to a brush of arrangement {}, not \"{}\"", to,
                           brush_arrangements[static_cast<std::size_t>(arrangement)].name));
  };
  const bool planetary = arrangement == BrushArrangement::planetary;
  only("disc", planetary || arrangement == BrushArrangement::disc, R"("disc" or "planetary")");
  only("carrier", planetary, R"("planetary")");
  only("second", arrangement == BrushArrangement::counter_rotating, R"("counter-rotating")");
}

/// The roller behind the first of a pair: the same, turning the other way, set and worn as it is
/// unless it says so.
BrushStation second_roller(const Section& section, const BrushStation& first) {
  BrushStation second = first;
  second.roller_of_pair = 2;
  second.direction =
      first.direction == Direction::with_feed ? Direction::against_feed : Direction::with_feed;
  const auto table = section.open("second");
  if (!table) return second;
  table->refuse_unknown(joined(second_roller_fields, brush_wear_fields));
  SecondRoller own;
  read_each(*table, second_roller_fields, own);
  read_each(*table, brush_wear_fields, second.wear);
  if (own.penetration) {
    second.penetration = *own.penetration;
    second.penetration_place = table->find("penetration")->place;
  }
  const auto* roller = std::get_if<models::FilamentBrush>(&second.brush);
  const double length = roller != nullptr ? roller->filament.free_length
                                          : std::get<models::NonWovenBrush>(second.brush).depth;
  check_lengths(*table, second, 0.0, length, roller != nullptr ? "filaments" : "web");
  return second;
}

}  // namespace

std::vector<BrushStation> read_brushes(const Section& section, const Reading& reading) {
  BrushStation station;
  section.refuse_unknown(joined(brush_fields, brush_speed_fields, brush_wear_fields,
                                filament_brush_fields, abrasion_fields));
  read_each(section, brush_fields, station);
  read_each(section, brush_wear_fields, station.wear);
  if (const Node* penetration = section.find("penetration"))
    station.penetration_place = penetration->place;
  const auto arrangement = read_choice(section, brush_arrangement_info);
  station.arrangement = static_cast<BrushArrangement>(arrangement.value_or(0));
  refuse_tables(section, station.arrangement);
  const bool web = read_choice(section, brush_type_info).value_or(0) == 1;
  const bool discs = station.arrangement == BrushArrangement::disc ||
                     station.arrangement == BrushArrangement::planetary;
  if (discs) {
    if (web)
      section.problem_at_value("type", "discs of web are not modelled; expected \"filament\"");
    station.brush = read_disc_brush(section, station);
    read_grit(section, reading, station);
    return {station};
  }
  read_tip_speed(section, station);
  if (web)
    station.brush = read_web(section, station);
  else
    station.brush = read_filament_brush(section, station);
  read_grit(section, reading, station);
  if (station.arrangement != BrushArrangement::counter_rotating) return {station};
  station.roller_of_pair = 1;
  BrushStation second = second_roller(section, station);
  return {std::move(station), std::move(second)};
}

}  // namespace drumlin::cases
