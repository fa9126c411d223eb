#include <algorithm>

#include <fmt/format.h>

#include "cases/reader_parts.hpp"
#include "cases/study_parts.hpp"
#include "cases/study_reader.hpp"

namespace drumlin::cases {
namespace {

constexpr std::size_t values_shown = 6;

std::string values_text(const Node& list) {
  std::string text;
  const std::size_t shown = std::min(list.items.size(), values_shown);
  for (std::size_t i = 0; i < shown; ++i)
    text += (i == 0 ? "" : ", ") + written(list.items[i]);
  if (shown < list.items.size()) text += fmt::format(" and {} more", list.items.size() - shown);
  return list.items.size() == 1 ? text : "one of " + text;
}

/// How a factor is varied, in words, as its entry has it.
std::string varied(const Section& factor) {
  if (const Node* values = factor.find("values")) return values_text(*values);
  if (const Node* law = factor.find("distribution")) {
    const Member* kind = law->find("kind");
    std::string text = kind != nullptr ? kind->value.text : std::string("drawn");
    for (const Member& member : law->members)
      if (member.key != "kind") text += fmt::format(", {} {}", member.key, written(member.value));
    return text;
  }
  const Node* from = factor.find("from");
  const Node* to = factor.find("to");
  if (from == nullptr || to == nullptr) return "as the study has it";
  const Node* steps = factor.find("steps");
  const Node* scale = factor.find("scale");
  return fmt::format(
      "{} to {}{}{}", written(*from), written(*to),
      steps != nullptr ? fmt::format(" in {} steps", written(*steps)) : std::string(", evenly"),
      scale != nullptr && scale->text == "log" ? " on a log scale" : "");
}

DesignKind kind_of(const std::string& name) {
  if (name == "latin-hypercube") return DesignKind::latin_hypercube;
  if (name == "sobol") return DesignKind::sobol;
  if (name == "list") return DesignKind::list;
  if (name == "pick-freeze") return DesignKind::pick_freeze;
  return DesignKind::grid;
}

}  // namespace

StudyWishes read_wishes(std::string_view text, const std::string& file) {
  const Node root = parse_toml(text, file);
  Findings findings(file);
  const Section top(root, "", findings);
  StudyWishes wishes;
  wishes.file = file;
  if (const Node* title = top.find("title")) wishes.title = title->text;
  if (const Node* count = top.find("replicates"))
    wishes.replicates = static_cast<std::uint64_t>(std::max<std::int64_t>(count->integer, 1));
  if (const auto design = top.open("design")) {
    if (const Node* kind = design->find("kind")) wishes.design = kind_of(kind->text);
    if (const Node* scramble = design->find("scramble")) wishes.scramble = scramble->flag;
  }
  const std::vector<Section> factors = top.open_list("factor");
  wishes.all_drawn = !factors.empty() && wishes.design != DesignKind::list;
  for (const Section& factor : factors) {
    wishes.varied.push_back(varied(factor));
    wishes.all_drawn = wishes.all_drawn && factor.given("distribution");
  }
  wishes.aims = read_aims(top);
  throw_problems(findings);
  return wishes;
}

}  // namespace drumlin::cases
