#include "tests/support/places.hpp"

namespace drumlin::support {

const std::string& program() {
  static const std::string path = DRUMLIN_PROGRAM;
  return path;
}

std::string in_tree(const std::string& path) {
  return std::string(DRUMLIN_SOURCE_DIR) + "/" + path;
}

}  // namespace drumlin::support
