#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/schema_rest.hpp"
#include "cases/study_parts.hpp"
#include "cases/suggest.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

constexpr const char* path_example = R"("part.thickness" = "0.03 mm")";

/// In the order of the file.
std::vector<Member> in_order(std::vector<Member> members) {
  std::stable_sort(members.begin(), members.end(), [](const Member& a, const Member& b) {
    return std::pair(a.place.line, a.place.column) < std::pair(b.place.line, b.place.column);
  });
  return members;
}

/// "normal: mean 1.5 mm, deviation 0.03 mm".
std::string text_of(const Node& table) {
  std::string kind;
  std::string rest;
  for (const Member& member : in_order(table.members)) {
    if (member.key == "kind")
      kind = member.value.text;
    else
      rest += fmt::format("{}{} {}", rest.empty() ? "" : ", ", member.key, written(member.value));
  }
  return kind + ": " + rest;
}

/// What a bare deviation goes around.
struct Middle {
  double value = 0;        ///< inner unit
  std::string unit;        ///< in which it was written
  std::string_view whose;  ///< in words
};

class Reader {
 public:
  Reader(const Section& section, const OpenCase& base, Uncertainty& into)
      : section_(section), base_(base), into_(into) {}

  void read();

 private:
  void read_key(const Member& member);
  void refuse_word(const Member& member) const;
  [[nodiscard]] std::optional<Middle> middle_of(const std::string& name, const FactorKey& key,
                                                Place at) const;
  void read_around(const std::string& name, const FactorKey& key, ScatteredKey& scattered);

  const Section& section_;
  const OpenCase& base_;
  Uncertainty& into_;
};

/// A key without a dot is no path: a slip in one of the section's own keys, or a path without
/// quotes, which the file takes for a table.
void Reader::refuse_word(const Member& member) const {
  if (member.value.kind == Node::Kind::table) {
    section_.problem_at_key(
        member.key, fmt::format("the path of a key stands in quotes, such as {}", path_example));
    return;
  }
  std::vector<std::string> known;
  for (const auto& field : uncertainty_fields)
    known.emplace_back(field.info.name);
  section_.problem_at_key(
      member.key, fmt::format("unknown key{}; keys that scatter are named by their path in quotes, "
                              "such as {}",
                              suggestion(member.key, known), path_example));
}

/// What the reader takes where the case is silent, if that is a number.
std::optional<Middle> default_of(const KeyInfo& info) {
  if (info.default_text.empty()) return std::nullopt;
  try {
    const auto taken = units::parse(info.default_text);
    return Middle{taken.value, taken.unit.symbol, "the default, "};
  } catch (const units::UnitError&) {
    return std::nullopt;
  }
}

std::optional<Middle> Reader::middle_of(const std::string& name, const FactorKey& key,
                                        Place at) const {
  if (const Node* own = find(base_.document(), key.varied.path)) {
    // What is wrong with it has been said at its own place.
    Findings unsaid(section_.findings().file);
    const auto value = quantity_of(*own, *key.info, key.factor.key, unsaid);
    if (!value) return std::nullopt;
    return Middle{*value, unit_in(*own), "the case's "};
  }
  auto taken = default_of(*key.info);
  if (!taken)
    section_.findings().problem(
        at, section_.path(name),
        "the case gives no value of it to scatter around; give one, or a distribution with a mean, "
        "such as { kind = \"normal\", mean = ..., deviation = ... }");
  return taken;
}

void Reader::read_around(const std::string& name, const FactorKey& key, ScatteredKey& scattered) {
  const Node& value = *section_.find(name);
  const auto middle = middle_of(name, key, value.place);
  if (!middle) return;
  scattered.unit = middle->unit;
  const auto law = read_deviation(section_, name, *key.info, middle->value, scattered.unit);
  if (!law) return;
  scattered.distribution = *law;
  scattered.around_own = true;
  scattered.text =
      fmt::format("normal around {}{}, deviation {}", middle->whose,
                  scattered.unit.empty() ? units::format_number(middle->value)
                                         : units::format(middle->value, scattered.unit),
                  written(value));
  into_.keys.push_back(std::move(scattered));
}

void Reader::read_key(const Member& member) {
  const std::string& name = member.key;
  if (name.find('.') == std::string::npos) {
    refuse_word(member);
    return;
  }
  Findings& findings = section_.findings();
  const auto key = find_key(base_, name, member.place, section_.path(name), findings);
  if (!key) return;
  if (!key->info || key->info->kind != KeyKind::quantity) {
    section_.problem_at_key(
        name, fmt::format("{} holds no number that could scatter", in_quotes(key->factor.key)));
    return;
  }
  for (const ScatteredKey& other : into_.keys) {
    if (other.key != key->factor.key) continue;
    section_.problem_at_key(
        name, fmt::format("{} scatters already, line {}", in_quotes(other.key), other.place.line));
    return;
  }
  ScatteredKey scattered{.key = key->factor.key,
                         .meaning = key->factor.meaning,
                         .unit = {},
                         .text = {},
                         .place = member.place};
  if (member.value.kind != Node::Kind::table) {
    read_around(name, *key, scattered);
    return;
  }
  const Section table(member.value, section_.path(name), findings);
  const auto law = read_distribution(table, table.path(), *key->info, scattered.unit);
  if (!law) return;
  scattered.distribution = *law;
  scattered.text = text_of(member.value);
  into_.keys.push_back(std::move(scattered));
}

void Reader::read() {
  read_each<Uncertainty>(section_, uncertainty_fields, into_);
  for (const Member& member : in_order(section_.table().members)) {
    const auto is_own = [&](const auto& field) { return field.info.name == member.key; };
    if (std::none_of(uncertainty_fields.begin(), uncertainty_fields.end(), is_own))
      read_key(member);
  }
}

}  // namespace

void read_uncertainty(const Node& root, const Reading& reading, Case& scenario) {
  const Section top(root, "", reading.findings);
  const auto section = top.open("uncertainty");
  if (!section) return;
  Uncertainty uncertainty{.size = 256, .seed = 1, .model = "fast", .keys = {}};
  const OpenCase base(root, reading.library, reading.findings.problems);
  Reader(*section, base, uncertainty).read();
  if (uncertainty.keys.empty()) {
    top.note_unused("uncertainty", "no key scatters");
    return;
  }
  scenario.uncertainty = std::move(uncertainty);
}

}  // namespace drumlin::cases
