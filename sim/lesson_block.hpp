#pragma once

#include <stop_token>

#include "cases/case.hpp"
#include "sim/lesson_result.hpp"

namespace drumlin::sim {

/// Interference over cover up to which finite strain was fitted; deeper shows no number.
inline constexpr double lesson_deepest = 0.2;

/// What of a case stays the same over a whole lesson.
struct LessonGround {
  cases::Case reduced;
  double sharpness = 1;  ///< of the belt as old as the case says
};

/// Works out all steps of one cover, speed and tension (feed, setting and thickness of `at` have no
/// effect) into their places in the lesson.
///
/// @throws Stopped.
void work_out_block(const LessonGround& ground, Lesson& lesson, const LessonPlace& at,
                    const std::stop_token& stop);

}  // namespace drumlin::sim
