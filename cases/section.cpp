#include "cases/section.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include <fmt/format.h>

#include "cases/schema_material.hpp"
#include "cases/suggest.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

constexpr std::size_t longest_quote = 60;

bool is_control(char c) {
  return std::iscntrl(static_cast<unsigned char>(c)) != 0;
}

std::string cleaned(std::string_view text) {
  std::string result(text);
  std::replace_if(result.begin(), result.end(), is_control, ' ');
  return result;
}

/// At most so many bytes, never half a character.
std::string shortened(std::string_view text, std::size_t longest) {
  if (text.size() <= longest) return std::string(text);
  std::size_t end = longest;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U)
    --end;
  return std::string(text.substr(0, end)) + "...";
}

}  // namespace

std::string in_quotes(std::string_view text) {
  return fmt::format("\"{}\"", cleaned(shortened(text, longest_quote)));
}

void Findings::problem(Place place, std::string key, std::string_view text) {
  problems.push_back({file, place.line, place.column, std::move(key), cleaned(text)});
}

const Node* Section::find(std::string_view key) const {
  const Member* member = table_->find(key);
  return member == nullptr ? nullptr : &member->value;
}

bool Section::lacks(std::string_view key) const {
  return !given(key) && !findings_->misspelt.contains(path(key));
}

Place Section::key_place(std::string_view key) const {
  const Member* member = table_->find(key);
  return member == nullptr ? table_->place : member->place;
}

std::string Section::path(std::string_view key) const {
  std::string result;
  result.reserve(path_.size() + key.size() + 1);
  if (!path_.empty()) result.append(path_).push_back('.');
  const bool plain =
      key.size() <= longest_quote && std::none_of(key.begin(), key.end(), is_control);
  if (plain) return result.append(key);
  return result + cleaned(shortened(key, longest_quote));
}

void Section::problem_at_value(std::string_view key, std::string_view text) const {
  const Node* node = find(key);
  findings_->problem(node == nullptr ? table_->place : node->place, path(key), text);
}

void Section::problem_at_key(std::string_view key, std::string_view text) const {
  findings_->problem(key_place(key), path(key), text);
}

void Section::problem(std::string_view text) const {
  findings_->problem(table_->place, path_, text);
}

void Section::note_default(std::string_view key, std::string_view value,
                           std::string_view why) const {
  findings_->defaults.push_back(fmt::format("{} = {}: {}", path(key), value, why));
}

void Section::note_unused(std::string_view key, std::string_view why) const {
  findings_->unused.push_back({path(key), key_place(key).line, cleaned(why)});
}

void Section::refuse_unknown(std::span<const KeyInfo> known) const {
  for (const Member& member : table_->members) {
    const auto is_it = [&](const KeyInfo& info) { return info.name == member.key; };
    if (std::any_of(known.begin(), known.end(), is_it)) continue;
    std::vector<std::string> names;
    names.reserve(known.size());
    for (const KeyInfo& info : known)
      names.emplace_back(info.name);
    findings_->problem(member.place, path(member.key),
                       "unknown key" + suggestion(member.key, names));
    if (const auto near = nearest(member.key, names)) findings_->misspelt.insert(path(*near));
  }
}

std::optional<Section> Section::open(std::string_view key) const {
  const Node* node = find(key);
  if (node == nullptr) return std::nullopt;
  if (node->kind == Node::Kind::table) return Section(*node, path(key), *findings_);
  problem_at_value(
      key, fmt::format("expected a table, such as [{}]; got {}", path(key), kind_name(node->kind)));
  return std::nullopt;
}

std::vector<Section> Section::open_list(std::string_view key) const {
  std::vector<Section> result;
  const Node* node = find(key);
  if (node == nullptr) return result;
  if (node->kind == Node::Kind::table) {
    problem_at_value(key,
                     fmt::format("expected a list; write [[{}]] with double brackets, once for "
                                 "each",
                                 path(key)));
    return result;
  }
  if (node->kind != Node::Kind::list) {
    problem_at_value(key, fmt::format("expected a list of tables, each under [[{}]]; got {}",
                                      path(key), kind_name(node->kind)));
    return result;
  }
  const std::string list_path = path(key);
  result.reserve(node->items.size());
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    std::string item_path = list_path;
    item_path.append("[").append(std::to_string(i)).append("]");
    if (node->items[i].kind == Node::Kind::table)
      result.emplace_back(node->items[i], std::move(item_path), *findings_);
    else
      findings_->problem(node->items[i].place, item_path,
                         fmt::format("expected a table; got {}", kind_name(node->items[i].kind)));
  }
  return result;
}

std::optional<Sourced> read_sourced(const Section& section, const KeyInfo& info) {
  const std::string such_as =
      info.example.empty() ? units::example(info.dimension) : std::string(info.example);
  if (info.required && section.lacks(info.name))
    section.problem_at_key(
        info.name, fmt::format("missing; expected {{ value = \"{}\", low = ..., high = ..., "
                               "source = ... }}",
                               such_as));
  const auto table = section.open(info.name);
  if (!table) return std::nullopt;
  std::vector<KeyInfo> keys;
  for (const std::string_view name : sourced_keys) {
    KeyInfo key = info;
    key.name = name;
    key.kind = name == "source" ? KeyKind::text : KeyKind::quantity;
    key.required = true;
    keys.push_back(key);
  }
  table->refuse_unknown(keys);
  const auto value = read_quantity(*table, keys[0]);
  const auto low = read_quantity(*table, keys[1]);
  const auto high = read_quantity(*table, keys[2]);
  const auto source = read_text(*table, keys[3]);
  if (value && low && *low > *value) table->problem_at_value("low", "is above the value");
  if (value && high && *high < *value) table->problem_at_value("high", "is below the value");
  if (!value || !low || !high || !source) return std::nullopt;
  return Sourced{*value, *low, *high, *source};
}

}  // namespace drumlin::cases
