#pragma once

#include <functional>
#include <stop_token>

#include "cases/study.hpp"
#include "sim/part_result.hpp"
#include "sim/scatter_result.hpp"
#include "sim/verdict_result.hpp"

namespace drumlin::sim {

struct ScatterOptions {
  unsigned threads = 0;                          ///< 0: as many as there are cores
  std::function<void(double share)> progress{};  ///< called now and then
  std::stop_token stop{};
};

/// Draws the case's scatter and says how often each limit is met, how the part's numbers spread and
/// which scatter decides.
///
/// A draw's numbers depend on the case, the seed and the draw's own number: results do not depend
/// on threads. With k keys and sets of n points the model runs n (k + 2) times.
///
/// @param study    the case's scatter (`cases::scatter_of`).
/// @param part     as the case's own run gives it. @param verdict  of that run, whole.
/// @throws Stopped
[[nodiscard]] ScatterStudy scatter_study(const cases::Study& study, const PartState& part,
                                         const Verdict& verdict,
                                         const ScatterOptions& options = {});

}  // namespace drumlin::sim
