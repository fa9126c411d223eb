#pragma once

#include <stop_token>

#include "sim/fast/drums.hpp"
#include "sim/setup.hpp"
#include "sim/sweep/columns.hpp"

namespace drumlin::sim {

/// What the model of a case says of it, without bands and studies.
///
/// @param fresh  belts as new; those with an age grind as dull as they are.
/// @param drums  kept from row to row, by the fast model.
/// @throws NumericsError, Stopped
[[nodiscard]] RowAnswer row_answer(const Setup& fresh, fast::Drums& drums,
                                   const std::stop_token& stop);

}  // namespace drumlin::sim
