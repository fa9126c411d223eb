#pragma once

#include <string>

namespace drumlin::support {

/// A plain coated plate without features: the quickest case there is.
/// @param limit  a line of [accept].
[[nodiscard]] std::string plate_case(const std::string& limit = "coating_left = \">= 9 um\"");

/// A plate with a burred hole on a coarse grid.
[[nodiscard]] std::string hole_case();

/// The same on a fine grid with many passes: it takes minutes.
[[nodiscard]] std::string long_case();

/// Three mistakes: a hardness without its unit, the key "hardnes", a grit without its grading.
[[nodiscard]] std::string case_with_three_mistakes();

}  // namespace drumlin::support
