#pragma once

#include <string>

#include "cases/document.hpp"

namespace drumlin::cases {

/// The document as TOML, keys in alphabetical order: what parse_toml reads as the same document.
[[nodiscard]] std::string to_toml(const Node& document);

}  // namespace drumlin::cases
