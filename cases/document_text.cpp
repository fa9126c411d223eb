#include "cases/document_text.hpp"

#include <sstream>
#include <stdexcept>
#include <variant>

#include <toml++/toml.h>

namespace drumlin::cases {
namespace {

/// A value in the library's own types.
using Value = std::variant<toml::table, toml::array, std::string, std::int64_t, double, bool>;

Value value_of(const Node& node) {
  switch (node.kind) {
    case Node::Kind::table: {
      toml::table table;
      for (const Member& member : node.members)
        std::visit([&](auto&& value) { table.insert(member.key, std::move(value)); },
                   value_of(member.value));
      return table;
    }
    case Node::Kind::list: {
      toml::array list;
      for (const Node& item : node.items)
        std::visit([&](auto&& value) { list.push_back(std::move(value)); }, value_of(item));
      return list;
    }
    case Node::Kind::string:
      return node.text;
    case Node::Kind::integer:
      return node.integer;
    case Node::Kind::number:
      return node.number;
    case Node::Kind::boolean:
      return node.flag;
    case Node::Kind::date:
      break;
  }
  throw std::logic_error("no key of a case holds a date");
}

}  // namespace

std::string to_toml(const Node& document) {
  const Value value = value_of(document);
  std::ostringstream text;
  text.imbue(std::locale::classic());
  text << toml::toml_formatter(std::get<toml::table>(value)) << '\n';
  return text.str();
}

}  // namespace drumlin::cases
