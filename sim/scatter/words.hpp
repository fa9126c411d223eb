#pragma once

#include <string>
#include <vector>

#include "cases/study.hpp"
#include "sim/scatter_result.hpp"

/// What a study of scatter says in words.
namespace drumlin::sim {

/// Which input's scatter decides an output, by the total shares and how sure they are.
[[nodiscard]] std::string decides_text(const ScatterOutput& output,
                                       const std::vector<ScatterInput>& inputs);

/// What was drawn, how, and what is not in it.
[[nodiscard]] std::vector<std::string> scatter_notes(const ScatterStudy& scatter,
                                                     const cases::Study& study);

}  // namespace drumlin::sim
