#pragma once

#include "sim/answer.hpp"
#include "sim/line/line_model.hpp"

namespace drumlin::sim::line {

/// Puts an answer of the line model into the result's terms.
///
/// @param waves  whether to look for the critical speed, which takes milliseconds.
[[nodiscard]] StatedAnswer state(const Setup& setup, const LineAnswer& answer, bool waves = true);

}  // namespace drumlin::sim::line
