#pragma once

#include "cases/study.hpp"
#include "sim/study_result.hpp"
#include "sim/sweep/row_runner.hpp"

namespace drumlin::sim {

/// What some rows of a study took, to tell what all of them would take.
struct Forecast {
  StudyHeader header;  ///< of a study of the rows that were tried
  StudyChunk sample;   ///< these rows
  std::size_t tried = 0;
  std::size_t failed = 0;  ///< of them: no case, or not converged
  double row_s = 0;        ///< mean by the clock, on one thread
};

/// Computes rows spread over the whole study.
[[nodiscard]] Forecast forecast(const cases::Study& study, RowRunner& runner);

}  // namespace drumlin::sim
