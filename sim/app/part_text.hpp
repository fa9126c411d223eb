#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cases/case.hpp"
#include "sim/app/text.hpp"

namespace drumlin::app {

/// The part as `check` shows it: metal, layers, edges with what stands on them, and what follows
/// from how it was cut and how it lies on the conveyor.
[[nodiscard]] std::string part_text(const cases::Part& part, const Style& style);

/// Lines of a name and a text, the texts in one column.
using NamedLines = std::vector<std::pair<std::string, std::string>>;
[[nodiscard]] std::string lines_text(const NamedLines& lines, const Style& style);

}  // namespace drumlin::app
