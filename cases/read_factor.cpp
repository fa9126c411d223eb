#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cases/study_parts.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

constexpr int most_steps = 100000;
constexpr auto scales = std::to_array<Choice>({{"linear"}, {"log"}});
constexpr KeyInfo scale_info{.name = "scale",
                             .kind = KeyKind::choice,
                             .meaning = "how steps are spaced",
                             .default_text = "linear",
                             .choices = scales};
constexpr KeyInfo steps_info{
    .name = "steps", .kind = KeyKind::count, .low = 2, .high = most_steps, .meaning = "values"};
constexpr auto factor_keys = std::to_array<KeyInfo>({
    {.name = "key", .meaning = "path of the key of the case that is varied"},
    {.name = "values", .meaning = "values that it takes"},
    {.name = "from", .meaning = "first end of its range"},
    {.name = "to", .meaning = "other end of its range"},
    steps_info,
    scale_info,
    {.name = "distribution", .meaning = "distribution that it is drawn from"},
});

/// Something to put under a key that the case leaves out, to see how the reader takes it.
Node anything() {
  Node node;
  node.kind = Node::Kind::integer;
  node.number = 1;
  node.integer = 1;
  return node;
}

std::optional<double> number_of(const Node& value, const FactorKey& key, Findings& findings) {
  const std::string path = key.factor.key;
  if (!key.varied.whole) return quantity_of(value, *key.info, path, findings);
  const bool fits = value.kind == Node::Kind::integer && value.number >= key.info->low &&
                    value.number <= key.info->high;
  if (fits) return value.number;
  findings.problem(value.place, path,
                   fmt::format("{} is not legal; expected a whole number from {:g} to {:g}",
                               written(value), key.info->low, key.info->high));
  return std::nullopt;
}

/// Equal steps, or steps of an equal factor, both ends exact.
std::vector<double> spread(double from, double to, int steps, bool log) {
  std::vector<double> values;
  for (int i = 0; i < steps; ++i) {
    const double share = static_cast<double>(i) / (steps - 1);
    values.push_back(log ? from * std::pow(to / from, share) : from + share * (to - from));
  }
  values.back() = to;
  return values;
}

/// A factor between two ends.
void read_range(const Section& item, DesignKind design, FactorKey& key) {
  Findings& findings = item.findings();
  const bool grid = design == DesignKind::grid;
  if (!holds_number(key.info)) {
    item.problem_at_key(
        "from", fmt::format("{} holds no number; give values = [...]", in_quotes(key.factor.key)));
    return;
  }
  std::optional<double> ends[2];
  for (const int end : {0, 1}) {
    const std::string_view name = end == 0 ? "from" : "to";
    const Node* value = item.find(name);
    if (value == nullptr) {
      if (item.lacks(name))
        item.problem(fmt::format("expected both from and to; {} is missing", name));
      continue;
    }
    ends[end] = number_of(*value, key, findings);
    if (key.factor.unit.empty()) key.factor.unit = unit_in(*value);
  }
  const auto steps = read_count(item, steps_info);
  const bool log = read_choice(item, scale_info).value_or(0) == 1;
  if (!ends[0] || !ends[1]) return;
  if (!(*ends[0] < *ends[1])) {
    item.problem_at_value("to", "is not above from; expected the smaller end first");
    return;
  }
  if (log && *ends[0] <= 0) {
    item.problem_at_value("from", "must be greater than zero on a log scale");
    return;
  }
  const bool wants_steps = grid || key.varied.whole;
  if (wants_steps && item.lacks("steps")) {
    item.problem(grid ? "a factor of a grid has steps; expected one such as steps = 5"
                      : "a whole number is varied in steps; expected one such as steps = 3");
    return;
  }
  if (steps) {
    key.factor.values = spread(*ends[0], *ends[1], *steps, log);
    const auto broken = [](double v) { return v != std::round(v); };
    if (key.varied.whole && std::any_of(key.factor.values.begin(), key.factor.values.end(), broken))
      item.problem_at_value("steps", fmt::format("do not fall on whole numbers from {:g} to {:g}",
                                                 *ends[0], *ends[1]));
  } else if (log) {
    key.factor.distribution = models::LogUniform{*ends[0], *ends[1]};
  } else {
    key.factor.distribution = models::Uniform{*ends[0], *ends[1]};
  }
}

void read_values(const Section& item, const OpenCase& base, FactorKey& key) {
  const Node& list = *item.find("values");
  if (list.kind != Node::Kind::list || list.items.empty()) {
    item.problem_at_value("values",
                          "expected a list of values, such as [\"20 Shore A\", \"40 "
                          "Shore A\"]");
    return;
  }
  for (const Node& value : list.items)
    add_value(base, value, key, item.findings());
}

std::vector<double> probes_of(const Factor& factor) {
  if (!factor.words.empty()) return {};
  double low = 0;
  double high = 0;
  if (factor.distribution) {
    std::tie(low, high) = models::range_of(*factor.distribution);
    const double middle = models::quantile(*factor.distribution, 0.5);
    return {middle, low, high, models::quantile(*factor.distribution, 0.2),
            models::quantile(*factor.distribution, 0.7)};
  }
  if (factor.values.empty()) return {};
  const auto [least, most] = std::minmax_element(factor.values.begin(), factor.values.end());
  return {factor.values[factor.values.size() / 2], *least, *most};
}

}  // namespace

std::string written(const Node& value) {
  switch (value.kind) {
    case Node::Kind::string:
      return value.text;
    case Node::Kind::integer:
      return fmt::format("{}", value.integer);
    case Node::Kind::number:
      return units::format_number(value.number);
    case Node::Kind::boolean:
      return value.flag ? "true" : "false";
    case Node::Kind::table: {
      std::string text;
      for (const Member& member : value.members)
        text +=
            fmt::format("{}{} = {}", text.empty() ? "" : ", ", member.key, written(member.value));
      return "{ " + text + " }";
    }
    case Node::Kind::list: {
      std::string text;
      for (const Node& item : value.items)
        text += (text.empty() ? "" : ", ") + written(item);
      return "[" + text + "]";
    }
    default:
      return std::string(kind_name(value.kind));
  }
}

std::string unit_in(const Node& value) {
  if (value.kind != Node::Kind::string) return {};
  try {
    return units::parse(value.text).unit.symbol;
  } catch (const units::UnitError&) {
    return {};
  }
}

bool holds_number(const std::optional<KeyInfo>& info) {
  return info && (info->kind == KeyKind::quantity || info->kind == KeyKind::count);
}

std::optional<FactorKey> find_key(const OpenCase& base, const std::string& path, Place at,
                                  const std::string& named_by, Findings& findings) {
  FactorKey key;
  try {
    key.varied.path = numbered(base.document(), parse_path(path));
    key.info = base.declaration(key.varied.path, anything());
  } catch (const PathError& error) {
    findings.problem(at, named_by, error.what());
    return std::nullopt;
  } catch (const CaseError& error) {
    for (const Problem& problem : error.problems())
      findings.problem(at, named_by,
                       fmt::format("{} names no key of the case: {}: {}", in_quotes(path),
                                   problem.key, problem.text));
    return std::nullopt;
  }
  // A section that the case does not have would be opened by a slip; its keys say so by being
  // unknown. What the reader never looks at is no key, either.
  if (!key.info && find(base.document(), key.varied.path) == nullptr) {
    const auto tried = [&] {
      Node changed = base.document();
      put(changed, key.varied.path, anything());
      return base.problems_by_section(changed);
    }();
    if (tried.empty()) {
      findings.problem(at, named_by, fmt::format("{} names no key of the case", in_quotes(path)));
      return std::nullopt;
    }
  }
  if (key.info && !key.info->bounds.empty()) {
    findings.problem(at, named_by,
                     fmt::format("{} is a bound, plus or minus, which moves bands, and rows and "
                                 "draws have none; expected the value itself, {}",
                                 in_quotes(path), in_quotes(key.info->bounds)));
    return std::nullopt;
  }
  key.factor.key = to_text(key.varied.path);
  if (key.info) key.factor.meaning = std::string(key.info->meaning);
  key.factor.whole = key.varied.whole = key.info && key.info->kind == KeyKind::count;
  return key;
}

void add_value(const OpenCase& base, const Node& value, FactorKey& key, Findings& findings) {
  if (holds_number(key.info)) {
    const auto number = number_of(value, key, findings);
    if (!number) return;
    if (key.factor.unit.empty()) key.factor.unit = unit_in(value);
    key.factor.values.push_back(*number);
    return;
  }
  Node changed = base.document();
  put(changed, key.varied.path, value);
  for (const Problem& problem : base.problems_by_section(changed))
    findings.problem(value.place, problem.key, problem.text);
  key.factor.values.push_back(static_cast<double>(key.varied.levels.size()));
  key.factor.words.push_back(written(value));
  key.varied.levels.push_back(value);
}

std::optional<FactorKey> read_factor(const Section& item, const OpenCase& base, DesignKind design) {
  item.refuse_unknown(factor_keys);
  const KeyInfo named{.name = "key", .kind = KeyKind::text, .required = true};
  const auto path = read_text(item, named);
  if (!path) return std::nullopt;
  auto key = find_key(base, *path, item.find("key")->place, item.path("key"), item.findings());
  if (!key) return std::nullopt;
  const bool listed = item.given("values");
  const bool ranged = item.given("from") || item.given("to");
  const bool drawn = item.given("distribution");
  if (int{listed} + int{ranged} + int{drawn} != 1) {
    item.problem("expected one of values = [...], from and to, or distribution = { kind = ... }");
    return std::nullopt;
  }
  if (design == DesignKind::list && !drawn)
    item.problem("the list gives the values of its keys; a factor beside it has a distribution");
  if (listed) read_values(item, base, *key);
  if (ranged) read_range(item, design, *key);
  if (const auto table = drawn ? item.open("distribution") : std::nullopt) {
    if (!key->info || key->info->kind != KeyKind::quantity)
      item.problem_at_value("distribution", fmt::format("{} holds no number that could scatter; "
                                                        "give values = [...]",
                                                        in_quotes(key->factor.key)));
    else
      key->factor.distribution =
          read_distribution(*table, key->factor.key, *key->info, key->factor.unit);
  }
  return key;
}

void settle(FactorKey& key) {
  key.varied.unit = key.factor.unit;
  key.varied.probes = probes_of(key.factor);
  if (key.factor.unit.empty()) return;
  const units::Unit unit = units::parse_unit(key.factor.unit);
  key.factor.unit_factor = unit.factor;
  key.factor.unit_offset = unit.offset;
}

}  // namespace drumlin::cases
