#include "sim/app/part_text.hpp"

#include <algorithm>
#include <variant>

#include <fmt/format.h>

#include "cases/schema_burr.hpp"
#include "cases/units.hpp"
#include "models/burr/burr_keys.hpp"
#include "models/edge/iso9013.hpp"
#include "sim/early_warnings.hpp"
#include "sim/names.hpp"

namespace drumlin::app {

namespace {

/// "flow_stress" to "flow stress".
std::string spoken(std::string_view key) {
  std::string words(key);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

/// A number in the unit in which one would write it in a case.
std::string with_unit(double value, const cases::KeyInfo& key) {
  namespace units = cases::units;
  const std::string example =
      key.example.empty() ? units::example(key.dimension) : std::string(key.example);
  const units::Unit unit = units::parse(example).unit;
  return fmt::format("{} {}", brief(units::in_unit(value, unit), 4), unit.symbol);
}

/// Whatever the kind is: its name and its numbers.
std::string burr_text(const models::AnyBurr& burr) {
  std::string out =
      std::visit([]<class Burr>(const Burr&) { return fmt::format("{} burr", Burr::name); }, burr);
  const auto kinds = cases::every_burr_kind();
  const auto& keys = kinds[burr.index()].keys;
  if (keys.empty()) return "no burr";
  std::string separator = ": ";
  for (const cases::KeyInfo& key : keys) {
    const double value = models::number_of(burr, key.name).value_or(0.0);
    out += fmt::format("{}{} {}", separator, spoken(key.name), with_unit(value, key));
    separator = ", ";
  }
  return out;
}

std::string feature_text(const cases::Feature& feature) {
  std::string out(sim::to_text(feature.kind));
  if (feature.size) out += fmt::format(" {} mm", brief(*feature.size, 4));
  out += feature.side ? fmt::format(", {} side", sim::to_text(*feature.side))
                      : std::string(", every side: leading, trailing, side");
  if (feature.along && feature.across)
    out += fmt::format(", at {} mm along, {} mm across", brief(*feature.along, 4),
                       brief(*feature.across, 4));
  return out + "; " + burr_text(feature.burr);
}

std::string coating_text(const cases::Coating& coating) {
  std::string out = fmt::format("{} {} µm on the face that carries the burrs, {} µm on the other",
                                coating.material.name, fixed(coating.thickness * 1e3, 1),
                                fixed(coating.reverse_thickness * 1e3, 1));
  if (coating.mass_class)
    out += fmt::format(
        ", from class {} (both faces together), {} % of it on the burrs' face, {} g/cm3",
        *coating.mass_class, fixed(coating.split * 100, 0),
        brief(coating.material.density.value * 1e9, 3));
  return out + fmt::format("; below {} µm it counts as bare", brief(coating.bare_below * 1e3, 3));
}

bool is_cut_hot(const cases::Part& part) {
  return part.flank_oxide > 0 ||
         std::any_of(part.features.begin(), part.features.end(), [](const cases::Feature& f) {
           return std::holds_alternative<models::Bead>(f.burr);
         });
}

/// What the flank of a thermal cut may look like before any tool meets it.
std::string cut_text(double thickness) {
  const auto range = [&](int n) {
    return fmt::format(
        "range {}: flank out of square by up to {} mm, profile height Rz5 up to {} "
        "µm",
        n, brief(models::perpendicularity(n, thickness), 3),
        fixed(models::profile_height(n, thickness) * 1e3, 0));
  };
  return fmt::format("at {} mm, {}; {} (ISO 9013:2017, from memory)", brief(thickness, 4), range(1),
                     range(2));
}

}  // namespace

std::string lines_text(const NamedLines& lines, const Style& style) {
  std::string out;
  for (const auto& [name, text] : lines)
    out += wrapped(text, fmt::format("  {:<22}", name), style);
  return out;
}

std::string part_text(const cases::Part& part, const Style& style) {
  NamedLines lines{
      {"material", fmt::format("{}: {}", part.material.name, part.material.description)},
      {"thickness", fmt::format("{} mm, plus or minus {} mm", brief(part.thickness, 4),
                                brief(part.thickness_tolerance, 3))},
      {"length x width", fmt::format("{} x {} mm", brief(part.length, 4), brief(part.width, 4))},
      {"burrs point", std::string(sim::to_text(part.burr_side))}};
  if (part.bow > 0)
    lines.emplace_back(
        "bow", fmt::format("plus or minus {} mm, left by hold-down and drum", brief(part.bow, 3)));
  if (const std::string turning = sim::turning_text(part); !turning.empty())
    lines.emplace_back("angle", turning);
  lines.emplace_back("coating", part.coating ? coating_text(*part.coating) : "none");
  if (part.coating && part.coating->top)
    lines.emplace_back("over it",
                       fmt::format("{} {} µm on either face", part.coating->top->material.name,
                                   fixed(part.coating->top->thickness * 1e3, 1)));
  if (part.flank_oxide > 0)
    lines.emplace_back("oxide on flanks", fmt::format("{} µm", fixed(part.flank_oxide * 1e3, 1)));
  if (is_cut_hot(part) && part.thickness >= models::thinnest_cut)
    lines.emplace_back("thermal cut", cut_text(part.thickness));
  for (const cases::Feature& feature : part.features)
    lines.emplace_back(feature.name, feature_text(feature));
  return heading("Part", style) + lines_text(lines, style);
}

}  // namespace drumlin::app
