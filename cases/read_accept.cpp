#include <algorithm>
#include <string_view>

#include <fmt/format.h>

#include "cases/finishes.hpp"
#include "cases/reader_parts.hpp"
#include "cases/schema_rest.hpp"
#include "cases/suggest.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

constexpr std::string_view forms =
    "expected a limit such as \"<= 0.03 mm\", \">= 0.2 mm\" or "
    "\"0.15..0.40 mm\"";

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// Takes one of the signs off the front of a text.
bool take(std::string_view& text, std::initializer_list<std::string_view> signs) {
  for (const std::string_view sign : signs) {
    if (!text.starts_with(sign)) continue;
    text.remove_prefix(sign.size());
    text = trimmed(text);
    return true;
  }
  return false;
}

/// Reads the text of one limit; throws UnitError with what is wrong.
class LimitReader {
 public:
  LimitReader(const KeyInfo& info, const std::string& path, std::string_view text)
      : info_(info), path_(path), text_(text) {}

  Limit read() {
    Limit limit;
    limit.text = text_;
    std::string_view rest = trimmed(text_);
    if (take(rest, {"<=", "\u2264"})) {
      limit.high = value(rest, limit);
    } else if (take(rest, {">=", "\u2265"})) {
      limit.low = value(rest, limit);
    } else if (rest.starts_with("<") || rest.starts_with(">")) {
      throw units::UnitError(
          fmt::format("{}: write \"{}= ...\"; a measured value cannot tell {} from "
                      "{}=",
                      in_quotes(text_), rest.front(), rest.front(), rest.front()),
          true);
    } else {
      const std::size_t dots = rest.find("..");
      if (dots == std::string_view::npos)
        throw units::UnitError(fmt::format("{} has no sign; {}", in_quotes(text_), forms), true);
      range(trimmed(rest.substr(0, dots)), trimmed(rest.substr(dots + 2)), limit);
    }
    return limit;
  }

 private:
  double value(std::string_view text, Limit& limit) {
    // The example of a limit is a limit; of its value, one of the dimension.
    const auto quantity = units::parse_as(text, info_.dimension);
    limit.unit = quantity.unit.symbol;
    limit.scale = quantity.unit.factor;
    limit.offset = quantity.unit.offset * quantity.unit.factor;
    const std::string wrong =
        out_of_range(quantity.value, info_, path_, in_quotes(text_), quantity.unit.symbol);
    if (!wrong.empty()) throw units::UnitError(wrong, true);
    return quantity.value;
  }

  void range(std::string_view low, std::string_view high, Limit& limit) {
    if (low.empty() || high.empty())
      throw units::UnitError(fmt::format("{} is half a range; {}", in_quotes(text_), forms), true);
    limit.high = value(high, limit);
    const std::string unit = limit.unit;
    // "0.15..0.40 mm": the unit stands once, for both ends.
    if (low.find_first_not_of("0123456789+-.eE") == std::string_view::npos)
      limit.low = value(fmt::format("{} {}", low, unit), limit);
    else
      limit.low = value(low, limit);
    if (*limit.low > *limit.high)
      throw units::UnitError(
          fmt::format("{}: the lower end is above the upper end", in_quotes(text_)), true);
  }

  const KeyInfo& info_;
  const std::string& path_;
  std::string_view text_;
};

Limits read_limits(const Section& section) {
  Limits limits;
  for (const KeyInfo& info : accept_keys) {
    const Node* node = section.find(info.name);
    if (node == nullptr) continue;
    const std::string path = section.path(info.name);
    if (node->kind != Node::Kind::string) {
      section.problem_at_value(info.name, fmt::format("expected a limit, such as \"{}\"; got {}",
                                                      info.example, kind_name(node->kind)));
      continue;
    }
    try {
      limits[std::string(info.name)] = LimitReader(info, path, node->text).read();
    } catch (const units::UnitError& error) {
      section.problem_at_value(info.name, error.what());
    }
  }
  return limits;
}

std::vector<KeyInfo> with_limits(std::vector<KeyInfo> keys) {
  keys.insert(keys.end(), accept_keys.begin(), accept_keys.end());
  return keys;
}

bool matches(const FeatureLimits& wanted, const Feature& feature) {
  if (wanted.name && *wanted.name != feature.name) return false;
  if (wanted.kind && *wanted.kind != feature.kind) return false;
  return !wanted.side || !feature.side || *wanted.side == *feature.side;
}

/// Limits that no feature falls under are a slip of the pen.
void check_that_one_fits(const Section& section, const FeatureLimits& wanted, const Part& part) {
  const auto fits = [&](const Feature& feature) { return matches(wanted, feature); };
  if (std::any_of(part.features.begin(), part.features.end(), fits)) return;
  const std::string_view at = section.given("name")   ? "name"
                              : section.given("kind") ? "kind"
                                                      : "side";
  std::string text = "no feature of the part fits";
  if (part.features.empty()) {
    text += "; it has none";
  } else if (wanted.name) {
    std::vector<std::string> names;
    for (const Feature& feature : part.features)
      names.push_back(feature.name);
    text += suggestion(*wanted.name, names);
  }
  section.problem_at_value(at, text);
}

FeatureLimits read_feature_limits(const Section& section, const Part& part, bool part_is_right) {
  section.refuse_unknown(with_limits(infos(accept_feature_fields)));
  FeatureLimits result;
  const std::size_t before = section.findings().problems.size();
  for (const auto& field : accept_feature_fields)
    read_field(section, field, result);
  if (section.given("name")) result.name = read_name(section, "name", "the name of a feature");
  const bool selectors_are_right = section.findings().problems.size() == before;
  result.limits = read_limits(section);
  if (section.findings().problems.size() == before && result.limits.empty())
    section.problem("sets no limit; expected one such as coating_left = \">= 9 um\"");
  // What speaks of the plain face or of the line has no edge to hold for.
  for (const std::string_view key : {"roughness", "face_removal", "top_left", "belt_life"})
    if (section.given(key))
      section.note_unused(key, "no edge has it: a limit on it belongs to [accept] itself");
  if (result.beyond && !section.given("coating_left"))
    section.problem_at_key("beyond", "is a distance for coating_left, which is not limited here");
  if (selectors_are_right && part_is_right) check_that_one_fits(section, result, part);
  return result;
}

}  // namespace

Accept read_accept(const Section& top, const Part& part) {
  Accept accept;
  const auto section = top.open("accept");
  if (!section) return accept;
  auto keys = with_limits({});
  keys.push_back({.name = "feature", .meaning = "limits for some features only"});
  keys.push_back(finish_info);
  section->refuse_unknown(keys);
  accept.limits = read_limits(*section);
  read_finish(*section, accept.limits);
  const auto& problems = top.findings().problems;
  const bool part_is_right =
      std::none_of(problems.begin(), problems.end(), [](const Problem& problem) {
        return problem.key.starts_with("part.feature") || problem.key == "part";
      });
  for (const Section& item : section->open_list("feature"))
    accept.features.push_back(read_feature_limits(item, part, part_is_right));
  return accept;
}

}  // namespace drumlin::cases
