#pragma once

#include <string>

#include "sim/study_result.hpp"

/// A study's header as the manifest keeps it, so that chunks can be packed without the study's own
/// file.
namespace drumlin::viz {

[[nodiscard]] std::string header_json(const sim::StudyHeader& header);

/// @throws std::runtime_error if the text is no header.
[[nodiscard]] sim::StudyHeader header_from_json(const std::string& text);

}  // namespace drumlin::viz
