#include "cases/written_values.hpp"

#include <fmt/format.h>

#include "cases/document.hpp"

namespace drumlin::cases {
namespace {

std::string scalar_text(const Node& node) {
  switch (node.kind) {
    case Node::Kind::string:
      return node.text;
    case Node::Kind::integer:
      return fmt::format("{}", node.integer);
    case Node::Kind::number:
      return fmt::format("{}", node.number);
    case Node::Kind::boolean:
      return node.flag ? "true" : "false";
    default:
      return {};
  }
}

/// "[0]", or ["name"] of an item that is a table with a name.
std::string item_key(const Node& item, std::size_t index) {
  if (const Member* name = item.find("name");
      name != nullptr && name->value.kind == Node::Kind::string)
    return fmt::format("[{}]", name->value.text);
  return fmt::format("[{}]", index);
}

void collect(const Node& node, const std::string& key, std::vector<WrittenValue>& values) {
  if (node.kind == Node::Kind::table) {
    for (const Member& member : node.members)
      collect(member.value, key.empty() ? member.key : key + "." + member.key, values);
  } else if (node.kind == Node::Kind::list) {
    for (std::size_t i = 0; i < node.items.size(); ++i)
      collect(node.items[i], key + item_key(node.items[i], i), values);
  } else {
    values.push_back({key, scalar_text(node)});
  }
}

}  // namespace

std::vector<WrittenValue> written_values(std::string_view text, const std::string& file) {
  std::vector<WrittenValue> values;
  collect(parse_toml(text, file), "", values);
  return values;
}

}  // namespace drumlin::cases
