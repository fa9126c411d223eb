#pragma once

#include <string>

#include "sim/app/text.hpp"
#include "sim/result.hpp"

namespace drumlin::app {

/// One face's edges as tables: burrs and edges, then sizes and layers; then what became of each
/// burr in a sentence, and the notes.
///
/// @param what  heading, such as "Edges after the last station".
[[nodiscard]] std::string edges_text(const sim::FaceState& state, std::string_view what,
                                     const Style& style);

}  // namespace drumlin::app
