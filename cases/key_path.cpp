#include "cases/key_path.hpp"

#include <algorithm>
#include <charconv>
#include <utility>

#include <fmt/format.h>

#include "cases/section.hpp"
#include "cases/suggest.hpp"

namespace drumlin::cases {
namespace {

[[noreturn]] void no_path(std::string_view text) {
  throw PathError(
      fmt::format("{} is no path to a key; expected one such as \"station[0].drum.hardness\" or "
                  "\"part.feature['hole-6'].size\"",
                  in_quotes(text)));
}

/// The entry in brackets: a number, or a name in single or double quotes.
void read_entry(std::string_view inside, std::string_view whole, PathStep& step) {
  const bool quoted = inside.size() > 2 && (inside.front() == '"' || inside.front() == '\'') &&
                      inside.back() == inside.front();
  if (quoted) {
    step.name = std::string(inside.substr(1, inside.size() - 2));
    return;
  }
  std::size_t index = 0;
  const auto [end, error] = std::from_chars(inside.data(), inside.data() + inside.size(), index);
  if (error != std::errc() || end != inside.data() + inside.size()) no_path(whole);
  step.index = index;
}

std::string up_to(const KeyPath& path, std::size_t steps) {
  return to_text(KeyPath(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(steps)));
}

[[noreturn]] void no_entry(const KeyPath& path, std::size_t step, std::size_t entries) {
  KeyPath list(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(step) + 1);
  list.back().index.reset();
  const std::string name = to_text(list);
  throw PathError(entries == 0
                      ? fmt::format("the case has no {}", name)
                      : fmt::format("the case has no {}; expected {}[0]{}", up_to(path, step + 1),
                                    name,
                                    entries == 1 ? std::string(", the only one")
                                                 : fmt::format(" to {}[{}]", name, entries - 1)));
}

std::size_t entries_of(const Node* list) {
  return list != nullptr && list->kind == Node::Kind::list ? list->items.size() : 0;
}

/// Number of the entry of that name.
std::size_t named_entry(const Node* list, const std::string& name, const std::string& path) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < entries_of(list); ++i) {
    const Member* own = list->items[i].find("name");
    names.push_back(own != nullptr ? own->value.text : std::string());
    if (own != nullptr && names.back() == name) return i;
  }
  throw PathError(fmt::format("{} has no entry of the name {}{}", path, in_quotes(name),
                              suggestion(name, names)));
}

}  // namespace

KeyPath parse_path(std::string_view text) {
  KeyPath path;
  std::string_view rest = text;
  while (true) {
    PathStep step;
    const std::size_t end = std::min(rest.find_first_of(".["), rest.size());
    step.key = std::string(rest.substr(0, end));
    rest.remove_prefix(end);
    if (step.key.empty()) no_path(text);
    if (!rest.empty() && rest.front() == '[') {
      const std::size_t close = rest.find(']');
      if (close == std::string_view::npos) no_path(text);
      read_entry(rest.substr(1, close - 1), text, step);
      rest.remove_prefix(close + 1);
    }
    path.push_back(std::move(step));
    if (rest.empty()) return path;
    if (rest.front() != '.') no_path(text);
    rest.remove_prefix(1);
  }
}

std::string to_text(const KeyPath& path) {
  std::string text;
  for (const PathStep& step : path) {
    if (!text.empty()) text += '.';
    text += step.key;
    if (step.index) text += fmt::format("[{}]", *step.index);
    if (!step.index && step.name) text += fmt::format("['{}']", *step.name);
  }
  return text;
}

KeyPath numbered(const Node& root, KeyPath path) {
  const Node* at = &root;
  for (std::size_t i = 0; i < path.size() && at != nullptr; ++i) {
    const Member* member = at->kind == Node::Kind::table ? at->find(path[i].key) : nullptr;
    const Node* list = member != nullptr ? &member->value : nullptr;
    if (path[i].name && !path[i].index) {
      KeyPath here(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(i) + 1);
      here.back().name.reset();
      path[i].index = named_entry(list, *path[i].name, to_text(here));
    }
    if (path[i].index && *path[i].index >= entries_of(list)) no_entry(path, i, entries_of(list));
    at = path[i].index ? &list->items[*path[i].index] : list;
  }
  return path;
}

void put(Node& root, const KeyPath& path, Node value) {
  Node* at = &root;
  for (std::size_t i = 0; i < path.size(); ++i) {
    const bool last = i + 1 == path.size();
    Member* member = at->find(path[i].key);
    if (path[i].index) {
      const std::size_t entries = entries_of(member != nullptr ? &member->value : nullptr);
      if (*path[i].index >= entries) no_entry(path, i, entries);
      at = &member->value.items[*path[i].index];
    } else {
      if (member == nullptr) {
        Node section;
        section.place = at->place;
        at->members.push_back({path[i].key, at->place, std::move(section)});
        member = &at->members.back();
      }
      at = &member->value;
    }
    if (last) {
      value.place = at->place;
      *at = std::move(value);
    } else if (at->kind == Node::Kind::list) {
      throw PathError(fmt::format("{} is a list; write which of its entries is meant, as {}[0]",
                                  up_to(path, i + 1), up_to(path, i + 1)));
    } else if (at->kind != Node::Kind::table) {
      throw PathError(
          fmt::format("{} is {} and has no keys", up_to(path, i + 1), kind_name(at->kind)));
    }
  }
}

const Node* find(const Node& root, const KeyPath& path) {
  const Node* at = &root;
  for (const PathStep& step : path) {
    const Member* member = at->kind == Node::Kind::table ? at->find(step.key) : nullptr;
    if (member == nullptr) return nullptr;
    at = &member->value;
    if (!step.index) continue;
    if (*step.index >= entries_of(at)) return nullptr;
    at = &at->items[*step.index];
  }
  return at;
}

}  // namespace drumlin::cases
