#pragma once

#include "cases/case.hpp"
#include "sim/lesson_result.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// Which part of a case a lesson is about.
struct LessonTopic {
  std::size_t station = 0;          ///< index of the first belt
  std::optional<std::size_t> burr;  ///< index of the feature whose burr is watched
};

/// @return  no value where the line has no belt.
[[nodiscard]] std::optional<LessonTopic> lesson_topic(const cases::Case& scenario);

/// The case cut down to its topic: one station, one pass, at most one edge, nothing judged.
[[nodiscard]] cases::Case reduced_case(const cases::Case& scenario, const LessonTopic& topic);

/// Lays out the sliders around a case.
///
/// @param depth  interference that the case's drum has [mm].
/// @param load   line load that it works with [N/mm].
void lay_out_sliders(const cases::Case& reduced, double depth, double load, Lesson& lesson);

}  // namespace drumlin::sim
