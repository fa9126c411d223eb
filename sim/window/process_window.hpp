#pragma once

#include <functional>
#include <stop_token>
#include <string_view>

#include "cases/window_study.hpp"
#include "sim/window_result.hpp"

namespace drumlin::sim {

/// Draws the window of a study: where its case's limits are kept over two settings.
///
/// The same for every number of threads. Memory goes with the evaluations of the map, not with the
/// draws.
///
/// @param threads   0: as many as there are cores.
/// @param progress  told the share that is done [0..1] and what is being done.
/// @throws cases::CaseError or NumericsError if not one point of the map could be computed;
/// Stopped.
[[nodiscard]] Window draw_window(
    const cases::WindowStudy& study, unsigned threads = 0,
    const std::function<void(double share, std::string_view what)>& progress = {},
    const std::stop_token& stop = {});

}  // namespace drumlin::sim
