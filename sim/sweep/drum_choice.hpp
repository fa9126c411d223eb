#pragma once

#include <cstddef>
#include <vector>

#include "cases/study.hpp"
#include "sim/fast/drum_ladder.hpp"
#include "sim/sweep/row_plan.hpp"

namespace drumlin::sim {

/// By station, what the drums of a study's rows are interpolated over.
///
/// Only where it pays: many rows, more drums among them than are kept, and these differing in
/// little but the numbers that may be interpolated over. Seen in rows spread over the study, so
/// that it follows from the study alone, whoever runs which rows.
///
/// @param kept  drums that are kept per station.
[[nodiscard]] std::vector<fast::LadderAxes> drum_axes(const cases::Study& study,
                                                      const RowPlan& plan, std::size_t kept);

}  // namespace drumlin::sim
