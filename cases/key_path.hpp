#pragma once

#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "cases/document.hpp"

/// Paths to keys of a case, as messages write them and studies name them.
namespace drumlin::cases {

/// One step of a path: a key and, of a list, which entry: by its number from 0 or by its `name`.
struct PathStep {
  std::string key;
  std::optional<std::size_t> index{};
  std::optional<std::string> name{};
};

/// "station[0].drum.hardness" or "part.feature["hole-6"].size", step by step.
using KeyPath = std::vector<PathStep>;

/// A text that is no path, or a path that leads nowhere.
class PathError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// @throws PathError saying what a path looks like.
[[nodiscard]] KeyPath parse_path(std::string_view text);

/// The path with every entry by its number, as messages write it.
[[nodiscard]] std::string to_text(const KeyPath& path);

/// The same path with entries that are named by their number.
///
/// @throws PathError where a list has no such entry, naming those it has or the nearest.
[[nodiscard]] KeyPath numbered(const Node& root, KeyPath path);

/// Puts a value under a path in which every entry is numbered; sections on the way that are not
/// there are opened.
///
/// @throws PathError where a list has no such entry or a key on the way is no section.
void put(Node& root, const KeyPath& path, Node value);

/// The value under a path; null if there is none.
[[nodiscard]] const Node* find(const Node& root, const KeyPath& path);

}  // namespace drumlin::cases
