#pragma once

#include <string>

namespace drumlin::sim {

/// The kind of a row's reason: its first line, with "..." for every number that stands by itself
/// and so differs from row to row: "with an interference of ... mm". Numbers in names (hole-6,
/// feature[0]) and places in files stay; the folders of a file that it begins with do not.
[[nodiscard]] std::string reason_kind(const std::string& reason);

}  // namespace drumlin::sim
