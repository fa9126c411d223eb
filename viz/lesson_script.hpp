#pragma once

namespace drumlin::viz {

/// The script of lesson pages: viz/lesson_script.js as it is.
extern const char* const lesson_script;

}  // namespace drumlin::viz
