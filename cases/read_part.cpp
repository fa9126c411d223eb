#include <map>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_part.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

std::string in_mm(double value) {
  return units::format(value, "mm", 6);
}

/// What the size of each kind is, to ask for it; empty where a feature has none.
std::string_view missing_size(FeatureKind kind) {
  switch (kind) {
    case FeatureKind::hole:
      return "missing; expected the hole's diameter, such as \"6 mm\"";
    case FeatureKind::slot:
      return "missing; expected the slot's length along the feed, such as \"20 mm\"";
    case FeatureKind::stub:
      return "missing; expected the stub's width along its edge, such as \"0.5 mm\"";
    default:
      return {};
  }
}

void check_size(const Section& section, const Section& part_section, const Part& part,
                const Feature& feature) {
  if (feature.kind == FeatureKind::outer_edge) {
    if (section.given("size"))
      section.problem_at_key("size",
                             "an outer edge has no size; it belongs to holes, slots and stubs");
    return;
  }
  if (section.lacks("size"))
    section.findings().problem(section.table().place, section.path("size"),
                               missing_size(feature.kind));
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
  // A stub lies along its edge: ends run along the width, sides along the length.
  const bool stub = feature.kind == FeatureKind::stub;
  const bool on_side = feature.side == Side::side;
  if (feature.kind == FeatureKind::hole || (stub && !on_side)) compare(part.width, "width");
  if (!stub || on_side || !feature.side) compare(part.length, "length");
}

/// A stub is a burr of that kind, and a burr of that kind is a stub.
void check_stub(const Section& section, const Feature& feature) {
  const bool is_stub = feature.kind == FeatureKind::stub;
  const bool has_stub = std::holds_alternative<models::Stub>(feature.burr);
  if (is_stub == has_stub) return;
  const auto burr = section.open("burr");
  if (has_stub)
    burr->problem_at_value("kind", R"("stub" belongs to a feature of kind "stub")");
  else if (burr)
    burr->problem_at_value("kind", R"(a feature of kind "stub" carries a burr of kind "stub")");
  else if (section.lacks("burr"))
    section.problem_at_value("burr",
                             "missing; a stub needs burr = { kind = \"stub\", protrusion = \"0.5 "
                             "mm\", height = \"0.1 mm\", root = \"0.2 mm\" }");
}

void check_position(const Section& section, const Feature& feature) {
  for (const std::string_view key : {"along", "across"}) {
    if (!section.given(key)) continue;
    if (feature.kind == FeatureKind::outer_edge)
      section.problem_at_key(key, "an outer edge has no centre; it belongs to holes and slots");
    else if (feature.kind == FeatureKind::stub)
      section.note_unused(key, "a stub's place along its edge changes nothing in this version");
    else if (section.lacks(key == "along" ? "across" : "along"))
      section.problem_at_key(key, "give along and across together, or neither");
  }
}

Feature read_feature(const Section& item, const Section& owner, const Reading& reading,
                     const Part& part) {
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
  if (kind_is_known) {
    check_size(item, owner, part, feature);
    check_position(item, feature);
  }
  const std::size_t before_burr = problems.size();
  read_burr(item, part, reading, feature);
  if (kind_is_known && problems.size() == before_burr) check_stub(item, feature);
  return feature;
}

void read_features(const Section& section, const Reading& reading, Part& part) {
  std::map<std::string, const Section*> seen;
  const auto list = section.open_list("feature");
  for (const Section& item : list) {
    Feature feature = read_feature(item, section, reading, part);
    if (!feature.name.empty()) {
      const auto [first, is_new] = seen.try_emplace(feature.name, &item);
      if (!is_new)
        item.problem_at_value("name", fmt::format("{} is already the name of {}",
                                                  in_quotes(feature.name), first->second->path()));
    }
    part.features.push_back(std::move(feature));
  }
}

/// Ra as delivered, of the layer that lies on top.
void read_roughness(const Section& section, Part& part) {
  const Material& top = !part.coating        ? part.material
                        : !part.coating->top ? part.coating->material
                                             : part.coating->top->material;
  const Sourced delivered = top.roughness.value_or(Sourced{});
  if (!part.roughness && top.roughness) {
    part.roughness = delivered.value;
    section.note_default("roughness", units::format(delivered.value, "um", 4),
                         fmt::format("{} as delivered: {}", top.name, delivered.source));
  }
  if (part.roughness) part.roughness_band = band(section, "roughness", delivered, *part.roughness);
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
  part.coating = read_coating(*section, reading, part);
  read_roughness(*section, part);
  read_features(*section, reading, part);
  return part;
}

void check_part(const Section& top, const Part& part) {
  const auto section = top.open("part");
  if (part.coating) check_coating(*section->open("coating"), *part.coating, part.thickness);
  const auto items = section->open_list("feature");
  for (std::size_t i = 0; i < part.features.size(); ++i) {
    check_size(items[i], *section, part, part.features[i]);
    check_burr(items[i], part, part.features[i]);
  }
}

}  // namespace drumlin::cases
