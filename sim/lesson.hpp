#pragma once

#include <optional>
#include <stop_token>

#include "sim/lesson_result.hpp"
#include "sim/run.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// Works out a lesson: the first belt of a line, alone and in one pass, over the tallest burr that
/// a section normal to the drum shows and the face beside it, at every step of every slider.
///
/// Sheet thickness arrives as interference, so both sliders share one grid of interferences. Each
/// cover, speed and tension is a case of its own, set up as if the case file said so. Runs on two
/// threads; the answer does not depend on how many.
///
/// @return  no value where the line has no belt.
/// @throws  Stopped; CaseError where the case itself cannot be set up.
[[nodiscard]] std::optional<Lesson> work_out_lesson(const cases::Case& scenario,
                                                    const Progress& progress = {},
                                                    const std::stop_token& stop = {});

}  // namespace drumlin::sim
