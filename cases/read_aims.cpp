#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cases/study_parts.hpp"
#include "cases/study_reader.hpp"
#include "cases/suggest.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

constexpr std::size_t least_aims = 2;
constexpr std::size_t most_aims = 5;

constexpr auto directions = std::to_array<Choice>({{"up"}, {"down"}});
constexpr auto aim_keys = std::to_array<KeyInfo>({
    {.name = "column",
     .kind = KeyKind::text,
     .meaning = "column of the study's table",
     .required = true},
    {.name = "direction",
     .kind = KeyKind::choice,
     .meaning = "whether more or less is better",
     .required = true,
     .choices = directions},
    {.name = "at_least", .meaning = "rows with less are off the front of accepted rows"},
    {.name = "at_most", .meaning = "rows with more are off the front of accepted rows"},
});

/// A bare number is in the column's unit, which the column's name says.
std::optional<Aim::Bound> read_bound(const Section& item, std::string_view key) {
  const Node* node = item.find(key);
  if (node == nullptr) return std::nullopt;
  const bool bare = node->kind == Node::Kind::integer || node->kind == Node::Kind::number;
  if (bare && std::isfinite(node->number)) return Aim::Bound{node->number, "", node->place};
  if (node->kind == Node::Kind::string) {
    try {
      const units::Quantity quantity = units::parse(node->text);
      return Aim::Bound{quantity.value, quantity.unit.symbol, node->place};
    } catch (const units::UnitError& error) {
      item.problem_at_value(key, error.what());
      return std::nullopt;
    }
  }
  item.problem_at_value(key,
                        "expected a number in the column's unit, or a quantity such as \"9 um\"");
  return std::nullopt;
}

/// Says a bound in the column's unit.
void convert(std::optional<Aim::Bound>& bound, const NamedColumn& column, const std::string& key,
             Findings& findings) {
  if (!bound || bound->unit.empty()) return;
  try {
    const units::Unit own = units::parse_unit(column.unit == "1" ? "" : column.unit);
    const units::Unit written = units::parse_unit(bound->unit);
    if (own.dimension == written.dimension && own.currency == written.currency) {
      bound->value = units::in_unit(bound->value, own);
      bound->unit.clear();
      return;
    }
  } catch (const units::UnitError&) {
    // A column's unit that the case's unit table does not know takes bare numbers only.
  }
  findings.problem(bound->place, key,
                   fmt::format("{} does not fit {}, which is in {}", in_quotes(bound->unit),
                               in_quotes(column.name), column.unit));
}

}  // namespace

std::vector<Aim> read_aims(const Section& top) {
  std::vector<Aim> aims;
  const std::vector<Section> items = top.open_list("aim");
  for (const Section& item : items) {
    item.refuse_unknown(aim_keys);
    const auto column = read_text(item, aim_keys[0]);
    const auto direction = read_choice(item, aim_keys[1]);
    Aim aim;
    aim.at_least = read_bound(item, aim_keys[2].name);
    aim.at_most = read_bound(item, aim_keys[3].name);
    if (!column || !direction) continue;
    aim.column = *column;
    aim.place = item.find("column")->place;
    aim.up = *direction == 0;
    const auto same = [&](const Aim& other) { return other.column == aim.column; };
    if (std::any_of(aims.begin(), aims.end(), same))
      item.problem_at_value("column", fmt::format("{} is an aim already", in_quotes(aim.column)));
    aims.push_back(std::move(aim));
  }
  if (!items.empty() && (items.size() < least_aims || items.size() > most_aims))
    items.front().problem(fmt::format("{} of them; expected {} to {}: what is given up for what",
                                      items.size(), least_aims, most_aims));
  return aims;
}

std::vector<Aim> aims_over(const StudyWishes& wishes, std::span<const NamedColumn> columns) {
  Findings findings(wishes.file);
  std::vector<std::string> names;
  for (const NamedColumn& column : columns)
    names.push_back(column.name);
  std::vector<Aim> aims = wishes.aims;
  for (std::size_t i = 0; i < aims.size(); ++i) {
    Aim& aim = aims[i];
    const std::string path = fmt::format("aim[{}].", i);
    const auto found = std::find(names.begin(), names.end(), aim.column);
    if (found == names.end()) {
      const auto near = nearest(aim.column, names);
      findings.problem(
          aim.place, path + "column",
          fmt::format("the table of this study has no column {}{}; drumlin sweep {} --row 0 lists "
                      "them",
                      in_quotes(aim.column),
                      near ? fmt::format("; nearest is {}", in_quotes(*near)) : std::string(),
                      wishes.file));
      continue;
    }
    const NamedColumn& column = columns[static_cast<std::size_t>(found - names.begin())];
    convert(aim.at_least, column, path + "at_least", findings);
    convert(aim.at_most, column, path + "at_most", findings);
  }
  if (!findings.problems.empty()) throw CaseError(findings.problems);
  return aims;
}

}  // namespace drumlin::cases
