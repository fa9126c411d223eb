#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_rest.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// A price: any quantity with money in it, or a table of a price and what goes with it.
void read_price(const Section& cost, std::string_view key) {
  const Node* node = cost.find(key);
  if (node == nullptr) return;
  const std::size_t before = cost.findings().problems.size();
  const auto price = [&](const Node& value, const std::string& path) {
    if (value.kind != Node::Kind::string) {
      cost.findings().problem(
          value.place, path,
          fmt::format("expected money with its unit, such as \"1.20 EUR\"; got {}",
                      kind_name(value.kind)));
      return;
    }
    try {
      const auto quantity = units::parse(value.text);
      if (quantity.unit.dimension.money != 1)
        cost.findings().problem(
            value.place, path,
            fmt::format("{} is {}; expected money with its unit, such as \"1.20 EUR\"",
                        in_quotes(value.text), units::name(quantity.unit.dimension)));
      else if (quantity.value < 0)
        cost.findings().problem(value.place, path,
                                fmt::format("{} is negative", in_quotes(value.text)));
    } catch (const units::UnitError& error) {
      cost.findings().problem(value.place, path, error.what());
    }
  };
  if (node->kind == Node::Kind::table) {
    const auto table = cost.open(key);
    constexpr auto fields = std::to_array<Field<Cost>>({
        special<Cost>("price", "money"),
        checked_only<Cost>("life", models::dimension::parts, 1, 1e9, "parts until it is changed"),
        checked_only<Cost>("share", models::dimension::number, 0, 1, "share of the parts")
            .example("0.04"),
    });
    Cost nothing;
    read_fields<Cost>(*table, fields, nothing);
    if (const Node* inner = table->find("price"))
      price(*inner, table->path("price"));
    else
      table->problem_at_value("price", "missing; expected money, such as \"120 EUR\"");
  } else {
    price(*node, cost.path(key));
  }
  if (cost.findings().problems.size() == before) cost.note_unused(key, cost_unused);
}

void read_grip(const Section& conveyor) {
  const Node* node = conveyor.find("grip");
  if (node == nullptr) return;
  const std::size_t before = conveyor.findings().problems.size();
  if (node->kind == Node::Kind::table) {
    Grip nothing;
    read_fields<Grip>(*conveyor.open("grip"), grip_fields, nothing);
  } else {
    KeyInfo friction = info_of(grip_fields, "friction");
    friction.name = "grip";
    static_cast<void>(read_quantity(conveyor, friction));
  }
  if (conveyor.findings().problems.size() == before) conveyor.note_unused("grip", grip_unused);
}

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
  read_grip(*section);
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

void read_cost(const Section& top) {
  const auto section = top.open("cost");
  if (!section) return;
  section->refuse_unknown(infos(cost_fields));
  for (const auto& field : cost_fields)
    read_price(*section, field.info.name);
}

void read_uncertainty(const Section& top) {
  const auto section = top.open("uncertainty");
  if (!section) return;
  for (const Member& member : section->table().members)
    section->note_unused(member.key, "distributions are not drawn from yet");
  if (section->table().members.empty())
    top.note_unused("uncertainty", "distributions are not drawn from yet");
}

}  // namespace drumlin::cases
