#include <algorithm>
#include <cstdlib>

#include <fmt/format.h>

#include "cases/study_parts.hpp"
#include "cases/suggest.hpp"

namespace drumlin::cases {
namespace {

constexpr KeyInfo keep_info{
    .name = "keep", .kind = KeyKind::text, .meaning = "rows that are run", .required = true};

}  // namespace

std::optional<Filter> read_filter(const Section& item, const OpenCase& base,
                                  const std::vector<FactorKey>& keys) {
  item.refuse_unknown({&keep_info, 1});
  const auto text = read_text(item, keep_info);
  if (!text) return std::nullopt;
  const std::size_t sign = text->find_first_of("<>");
  if (sign == std::string::npos) {
    item.problem_at_value("keep",
                          "expected a comparison of a factor with a value, such as "
                          "\"station[0].setting.interference <= 0.5 mm\"");
    return std::nullopt;
  }
  const bool or_equal = sign + 1 < text->size() && (*text)[sign + 1] == '=';
  const auto trimmed = [](std::string words) {
    words.erase(words.find_last_not_of(" \t") + 1);
    words.erase(0, words.find_first_not_of(" \t"));
    return words;
  };
  const std::string left = trimmed(text->substr(0, sign));
  Filter filter;
  filter.text = *text;
  filter.sign = (*text)[sign] == '<' ? (or_equal ? Filter::Sign::at_most : Filter::Sign::below)
                                     : (or_equal ? Filter::Sign::at_least : Filter::Sign::above);
  std::vector<std::string> names;
  std::string path = left;
  try {
    path = to_text(numbered(base.document(), parse_path(left)));
  } catch (const PathError&) {
    path = left;
  }
  for (const FactorKey& key : keys)
    names.push_back(key.factor.key);
  const auto found = std::find(names.begin(), names.end(), path);
  if (found == names.end()) {
    item.problem_at_value("keep", fmt::format("{} is no factor of this study{}", in_quotes(left),
                                              suggestion(left, names)));
    return std::nullopt;
  }
  filter.factor = static_cast<std::size_t>(found - names.begin());
  const FactorKey& key = keys[filter.factor];
  if (!holds_number(key.info)) {
    item.problem_at_value("keep", fmt::format("{} holds no number to compare", in_quotes(left)));
    return std::nullopt;
  }
  Node value;
  value.place = item.find("keep")->place;
  value.text = trimmed(text->substr(sign + (or_equal ? 2 : 1)));
  value.kind = Node::Kind::string;
  if (key.info->dimension == models::dimension::number) {
    char* end = nullptr;
    value.number = std::strtod(value.text.c_str(), &end);
    if (end != value.text.c_str() && *end == '\0') value.kind = Node::Kind::number;
  }
  const auto number = quantity_of(value, *key.info, item.path("keep"), item.findings());
  if (!number) return std::nullopt;
  filter.value = *number;
  return filter;
}

}  // namespace drumlin::cases
