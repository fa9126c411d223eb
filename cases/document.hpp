#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cases/problem.hpp"

namespace drumlin::cases {

struct Member;

/// A value of a TOML file with its place: what the reader sees of a file.
struct Node {
  enum class Kind { table, list, string, integer, number, boolean, date };

  Kind kind = Kind::table;
  Place place{};
  std::string text{};        ///< of a string
  double number = 0;         ///< of an integer or a number
  std::int64_t integer = 0;  ///< of an integer
  bool flag = false;         ///< of a boolean
  /// Of a quantity that the program has put there: its value in the inner unit, of which the text
  /// is a rounding.
  std::optional<double> exact{};
  std::vector<Member> members;  ///< of a table
  std::vector<Node> items;      ///< of a list

  /// The member of that name; null if there is none.
  [[nodiscard]] const Member* find(std::string_view key) const;
  [[nodiscard]] Member* find(std::string_view key);
};

/// A key with its value.
struct Member {
  std::string key;
  Place place;
  Node value;
};

/// "a string", "a whole number", "a table", ...
[[nodiscard]] std::string_view kind_name(Node::Kind kind);

/// Reads TOML.
/// @throws CaseError with one problem if the text is not TOML: parsing stops at the first error.
[[nodiscard]] Node parse_toml(std::string_view text, const std::string& file);

}  // namespace drumlin::cases
