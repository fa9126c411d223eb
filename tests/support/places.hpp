#pragma once

#include <string>

/// Where the tests find things. The paths of the build are compiled into one file alone, so that
/// every other object is the same in any folder and a compiler cache knows it again.
namespace drumlin::support {

/// The program under test.
[[nodiscard]] const std::string& program();

/// A file or folder of the source tree, by its path from the top.
[[nodiscard]] std::string in_tree(const std::string& path);

/// Folder of the shipped cases.
[[nodiscard]] inline std::string examples() {
  return in_tree("cases/examples/");
}

/// Folder of the shipped studies.
[[nodiscard]] inline std::string shipped_studies() {
  return in_tree("cases/studies/");
}

}  // namespace drumlin::support
