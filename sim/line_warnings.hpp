#pragma once

#include "sim/result.hpp"

namespace drumlin::sim {

/// What stands before all other warnings: tools above their marked speed, parts that slip; then
/// belts that slip on their drive.
void warn_of_line(Result& result);

}  // namespace drumlin::sim
