#include <array>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_part.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// Flow stress of a burr's root over the sheet's yield stress: the lower end of the published 1.5
/// to 2 (from memory), as a burr that is stronger than thought folds less.
constexpr double root_hardening = 1.5;

std::string in_mm(double value) {
  return units::format(value, "mm", 6);
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
  if (!(coating.material.density.value > 0)) return;
  coating.thickness = layer_thickness(found->mass, coating.split, coating.material.density.value);
  const double share = coating.split / 0.5;
  coating.thickness_low = std::min(found->low * share, coating.thickness);
  coating.thickness_high = std::max(found->high * share, coating.thickness);
  section.note_default(
      "thickness", units::format(coating.thickness, "um", 4),
      fmt::format("{} is {} on both faces, {} of it here, at {}; {}", *name,
                  units::format(found->mass, "g/m2", 4), units::format(coating.split, "%", 3),
                  units::format(coating.material.density.value, "g/cm3", 4), found->source));
}

std::optional<Coating> read_coating(const Section& part, const Reading& reading) {
  const auto section = part.open("coating");
  if (!section) return std::nullopt;
  Coating coating;
  read_fields<Coating>(*section, coating_fields, coating);
  if (const auto name = read_name(*section, "material", "a layer, such as \"zinc\""))
    if (auto material =
            look_up(*section, "material", [&] { return reading.library.material(*name); }))
      coating.material = std::move(*material);
  const bool by_class = section->given("mass_class");
  if (by_class && section->given("thickness"))
    section->problem_at_key("mass_class", "give thickness or mass_class, not both");
  else if (section->lacks("mass_class") && section->lacks("thickness"))
    section->problem(R"(expected thickness, such as "20 um", or mass_class, such as "Z275")");
  if (by_class) {
    if (!section->given("split"))
      section->note_default("split", "0.5", "coating shared evenly between the faces");
    read_class(*section, reading, coating);
  } else {
    if (section->given("split"))
      section->note_unused("split", "the thickness is given, not a class");
    coating.thickness_low = coating.thickness;
    coating.thickness_high = coating.thickness;
  }
  return coating;
}

void check_wall(const Section& section, const Feature& feature, const models::WallBurr& burr) {
  // Without a size that is right on its own there is nothing to compare with.
  if (feature.size && burr.root > 0 && burr.root >= *feature.size)
    section.problem_at_value(
        "root",
        fmt::format("{} is not thinner than the {} itself, {}", in_mm(burr.root),
                    feature.kind == FeatureKind::slot ? "slot" : "hole", in_mm(*feature.size)));
  const double lean = burr.height * std::tan(burr.taper);
  if (burr.root > 0 && lean > burr.root)
    section.problem_at_value(
        "taper", fmt::format("leans the inner flank by {} over the height; the root has only {}",
                             units::format(lean, "mm", 4), in_mm(burr.root)));
}

void read_burr(const Section& owner, const Part& part, Feature& feature) {
  const auto section = owner.open("burr");
  if (!section) {
    if (!owner.given("burr")) owner.note_default("burr", "none", "no burr stated");
    return;
  }
  std::vector<KeyInfo> keys = infos(wall_burr_fields);
  KeyInfo kind{.name = "kind", .kind = KeyKind::choice, .required = true, .choices = burr_kinds};
  keys.insert(keys.begin(), kind);
  const auto index = read_choice(*section, kind);
  if (!index) {
    // A burr of another kind has keys of its own, a burr without kind most likely these.
    if (!section->given("kind")) section->refuse_unknown(keys);
    return;
  }
  section->refuse_unknown(keys);
  if (burr_kinds.at(*index).name == "none") {
    for (const auto& field : wall_burr_fields)
      if (section->given(field.info.name))
        section->problem_at_key(field.info.name, "belongs to a burr of kind \"wall\"");
    return;
  }
  models::WallBurr burr;
  for (const auto& field : wall_burr_fields)
    read_field(*section, field, burr);
  if (!section->given("flow_stress")) {
    const auto& yield = part.material.yield_stress;
    burr.flow_stress = yield ? root_hardening * yield->value : 0;
    if (yield)
      section->note_default(
          "flow_stress", units::format(burr.flow_stress, "MPa", 4),
          fmt::format("{} times the yield stress of {}, work-hardened root 1.5 to 2 times (from "
                      "memory)",
                      root_hardening, part.material.name));
    else if (!part.material.name.empty())
      section->problem(
          fmt::format("expected flow_stress, such as \"350 MPa\": the library gives no "
                      "yield stress for {}",
                      in_quotes(part.material.name)));
  }
  check_wall(*section, feature, burr);
  feature.burr = burr;
}

void check_size(const Section& section, const Section& part_section, const Part& part,
                const Feature& feature) {
  if (feature.kind == FeatureKind::outer_edge) {
    if (section.given("size"))
      section.problem_at_key("size", "an outer edge has no size; it belongs to holes and slots");
    return;
  }
  const bool hole = feature.kind == FeatureKind::hole;
  if (section.lacks("size"))
    section.findings().problem(
        section.table().place, section.path("size"),
        hole ? "missing; expected the hole's diameter, such as \"6 mm\""
             : "missing; expected the slot's length along the feed, such as \"20 mm\"");
  if (!feature.size) return;
  const auto compare = [&](double limit, std::string_view extent) {
    if (limit <= 0 || *feature.size < limit) return;
    section.problem_at_value(
        "size", fmt::format("{} is not smaller than the part's {}, {}{}", in_mm(*feature.size),
                            extent, in_mm(limit),
                            part_section.given(extent)
                                ? ""
                                : fmt::format(" (the default; state part.{})", extent)));
  };
  if (hole) compare(part.width, "width");
  compare(part.length, "length");
}

Feature read_feature(const Section& item, const Section& owner, const Part& part) {
  Feature feature;
  const std::size_t before = item.findings().problems.size();
  read_fields<Feature>(item, feature_fields, feature);
  const auto& problems = item.findings().problems;
  const bool kind_is_known = [&] {
    if (!item.given("kind")) return false;
    for (std::size_t i = before; i < problems.size(); ++i)
      if (problems[i].key == item.path("kind")) return false;
    return true;
  }();
  if (feature.name.find(':') != std::string::npos)
    item.problem_at_value("name", "must not contain \":\", which sets off the side in results");
  if (kind_is_known) check_size(item, owner, part, feature);
  read_burr(item, part, feature);
  return feature;
}

void read_features(const Section& section, Part& part) {
  std::map<std::string, const Section*> seen;
  const auto list = section.open_list("feature");
  for (const Section& item : list) {
    Feature feature = read_feature(item, section, part);
    if (!feature.name.empty()) {
      const auto [first, is_new] = seen.try_emplace(feature.name, &item);
      if (!is_new)
        item.problem_at_value("name", fmt::format("{} is already the name of {}",
                                                  in_quotes(feature.name), first->second->path()));
    }
    part.features.push_back(std::move(feature));
  }
}

}  // namespace

Part read_part(const Section& top, const Reading& reading) {
  Part part;
  const auto section = top.open("part");
  if (!section) {
    if (top.lacks("part")) top.problem_at_value("part", "missing; expected a section [part]");
    return part;
  }
  read_fields<Part>(*section, part_fields, part);
  if (const auto name = read_name(*section, "material", "a metal, such as \"DX51D\""))
    if (auto material =
            look_up(*section, "material", [&] { return reading.library.material(*name); }))
      part.material = std::move(*material);
  part.coating = read_coating(*section, reading);
  if (part.coating && part.thickness > 0 && part.coating->thickness >= part.thickness / 2) {
    const bool by_class = part.coating->mass_class.has_value();
    const auto coating = section->open("coating");
    coating->problem_at_value(by_class ? "mass_class" : "thickness",
                              fmt::format("a layer of {} is not thinner than half the part, {}",
                                          in_mm(part.coating->thickness), in_mm(part.thickness)));
  }
  read_features(*section, part);
  return part;
}

}  // namespace drumlin::cases
