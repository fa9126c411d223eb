#pragma once

#include <string>

#include "sim/lesson_result.hpp"
#include "sim/result.hpp"

namespace drumlin::viz {

/// The trainer's lesson as one page: sliders over the lesson's table, five questions, stills of the
/// case, tables for browsers without scripts, cautions to read aloud, notes, and a sheet to print.
///
/// @param result   a run of the whole case: its pictures, bands and cautions.
/// @param answers  whether the printed sheet is the trainer's, with the answers.
[[nodiscard]] std::string lesson_page(const sim::Lesson& lesson, const sim::Result& result,
                                      bool answers);

}  // namespace drumlin::viz
