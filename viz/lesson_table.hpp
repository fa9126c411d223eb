#pragma once

#include <string>
#include <string_view>

#include "sim/lesson_result.hpp"

namespace drumlin::viz {

/// How a value of a lesson is shown and stored.
struct LessonColumn {
  const char* key;    ///< in the page's table
  const char* words;  ///< what a reader calls it
  const char* unit;
  int decimals;
  bool logarithmic;  ///< stored by its logarithm, so that its relative error is the same everywhere
};
[[nodiscard]] const LessonColumn& lesson_column(sim::LessonValue which);

/// The table of a lesson as the page holds it: 32 bytes a step (fourteen 16-bit numbers, flags,
/// outcome, one byte free; low byte first), base64 (RFC 4648). Of a number 0 is "absent"; a
/// logarithmic one has 1 for zero and low (high / low)^((n - 2) / 65533) from there on; a straight
/// one low + (high - low) (n - 1) / 65534.
struct LessonTable {
  std::string meta;    ///< JSON: sliders, columns with their ranges, warnings, what is drawn
  std::string steps;   ///< base64
  std::string shapes;  ///< base64, 16 bytes each: pressure from the middle out, 255 its highest
  double relative_error = 0;  ///< most of a logarithmic value [-]
  double straight_error = 0;  ///< most of a straight one, over its range [-]
};
[[nodiscard]] LessonTable lesson_table(const sim::Lesson& lesson);

/// RFC 4648.
[[nodiscard]] std::string base64(std::string_view bytes);

}  // namespace drumlin::viz
