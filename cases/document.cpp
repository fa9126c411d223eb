#include "cases/document.hpp"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>
#include <toml++/toml.h>

#include "cases/reader.hpp"

namespace drumlin::cases {
namespace {

/// Deeper than any section of a case; keeps hostile files from exhausting the stack.
constexpr int deepest = 24;
constexpr int most_dots_in_a_key = 16;

Place place_of(const toml::source_region& source) {
  return {static_cast<int>(source.begin.line), static_cast<int>(source.begin.column)};
}

Node convert(const toml::node& node, const std::string& file, int depth) {
  Node result;
  result.place = place_of(node.source());
  if (depth > deepest)
    throw CaseError({{file, result.place.line, result.place.column, "", "nested too deeply"}});
  if (const toml::table* table = node.as_table()) {
    result.kind = Node::Kind::table;
    for (const auto& [key, value] : *table)
      result.members.push_back(
          {std::string(key.str()), place_of(key.source()), convert(value, file, depth + 1)});
  } else if (const toml::array* array = node.as_array()) {
    result.kind = Node::Kind::list;
    for (const toml::node& item : *array)
      result.items.push_back(convert(item, file, depth + 1));
  } else if (const auto* text = node.as_string()) {
    result.kind = Node::Kind::string;
    result.text = text->get();
  } else if (const auto* integer = node.as_integer()) {
    result.kind = Node::Kind::integer;
    result.integer = integer->get();
    result.number = static_cast<double>(integer->get());
  } else if (const auto* number = node.as_floating_point()) {
    result.kind = Node::Kind::number;
    result.number = number->get();
  } else if (const auto* flag = node.as_boolean()) {
    result.kind = Node::Kind::boolean;
    result.flag = flag->get();
  } else {
    result.kind = Node::Kind::date;
  }
  return result;
}

bool belongs_to_key(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '-' || c == '"' ||
         c == '\'' || c == ' ' || c == '\t';
}

/// Line of the first key with more dots than any case needs; 0 if there is none. The TOML library
/// builds one table per dot and takes them apart by recursion, which a long enough key turns into a
/// stack overflow.
int line_of_endless_key(std::string_view text) {
  int line = 1;
  int dots = 0;
  bool comment = false;
  char before = '\n';
  for (const char c : text) {
    if (c == '\n') {
      ++line;
      comment = false;
      dots = 0;
    } else if (c == '#' && dots == 0) {
      comment = true;
    } else if (comment) {
      continue;
    } else if (c == '.' && before != '.') {
      if (++dots > most_dots_in_a_key) return line;
    } else if (!belongs_to_key(c)) {
      dots = 0;
    }
    before = c;
  }
  return 0;
}

/// What to add to a syntax error where a number is followed by something: the usual slip is a unit
/// without quotes or a decimal comma.
std::string hint_at(std::string_view text, const Place& place) {
  for (int line = 1; line < place.line; ++line) {
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  text = text.substr(0, std::min(text.find('\n'), static_cast<std::size_t>(place.column - 1)));
  text.remove_prefix(std::min(text.find_last_of("=,[{") + 1, text.size()));
  const bool number = text.find_first_of("0123456789") != std::string_view::npos &&
                      text.find_first_not_of("0123456789+-.eE \t") == std::string_view::npos;
  if (!number) return {};
  return "; a number with its unit stands in quotes, decimals take a point: \"0.5 mm\"";
}

}  // namespace

const Member* Node::find(std::string_view key) const {
  const auto found = std::find_if(members.begin(), members.end(),
                                  [&](const Member& member) { return member.key == key; });
  return found == members.end() ? nullptr : &*found;
}

Member* Node::find(std::string_view key) {
  const auto found = std::find_if(members.begin(), members.end(),
                                  [&](const Member& member) { return member.key == key; });
  return found == members.end() ? nullptr : &*found;
}

std::string_view kind_name(Node::Kind kind) {
  switch (kind) {
    case Node::Kind::table:
      return "a table";
    case Node::Kind::list:
      return "a list";
    case Node::Kind::string:
      return "a text";
    case Node::Kind::integer:
      return "a whole number";
    case Node::Kind::number:
      return "a number";
    case Node::Kind::boolean:
      return "true or false";
    case Node::Kind::date:
      return "a date or a time";
  }
  return "a value";
}

Node parse_toml(std::string_view text, const std::string& file) {
  if (const int line = line_of_endless_key(text); line > 0)
    throw CaseError({{file, line, 1, "", "a key with too many dots"}});
  try {
    const toml::table table = toml::parse(text, file);
    return convert(table, file, 0);
  } catch (const toml::parse_error& error) {
    const Place place = place_of(error.source());
    throw CaseError({{file, place.line, place.column, "",
                      std::string(error.description()) + hint_at(text, place)}});
  }
}

}  // namespace drumlin::cases
