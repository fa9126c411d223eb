#include <algorithm>

#include <fmt/format.h>

#include "cases/file_text.hpp"
#include "cases/library_known.hpp"
#include "cases/reader.hpp"
#include "cases/schema_material.hpp"
#include "cases/section.hpp"
#include "cases/suggest.hpp"
#include "cases/thermal_defaults.hpp"

namespace drumlin::cases {
namespace fs = std::filesystem;

namespace {

/// A data file as a tree, with its text dropped.
Node load(const fs::path& file) {
  return parse_toml(file_text(file, "a data file"), file.string());
}

void throw_if_any(Findings& findings) {
  if (!findings.problems.empty()) throw CaseError(std::move(findings.problems));
}

template <class Owner, class Fields>
Owner read_table(const fs::path& file, const Fields& fields) {
  const Node root = load(file);
  Findings findings(file.string());
  Owner owner;
  read_fields<Owner>(Section(root, "", findings), fields, owner);
  throw_if_any(findings);
  return owner;
}

template <class Owner, class Fields>
Owner read_entry(const fs::path& file, const std::string& name, const Fields& fields) {
  auto owner = read_table<Owner>(file, fields);
  owner.name = name;
  return owner;
}

/// Value of a quantity in one of the shipped tables.
double table_quantity(const Section& section, std::string_view key,
                      const models::Dimension& dimension) {
  const KeyInfo info{.name = key,
                     .kind = KeyKind::quantity,
                     .dimension = dimension,
                     .high = 1e6,
                     .required = true};
  return read_quantity(section, info).value_or(0);
}

std::string table_text(const Section& section, std::string_view key) {
  const KeyInfo info{.name = key, .kind = KeyKind::text, .required = true};
  return read_text(section, info).value_or("");
}

/// What to say to a grit that is in no table; a number alone is asked for its grading.
std::string about_unknown_grit(const std::string& designation,
                               const std::vector<std::string>& known) {
  const auto is_known = [&](const std::string& name) {
    return std::find(known.begin(), known.end(), name) != known.end();
  };
  std::string ask;
  if (is_known("P" + designation)) ask = fmt::format("P{} (P-scale, FEPA)", designation);
  if (is_known("US " + designation))
    ask += fmt::format("{}US {} (US scale)", ask.empty() ? "" : " or ", designation);
  if (!ask.empty()) return fmt::format("{} names no grading: {}?", in_quotes(designation), ask);
  return fmt::format("unknown grit {}{}", in_quotes(designation), suggestion(designation, known));
}

}  // namespace

Material Library::material(const std::string& name) const {
  return known_->materials.of(name, [&] {
    const fs::path file = find(EntryKind::material, name);
    auto material = read_entry<Material>(file, name, material_fields);
    material.file = file.string();
    add_thermal_defaults(material);
    return material;
  });
}

Abrasive Library::abrasive(const std::string& name) const {
  return known_->abrasives.of(name, [&] {
    return read_entry<Abrasive>(find(EntryKind::abrasive, name), name, abrasive_fields);
  });
}

Backing Library::backing(const std::string& name) const {
  return known_->backings.of(name, [&] {
    return read_entry<Backing>(find(EntryKind::backing, name), name, backing_fields);
  });
}

BeltWearDefaults Library::belt_wear() const {
  return known_->belt_wear.of("belt_wear", [&] {
    constexpr auto fields = std::to_array<Field<BeltWearDefaults>>({
        sourced("worn_share", &BeltWearDefaults::worn_share, models::dimension::number, 0.01, 1,
                "removal coefficient at the end of life over the fresh one")
            .required(),
        sourced("run_in", &BeltWearDefaults::run_in, models::dimension::number, 1e-3, 10,
                "share of life in which the fast first fall decays by e")
            .required(),
        sourced("wet_life", &BeltWearDefaults::wet_life, models::dimension::number, 0.1, 10,
                "life wet over life dry")
            .required(),
    });
    return read_table<BeltWearDefaults>(shipped_ / "tables" / "belt_wear.toml", fields);
  });
}

ElastomerDefaults Library::elastomer() const {
  return known_->elastomers.of("elastomer", [&] {
    constexpr auto fields = std::to_array<Field<ElastomerDefaults>>({
        sourced("poisson", &ElastomerDefaults::poisson, models::dimension::number, 0, 0.4999,
                "Poisson ratio")
            .required(),
        sourced("density", &ElastomerDefaults::density, models::dimension::density, 1e-11, 1e-8,
                "density")
            .required(),
        sourced("loss_factor", &ElastomerDefaults::loss_factor, models::dimension::number, 0, 3,
                "tan delta")
            .required(),
        sourced("thermal_expansion", &ElastomerDefaults::thermal_expansion,
                models::dimension::per_temperature, 0, 1e-3, "linear thermal expansion")
            .required(),
    });
    return read_table<ElastomerDefaults>(shipped_ / "tables" / "elastomer.toml", fields);
  });
}

Grit Library::grit(const std::string& designation) const {
  return known_->grits.of(designation, [&] {
    const fs::path file = shipped_ / "tables" / "grits.toml";
    const Node root = load(file);
    Findings findings(file.string());
    const Section table(root, "", findings);
    Grit grit;
    grit.designation = designation;
    const KeyInfo compliance{.name = "grain_compliance",
                             .kind = KeyKind::sourced,
                             .dimension = models::dimension::compliance,
                             .high = 1,
                             .required = true};
    const auto per_diameter = [&](std::string_view key) {
      const KeyInfo ratio{.name = key,
                          .kind = KeyKind::sourced,
                          .dimension = models::dimension::number,
                          .high = 1000,
                          .required = true};
      return read_sourced(table, ratio).value_or(Sourced{});
    };
    grit.grain_compliance = read_sourced(table, compliance).value_or(Sourced{});
    grit.grain_spacing = per_diameter("grain_spacing_in_diameters");
    grit.bead_height = per_diameter("bead_height_in_diameters");
    for (const std::string_view scale : {"p_scale", "us_scale"})
      if (const auto section = table.open(scale); section && designation != "source")
        if (section->given(designation))
          grit.mean_diameter = table_quantity(*section, designation, models::dimension::length);
    throw_if_any(findings);
    for (Sourced* scaled : {&grit.grain_spacing, &grit.bead_height}) {
      scaled->value *= grit.mean_diameter;
      scaled->low *= grit.mean_diameter;
      scaled->high *= grit.mean_diameter;
    }
    if (grit.mean_diameter > 0) return grit;
    throw UnknownName(about_unknown_grit(designation, names(EntryKind::grit)));
  });
}

CoatingClass Library::coating_class(const std::string& name) const {
  return known_->classes.of(name, [&] {
    const fs::path file = shipped_ / "tables" / "coating_classes.toml";
    const Node root = load(file);
    Findings findings(file.string());
    const Section table(root, "", findings);
    if (!table.given(name))
      throw UnknownName(fmt::format("unknown coating class {}{}", in_quotes(name),
                                    suggestion(name, names(EntryKind::coating_class))));
    const auto row = table.open(name);
    CoatingClass result;
    result.name = name;
    if (row) {
      result.layer = table_text(*row, "layer");
      result.mass = table_quantity(*row, "mass", models::dimension::area_density);
      result.typical = table_quantity(*row, "typical", models::dimension::length);
      result.low = table_quantity(*row, "low", models::dimension::length);
      result.high = table_quantity(*row, "high", models::dimension::length);
      result.source = table_text(*row, "source");
    }
    throw_if_any(findings);
    return result;
  });
}

}  // namespace drumlin::cases
