#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_burr.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// Flow stress of a burr's root over the sheet's yield stress: the lower end of the published 1.5
/// to 2 (from memory), as a burr that is stronger than thought folds less. The band takes in what
/// is published of burr hardness, 1.3 to 2 times the sheet's (from memory).
constexpr double root_hardening = 1.5;
constexpr double least_hardening = 1.3;
constexpr double most_hardening = 2.0;

std::string in_mm(double value) {
  return units::format(value, "mm", 4);
}

BurrDefault default_of(std::string_view key) {
  for (const BurrNumber& number : burr_numbers)
    if (number.name == key) return number.otherwise;
  return BurrDefault::none;
}

/// What a number's source in the metal or in the library's dross gives; none where there is none,
/// which is reported.
class BurrDefaults {
 public:
  BurrDefaults(const Section& section, const Section& owner, const Part& part,
               const Reading& reading)
      : section_(section), owner_(owner), part_(part), reading_(reading) {}

  /// @param height  of the burr, as far as the case gives it [mm].
  [[nodiscard]] std::optional<Sourced> of(const KeyInfo& key, double height) const {
    switch (default_of(key.name)) {
      case BurrDefault::metal:
        return metal(key);
      case BurrDefault::dross:
        return dross(key);
      case BurrDefault::half_circle:
        if (height > 0)
          return Sourced{2 * height, 2 * height, 4 * height,
                         "a half circle, up to four times as wide as high; common practice, no "
                         "source"};
        return std::nullopt;
      default:
        return std::nullopt;
    }
  }

 private:
  [[nodiscard]] std::optional<Sourced> metal(const KeyInfo& key) const {
    const auto& yield = part_.material.yield_stress;
    if (yield)
      return Sourced{root_hardening * yield->value, least_hardening * yield->low,
                     most_hardening * yield->high,
                     fmt::format("{} times the yield stress of {}, work-hardened root 1.5 to 2 "
                                 "times (from memory)",
                                 root_hardening, part_.material.name)};
    if (!part_.material.name.empty())
      section_.problem(
          fmt::format("expected {}, such as \"{}\": the library gives no yield stress for {}",
                      key.name, key.example, in_quotes(part_.material.name)));
    return std::nullopt;
  }

  /// Oxygen leaves oxide on the flank and slag under the cut, other cuts leave dross.
  [[nodiscard]] std::optional<Sourced> dross(const KeyInfo& key) const {
    const std::string name = part_.flank_oxide > 0 ? "slag" : "dross";
    const auto found = look_up(owner_, "burr", [&] { return reading_.library.material(name); });
    if (!found) return std::nullopt;
    std::optional<Sourced> value = found->bond_strength;
    if (key.name == "specific_energy") value = found->specific_energy;
    if (!value) {
      section_.problem(fmt::format("expected {}, such as \"{}\": the library's {} has none",
                                   key.name, key.example, in_quotes(name)));
      return std::nullopt;
    }
    value->source = fmt::format("{} of the library, band {} to {}: {}", name,
                                units::format(value->low, unit_of_example(key), 4),
                                units::format(value->high, unit_of_example(key), 4), value->source);
    return value;
  }

  const Section& section_;
  const Section& owner_;
  const Part& part_;
  const Reading& reading_;
};

/// A key under the word that the case has for it.
KeyInfo as_written(const Section& section, std::string_view kind, KeyInfo key) {
  for (const BurrAlias& alias : burr_aliases) {
    if (alias.kind != kind || alias.key != key.name || !section.given(alias.word)) continue;
    if (section.given(key.name))
      section.problem_at_key(alias.word,
                             fmt::format("give {} or {}, not both", key.name, alias.word));
    else
      key.name = alias.word;
  }
  return key;
}

/// Reads the numbers of a burr of one kind.
template <class Burr>
models::AnyBurr read_kind(const Section& section, const BurrDefaults& defaults, Feature& feature) {
  Burr burr;
  if constexpr (models::HasKeys<Burr>) {
    const auto law = Burr::keys();
    const auto infos = burr_keys<Burr>();
    std::vector<std::size_t> missing;
    for (std::size_t i = 0; i < law.size(); ++i) {
      const KeyInfo key = as_written(section, Burr::name, infos[i]);
      if (const auto given = read_quantity(section, key))
        burr.*law[i].member = *given;
      else if (!section.given(key.name))
        missing.push_back(i);
    }
    for (const std::size_t i : missing) {
      const auto value = defaults.of(infos[i], models::height_of(burr));
      if (!value) continue;
      burr.*law[i].member = value->value;
      feature.burr_bands[std::string(infos[i].name)] = *value;
      section.note_default(infos[i].name, units::format(value->value, unit_of_example(infos[i]), 4),
                           value->source);
    }
  }
  return burr;
}

using ReadKind = models::AnyBurr (*)(const Section&, const BurrDefaults&, Feature&);
constexpr auto readers = []<class... Burrs>(const std::variant<Burrs...>*) {
  return std::to_array<ReadKind>({&read_kind<Burrs>...});
}(static_cast<const models::AnyBurr*>(nullptr));

/// Says of keys of other kinds whose they are, and of the rest that they are unknown.
void refuse_foreign(const Section& section, std::size_t kind) {
  const auto kinds = every_burr_kind();
  std::vector<KeyInfo> known = kinds[kind].keys;
  known.insert(known.begin(), burr_kind_info);
  for (const BurrAlias& alias : burr_aliases)
    if (alias.kind == kinds[kind].name) known.push_back({.name = alias.word});
  const auto has = [](const std::vector<KeyInfo>& keys, std::string_view name) {
    return std::any_of(keys.begin(), keys.end(), [&](const auto& k) { return k.name == name; });
  };
  for (const Member& member : section.table().members) {
    if (has(known, member.key)) continue;
    std::vector<std::string> owners;
    for (const BurrKind& other : kinds)
      if (has(other.keys, member.key)) owners.push_back(in_quotes(other.name));
    if (owners.empty()) continue;
    section.problem_at_key(
        member.key, fmt::format("belongs to a burr of kind {}, not {}", fmt::join(owners, " or "),
                                in_quotes(kinds[kind].name)));
    known.push_back({.name = member.key});
  }
  section.refuse_unknown(known);
}

std::string_view opening(const Feature& feature) {
  return feature.kind == FeatureKind::slot ? "slot" : "hole";
}

bool is_opening(const Feature& feature) {
  return feature.kind == FeatureKind::hole || feature.kind == FeatureKind::slot;
}

// Numbers of one burr that cannot be true together. Without a number that is right on its own there
// is nothing to compare with.
void check(const Section& section, const Feature& feature, const Part& /*part*/,
           const models::WallBurr& burr) {
  if (is_opening(feature) && feature.size && burr.root > 0 && burr.root >= *feature.size)
    section.problem_at_value(
        "root", fmt::format("{} is not thinner than the {} itself, {}", in_mm(burr.root),
                            opening(feature), in_mm(*feature.size)));
  const double lean = burr.height * std::tan(burr.taper);
  if (burr.root > 0 && lean > burr.root)
    section.problem_at_value(
        "taper", fmt::format("leans the inner flank by {} over the height; the root has only {}",
                             in_mm(lean), in_mm(burr.root)));
}

void check(const Section& section, const Feature& feature, const Part& part,
           const models::RolledBurr& burr) {
  if (part.thickness > 0 && burr.thickness >= part.thickness)
    section.problem_at_value(
        "thickness", fmt::format("{} is not thinner than the sheet, {}", in_mm(burr.thickness),
                                 in_mm(part.thickness)));
  if (is_opening(feature) && feature.size && burr.overhang >= *feature.size)
    section.problem_at_value("overhang",
                             fmt::format("{} reaches across the whole {}, {}", in_mm(burr.overhang),
                                         opening(feature), in_mm(*feature.size)));
}

void check(const Section& section, const Feature& /*feature*/, const Part& /*part*/,
           const models::Bead& burr) {
  if (burr.width > 0 && burr.height > burr.width / 2)
    section.problem_at_value(
        "height", fmt::format("{} is more than half the bead's width, {}: a bead is a segment of a "
                              "circle, at most {} high",
                              in_mm(burr.height), in_mm(burr.width), in_mm(burr.width / 2)));
}

void check(const Section& section, const Feature& feature, const Part& /*part*/,
           const models::Stub& burr) {
  if (feature.size && burr.root > *feature.size)
    section.problem_at_value("root", fmt::format("{} is more than the stub's width, {}",
                                                 in_mm(burr.root), in_mm(*feature.size)));
}

template <class Burr>
void check(const Section& /*section*/, const Feature& /*feature*/, const Part& /*part*/,
           const Burr& /*burr*/) {}

}  // namespace

void read_burr(const Section& owner, const Part& part, const Reading& reading, Feature& feature) {
  const auto section = owner.open("burr");
  if (!section) {
    if (!owner.given("burr")) owner.note_default("burr", "none", "no burr stated");
    return;
  }
  const auto index = read_choice(*section, burr_kind_info);
  if (!index) {
    // A burr of another kind has keys of its own; one without a kind, most likely those of a wall.
    if (!section->given("kind")) {
      auto keys = burr_keys<models::WallBurr>();
      keys.insert(keys.begin(), burr_kind_info);
      section->refuse_unknown(keys);
    }
    return;
  }
  refuse_foreign(*section, *index);
  const BurrDefaults defaults(*section, owner, part, reading);
  feature.burr = readers.at(*index)(*section, defaults, feature);
  std::visit([&](const auto& burr) { check(*section, feature, part, burr); }, feature.burr);
}

void check_burr(const Section& owner, const Part& part, const Feature& feature) {
  const auto section = owner.open("burr");
  if (!section) return;
  std::visit([&](const auto& burr) { check(*section, feature, part, burr); }, feature.burr);
}

}  // namespace drumlin::cases
