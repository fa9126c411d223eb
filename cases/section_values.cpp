#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cases/section.hpp"
#include "cases/suggest.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

/// Beyond this factor outside its range a number is called absurd: most often a slip of unit.
constexpr double absurd = 10;

std::string called(const KeyInfo& info) {
  return info.called.empty() ? units::name(info.dimension) : std::string(info.called);
}

std::string expectation(const KeyInfo& info) {
  const std::string example =
      info.example.empty() ? units::example(info.dimension) : std::string(info.example);
  if (info.dimension == models::dimension::number)
    return fmt::format("a pure number, such as {}", example);
  return fmt::format("{}, such as \"{}\"", called(info), example);
}

std::string expectation_with_unit(const KeyInfo& info) {
  const std::string example =
      info.example.empty() ? units::example(info.dimension) : std::string(info.example);
  return fmt::format("{} with its unit, such as \"{}\"", called(info), example);
}

/// The last two words of a path, without list indices: "drum radius".
std::string spoken(const std::string& path) {
  std::string words;
  bool index = false;
  for (const char c : path) {
    if (c == '[') index = true;
    if (!index) words += c == '_' ? ' ' : c;
    if (c == ']') index = false;
  }
  const std::size_t last = words.rfind('.');
  if (last == std::string::npos) return words;
  const std::size_t before = words.rfind('.', last - 1);
  std::string result = before == std::string::npos ? words : words.substr(before + 1);
  result[result.rfind('.')] = ' ';
  return result;
}

std::string with_article(const std::string& words) {
  const bool vowel =
      !words.empty() && std::string_view("aeiou").find(words[0]) != std::string::npos;
  return (vowel ? "an " : "a ") + words;
}

std::string in_example_unit(double value, std::string_view unit) {
  return unit.empty() ? units::format_number(value, 6) : units::format(value, unit, 6);
}

void report_missing(const Section& section, const KeyInfo& info, const std::string& expected) {
  section.findings().problem(section.table().place, section.path(info.name),
                             fmt::format("missing; expected {}", expected));
}

void report_type(const Section& section, const KeyInfo& info, std::string_view expected) {
  const Node* node = section.find(info.name);
  section.problem_at_value(info.name,
                           fmt::format("expected {}; got {}", expected, kind_name(node->kind)));
}

/// True if the key is there; if it is not, what is due then has been done.
bool present(const Section& section, const KeyInfo& info, const std::string& expected) {
  if (section.given(info.name)) return true;
  if (info.required && section.lacks(info.name)) report_missing(section, info, expected);
  return false;
}

std::optional<double> bare_number_of(const Node& node, const KeyInfo& info, const std::string& path,
                                     Findings& findings) {
  const std::string written = std::isfinite(node.number) && node.kind == Node::Kind::integer
                                  ? fmt::format("{}", node.integer)
                                  : units::format_number(node.number);
  const bool pure = info.dimension == models::dimension::number;
  if (!std::isfinite(node.number)) {
    findings.problem(node.place, path,
                     fmt::format("{} is not a finite number; expected {}", written,
                                 pure ? expectation(info) : expectation_with_unit(info)));
    return std::nullopt;
  }
  if (!pure) {
    findings.problem(
        node.place, path,
        fmt::format("{} has no unit; expected {}", written, expectation_with_unit(info)));
    return std::nullopt;
  }
  const std::string wrong = out_of_range(node.number, info, path, written, "");
  if (wrong.empty()) return node.number;
  findings.problem(node.place, path, wrong);
  return std::nullopt;
}

std::optional<double> written_quantity_of(const Node& node, const KeyInfo& info,
                                          const std::string& path, Findings& findings) {
  try {
    const auto quantity = units::parse_as(node.text, info.dimension, info.example, info.called);
    if (quantity.unit.symbol.empty()) {
      findings.problem(node.place, path,
                       fmt::format("a pure number stands bare, without quotes: {}",
                                   units::format_number(quantity.value)));
      return std::nullopt;
    }
    const double value = node.exact.value_or(quantity.value);
    const std::string wrong =
        out_of_range(value, info, path, in_quotes(node.text), unit_of_example(info));
    if (wrong.empty()) return value;
    findings.problem(node.place, path, wrong);
  } catch (const units::UnitError& error) {
    findings.problem(node.place, path, error.what());
  }
  return std::nullopt;
}

}  // namespace

std::string unit_of_example(const KeyInfo& info) {
  const std::string example =
      info.example.empty() ? units::example(info.dimension) : std::string(info.example);
  return units::parse(example).unit.symbol;
}

std::string out_of_range(double value, const KeyInfo& info, const std::string& path,
                         std::string_view written, std::string_view unit) {
  if (value >= info.low && value <= info.high) return {};
  const std::string expected = fmt::format("expected {} to {}", in_example_unit(info.low, unit),
                                           in_example_unit(info.high, unit));
  const std::string what = spoken(path);
  if (value < 0 && info.low >= 0) return fmt::format("{} is negative; {}", written, expected);
  if (value == 0 && info.low > 0)
    return fmt::format("{} is nothing at all for {}; {}", written, with_article(what), expected);
  if (value > absurd * std::abs(info.high) || (value > 0 && value < info.low / absurd))
    return fmt::format("{} is absurd for {}; {}", written, with_article(what), expected);
  return fmt::format("{} is out of range for {}; {}", written, with_article(what), expected);
}

std::optional<double> quantity_of(const Node& node, const KeyInfo& info, const std::string& path,
                                  Findings& findings) {
  findings.reads(path, info);
  switch (node.kind) {
    case Node::Kind::string:
      return written_quantity_of(node, info, path, findings);
    case Node::Kind::integer:
    case Node::Kind::number:
      return bare_number_of(node, info, path, findings);
    default:
      findings.problem(node.place, path,
                       fmt::format("expected {}; got {}", expectation(info), kind_name(node.kind)));
      return std::nullopt;
  }
}

std::optional<double> read_quantity(const Section& section, const KeyInfo& info) {
  if (!present(section, info, expectation(info))) {
    if (info.default_text.empty()) return std::nullopt;
    section.note_default(info.name, info.default_text, info.default_why);
    return units::parse(info.default_text).value;
  }
  const auto value =
      quantity_of(*section.find(info.name), info, section.path(info.name), section.findings());
  if (value && !info.unused.empty() && *value != info.neutral)
    section.note_unused(info.name, info.unused);
  return value;
}

std::optional<int> read_count(const Section& section, const KeyInfo& info) {
  const std::string range = fmt::format("a whole number from {} to {}", static_cast<long>(info.low),
                                        static_cast<long>(info.high));
  if (!present(section, info, range)) {
    if (!info.default_text.empty())
      section.note_default(info.name, info.default_text, info.default_why);
    return std::nullopt;
  }
  const Node* node = section.find(info.name);
  if (section.findings().watched != nullptr)
    section.findings().reads(section.path(info.name), info);
  if (node->kind != Node::Kind::integer) {
    report_type(section, info, range);
    return std::nullopt;
  }
  if (node->number < info.low || node->number > info.high) {
    section.problem_at_value(info.name,
                             fmt::format("{} is {}; expected {}", node->integer,
                                         node->integer < 0 ? "negative" : "out of range", range));
    return std::nullopt;
  }
  if (!info.unused.empty()) section.note_unused(info.name, info.unused);
  return static_cast<int>(node->integer);
}

std::optional<bool> read_flag(const Section& section, const KeyInfo& info) {
  if (!present(section, info, "true or false")) {
    if (!info.default_text.empty())
      section.note_default(info.name, info.default_text, info.default_why);
    return std::nullopt;
  }
  const Node* node = section.find(info.name);
  if (section.findings().watched != nullptr)
    section.findings().reads(section.path(info.name), info);
  if (node->kind == Node::Kind::boolean) return node->flag;
  report_type(section, info, "true or false, without quotes");
  return std::nullopt;
}

std::optional<std::string> read_text(const Section& section, const KeyInfo& info) {
  if (!present(section, info, "a text in quotes")) return std::nullopt;
  const Node* node = section.find(info.name);
  if (section.findings().watched != nullptr)
    section.findings().reads(section.path(info.name), info);
  if (node->kind != Node::Kind::string) {
    report_type(section, info, "a text in quotes");
    return std::nullopt;
  }
  if (node->text.empty()) {
    section.problem_at_value(info.name, "is empty");
    return std::nullopt;
  }
  return node->text;
}

std::optional<std::string> read_name(const Section& section, std::string_view key,
                                     std::string_view expected) {
  const KeyInfo info{.name = key, .kind = KeyKind::text, .required = true};
  if (!present(section, info, std::string(expected))) return std::nullopt;
  const Node* node = section.find(key);
  if (node->kind == Node::Kind::string) return node->text;
  report_type(section, info, expected);
  return std::nullopt;
}

std::optional<std::size_t> read_choice(const Section& section, const KeyInfo& info) {
  std::vector<std::string> all;
  std::vector<std::string> available;
  for (const Choice& choice : info.choices) {
    all.emplace_back(choice.name);
    if (choice.available) available.push_back(in_quotes(choice.name));
  }
  const std::string expected = fmt::format("{}", fmt::join(available, " or "));
  if (!present(section, info, expected)) {
    if (!info.default_text.empty())
      section.note_default(info.name, info.default_text, info.default_why);
    for (std::size_t i = 0; i < all.size(); ++i)
      if (all[i] == info.default_text) return i;
    return std::nullopt;
  }
  const Node* node = section.find(info.name);
  if (section.findings().watched != nullptr)
    section.findings().reads(section.path(info.name), info);
  if (node->kind != Node::Kind::string) {
    report_type(section, info, expected);
    return std::nullopt;
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i] != node->text) continue;
    if (info.choices[i].available) return i;
    section.problem_at_value(info.name,
                             fmt::format("{} is not available in this version; choose {}",
                                         in_quotes(node->text), expected));
    return std::nullopt;
  }
  section.problem_at_value(info.name, fmt::format("unknown choice {}{}", in_quotes(node->text),
                                                  suggestion(node->text, all)));
  return std::nullopt;
}

}  // namespace drumlin::cases
