#include <array>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_station.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// A measured relaxation, of the library or of the case; at most one of the three ways is taken.
void read_rate(const Section& section, const Reading& reading, Drum& drum) {
  constexpr auto ways =
      std::to_array<std::string_view>({"loss_factor", "cover_material", "relaxation"});
  std::string_view taken;
  for (const std::string_view way : ways) {
    if (!section.given(way)) continue;
    if (!taken.empty())
      section.problem_at_key(way, "give at most one of loss_factor, cover_material, relaxation");
    taken = way;
  }
  if (section.given("cover_material"))
    if (const auto name =
            read_name(section, "cover_material", "a cover of the library, such as \"EPDM-70\""))
      drum.cover_material =
          look_up(section, "cover_material", [&] { return reading.library.cover(*name); });
  if (const auto relaxation = section.open("relaxation")) {
    drum.relaxation = read_relaxation(*relaxation);
    drum.relaxation->name = "the case";
  }
}

/// A measured cover says nothing about temperatures that it was not measured at.
void check_temperature(const Section& section, const Drum& drum) {
  if (!drum.cover_material || !drum.temperature || drum.cover_material->shifts.empty()) return;
  const double low = drum.cover_material->shifts.front().temperature;
  const double high = drum.cover_material->shifts.back().temperature;
  if (*drum.temperature >= low && *drum.temperature <= high) return;
  section.problem_at_value(
      "temperature",
      fmt::format("{} is outside what was measured on {}; expected {} to {}",
                  units::format(*drum.temperature, "degC", 6), drum.cover_material->name,
                  units::format(low, "degC", 6), units::format(high, "degC", 6)));
}

void check_lengths(const Section& section, const Drum& drum) {
  if (drum.radius > 0 && drum.cover >= drum.radius)
    section.problem_at_value("cover", fmt::format("{} is not thinner than the drum's radius, {}",
                                                  units::format(drum.cover, "mm", 6),
                                                  units::format(drum.radius, "mm", 6)));
  if (drum.cover > 0 && drum.wear >= drum.cover)
    section.problem_at_value(
        "wear", fmt::format("{} is not less than the cover's thickness, {}",
                            units::format(drum.wear, "mm", 6), units::format(drum.cover, "mm", 6)));
}

/// What the case leaves open about the cover: of its own compound where that was measured.
void read_cover_defaults(const Section& section, const ElastomerDefaults& usual, Drum& drum) {
  const auto& measured = drum.cover_material;
  from_library(section, "poisson", measured ? measured->poisson : usual.poisson, "",
               drum.poisson_ratio);
  from_library(section, "density", measured ? measured->density : usual.density, "kg/m3",
               drum.density);
  if (!section.given("cover_material") && !section.given("relaxation"))
    from_library(section, "loss_factor", usual.loss_factor, "", drum.loss_factor);
  from_library(section, "thermal_expansion", usual.thermal_expansion, "1/K",
               drum.thermal_expansion);
  drum.loss_factor_band = usual.loss_factor;
  drum.thermal_expansion_band =
      band(section, "thermal_expansion", usual.thermal_expansion, drum.thermal_expansion);
  if (!section.given("temperature"))
    section.note_default("temperature", units::format(durometer_temperature, "degC", 6),
                         "the cover as the durometer found it; a drum at work runs 0 to 20 K "
                         "warmer, common practice, no source");
}

}  // namespace

void from_library(const Section& section, std::string_view key, const Sourced& sourced,
                  std::string_view unit, double& value) {
  if (section.given(key)) return;
  value = sourced.value;
  section.note_default(key,
                       unit.empty() ? units::format_number(value) : units::format(value, unit, 6),
                       sourced.source);
}

Sourced band(const Section& section, std::string_view key, const Sourced& sourced, double value) {
  return section.given(key) ? Sourced{value, value, value, "case"} : sourced;
}

Drum read_drum(const Section& station, const Reading& reading) {
  Drum drum;
  const auto section = station.open("drum");
  if (!section) {
    if (station.lacks("drum"))
      station.problem_at_value("drum",
                               "missing; expected drum = { radius = \"100 mm\", cover = \"15 mm\", "
                               "hardness = \"40 Shore A\" }");
    return drum;
  }
  read_fields<Drum>(*section, drum_fields, drum);
  read_rate(*section, reading, drum);
  check_temperature(*section, drum);
  if (const auto usual = look_up(station, "drum", [&] { return reading.library.elastomer(); }))
    read_cover_defaults(*section, *usual, drum);
  if (drum.land_pitch && drum.land_ratio == 1)
    section->note_unused("land_pitch", "the cover is plain: without land_ratio it has no lands");
  if (section->given("hardness") && section->given("modulus"))
    section->problem_at_key("modulus", "give hardness or modulus, not both");
  else if (section->lacks("hardness") && section->lacks("modulus"))
    section->problem(R"(expected hardness, such as "40 Shore A", or modulus, such as "1.7 MPa")");
  check_lengths(*section, drum);
  return drum;
}

void check_drum(const Section& section, const Drum& drum) {
  check_temperature(section, drum);
  check_lengths(section, drum);
}

}  // namespace drumlin::cases
