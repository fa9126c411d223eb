#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_removal.hpp"
#include "cases/schema_station.hpp"

namespace drumlin::cases {
namespace {

void read_removal_coefficient(const Section& section, Belt& belt) {
  const Node* node = section.find("removal_coefficient");
  if (node == nullptr) return;
  const std::string path = section.path("removal_coefficient");
  if (node->kind != Node::Kind::table) {
    belt.removal_coefficient = quantity_of(*node, removal_coefficient, path, section.findings());
    return;
  }
  const auto table = section.open("removal_coefficient");
  if (node->members.empty()) table->problem("is empty; expected one value per material");
  for (const Member& member : node->members)
    if (const auto value = quantity_of(member.value, removal_coefficient, table->path(member.key),
                                       section.findings()))
      belt.removal_coefficients[member.key] = *value;
}

/// The names of the laws that have a key.
std::vector<std::string> owners(std::string_view key) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < removal_laws.size(); ++i)
    if (models::number_of(removal_law(i), key)) names.push_back(in_quotes(removal_laws[i].name));
  return names;
}

/// Band of a number as the case gives it or leaves it out, within the key's range.
Sourced band_of(const KeyInfo& key, const RemovalNumber& known, double value, bool given) {
  if (!given) return {value, known.low, known.high, std::string(known.why)};
  return {value, std::max(value * known.given_low, key.low),
          std::min(value * known.given_high, key.high), "case"};
}

}  // namespace

void read_removal(const Section& section, Belt& belt) {
  read_removal_coefficient(section, belt);
  for (const KeyInfo& key : removal_law_keys()) {
    const bool chosen = models::number_of(belt.removal_law, key.name).has_value();
    const bool given = section.given(key.name);
    if (!chosen && !given) continue;
    const auto value = read_quantity(section, key);
    if (!value) continue;
    if (!chosen) {
      section.note_unused(key.name, fmt::format("belongs to removal_law {}, not {}",
                                                fmt::join(owners(key.name), " or "),
                                                in_quotes(models::name_of(belt.removal_law))));
      continue;
    }
    models::set_number(belt.removal_law, key.name, *value);
    belt.removal_bands[std::string(key.name)] =
        band_of(key, *removal_number(key.name), *value, given);
  }
}

}  // namespace drumlin::cases
