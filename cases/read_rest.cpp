#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_rest.hpp"

namespace drumlin::cases {
namespace {

/// A list of metals' names.
void read_other_metals(const Section& section, const Reading& reading, Case& scenario) {
  constexpr std::string_view key = "other_metals";
  const Node* node = section.find(key);
  if (node == nullptr) return;
  const auto is_name = [](const Node& item) { return item.kind == Node::Kind::string; };
  if (node->kind != Node::Kind::list ||
      !std::all_of(node->items.begin(), node->items.end(), is_name)) {
    section.problem_at_value(key, R"(expected a list of metals, such as ["5754", "1.4301"])");
    return;
  }
  for (const Node& item : node->items)
    if (auto metal = look_up(section, key, [&] { return reading.library.material(item.text); }))
      scenario.other_metals.push_back(std::move(*metal));
}

}  // namespace

Conveyor read_conveyor(const Section& top) {
  Conveyor conveyor;
  const auto section = top.open("conveyor");
  if (!section) {
    if (top.lacks("conveyor"))
      top.problem_at_value("conveyor", "missing; expected [conveyor] with speed = \"3 m/min\"");
    return conveyor;
  }
  read_fields<Conveyor>(*section, conveyor_fields, conveyor);
  conveyor.grip = read_grip(*section);
  return conveyor;
}

Numerics read_numerics(const Section& top) {
  Numerics numerics;
  const Node empty{};
  const auto section = top.open("numerics");
  if (!section && top.given("numerics")) return numerics;
  read_fields<Numerics>(section ? *section : Section(empty, "numerics", top.findings()),
                        numerics_fields, numerics);
  return numerics;
}

void read_environment(const Section& top, const Reading& reading, Case& scenario) {
  const Node empty{};
  const auto section = top.open("environment");
  if (!section && top.given("environment")) return;
  read_fields<Case>(section ? *section : Section(empty, "environment", top.findings()),
                    environment_fields, scenario);
  if (section) read_other_metals(*section, reading, scenario);
}

}  // namespace drumlin::cases
