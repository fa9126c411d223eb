#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_part.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// The layer of a section by its name, if the library has it.
void read_material(const Section& section, std::string_view such_as, const Reading& reading,
                   Material& material) {
  if (const auto name = read_name(section, "material", such_as))
    if (auto found = look_up(section, "material", [&] { return reading.library.material(*name); }))
      material = std::move(*found);
}

/// Thickness of a layer from its coating class.
void read_class(const Section& section, const Reading& reading, Coating& coating) {
  const auto name = read_name(section, "mass_class", "a coating class, such as \"Z275\"");
  if (!name) return;
  const auto found =
      look_up(section, "mass_class", [&] { return reading.library.coating_class(*name); });
  if (!found) return;
  coating.mass_class = *name;
  const bool shipped = coating.material.file.starts_with(Library::shipped_folder().string());
  if (shipped && coating.material.name != found->layer) {
    section.problem_at_value("mass_class",
                             fmt::format(R"({} is a class of "{}"; the coating's material is "{}")",
                                         in_quotes(*name), found->layer, coating.material.name));
    return;
  }
  const double density = coating.material.density.value;
  if (!(density > 0)) return;
  coating.thickness = layer_thickness(found->mass, coating.split, density);
  const double share = coating.split / 0.5;
  coating.thickness_low = std::min(found->low * share, coating.thickness);
  coating.thickness_high = std::max(found->high * share, coating.thickness);
  section.note_default(
      "thickness", units::format(coating.thickness, "um", 4),
      fmt::format("{} is {} on both faces, {} of it here, at {}; {}", *name,
                  units::format(found->mass, "g/m2", 4), units::format(coating.split, "%", 3),
                  units::format(density, "g/cm3", 4), found->source));
  if (section.given("reverse_thickness")) return;
  coating.reverse_thickness = layer_thickness(found->mass, 1 - coating.split, density);
  section.note_default(
      "reverse_thickness", units::format(coating.reverse_thickness, "um", 4),
      fmt::format("the other {} of {}", units::format(1 - coating.split, "%", 3), *name));
}

void read_thickness(const Section& section, const Reading& reading, Coating& coating) {
  const bool by_class = section.given("mass_class");
  if (by_class && section.given("thickness"))
    section.problem_at_key("mass_class", "give thickness or mass_class, not both");
  else if (section.lacks("mass_class") && section.lacks("thickness"))
    section.problem(R"(expected thickness, such as "20 um", or mass_class, such as "Z275")");
  if (by_class) {
    if (!section.given("split"))
      section.note_default("split", "0.5", "coating shared evenly between the faces");
    read_class(section, reading, coating);
    return;
  }
  if (section.given("split")) section.note_unused("split", "the thickness is given, not a class");
  coating.thickness_low = coating.thickness;
  coating.thickness_high = coating.thickness;
  if (section.given("reverse_thickness") || coating.thickness <= 0) return;
  coating.reverse_thickness = coating.thickness;
  section.note_default("reverse_thickness", units::format(coating.thickness, "um", 4),
                       "taken as on the face that carries the burrs");
}

void read_top(const Section& section, const Reading& reading, Coating& coating) {
  const auto table = section.open("top");
  if (!table) return;
  TopLayer top;
  read_fields<TopLayer>(*table, top_layer_fields, top);
  read_material(*table, "a layer, such as \"primer\"", reading, top.material);
  coating.top = std::move(top);
}

/// Layers must leave a sheet to carry them.
void check_layers(const Section& section, const Coating& coating, double sheet) {
  const auto refuse = [&](const Section& at, std::string_view key, double thickness) {
    at.problem_at_value(
        key, fmt::format("a layer of {} is not thinner than half the part, {}",
                         units::format(thickness, "mm", 6), units::format(sheet, "mm", 6)));
  };
  if (!(sheet > 0)) return;
  if (coating.thickness >= sheet / 2)
    refuse(section, coating.mass_class ? "mass_class" : "thickness", coating.thickness);
  if (section.given("reverse_thickness") && coating.reverse_thickness >= sheet / 2)
    refuse(section, "reverse_thickness", coating.reverse_thickness);
  if (coating.top && coating.top->thickness >= sheet / 2)
    refuse(*section.open("top"), "thickness", coating.top->thickness);
}

}  // namespace

std::optional<Coating> read_coating(const Section& part_section, const Reading& reading,
                                    Part& part) {
  const auto section = part_section.open("coating");
  if (!section) return std::nullopt;
  section->refuse_unknown(infos(coating_fields));
  read_field(*section, oxide_fields[0], part);
  constexpr auto of_a_layer = std::to_array<std::string_view>(
      {"material", "thickness", "mass_class", "split", "reverse_thickness", "bare_below", "top"});
  const bool layer = std::any_of(of_a_layer.begin(), of_a_layer.end(),
                                 [&](std::string_view key) { return !section->lacks(key); });
  if (section->given("oxide") && !layer) return std::nullopt;
  Coating coating;
  for (const Field<Coating>& field : coating_fields)
    read_field(*section, field, coating);
  read_material(*section, "a layer, such as \"zinc\"", reading, coating.material);
  read_thickness(*section, reading, coating);
  read_top(*section, reading, coating);
  check_coating(*section, coating, part.thickness);
  return coating;
}

void check_coating(const Section& section, const Coating& coating, double sheet) {
  if (coating.thickness > 0 && coating.bare_below >= coating.thickness)
    section.problem_at_value("bare_below", fmt::format("{} is not less than the coating, {}",
                                                       units::format(coating.bare_below, "um", 4),
                                                       units::format(coating.thickness, "um", 4)));
  check_layers(section, coating, sheet);
}

}  // namespace drumlin::cases
