#pragma once

#include <cstddef>
#include <string>

#include "sim/app/text.hpp"
#include "sim/result.hpp"
#include "sim/setup.hpp"

namespace drumlin::app {

/// A brush station as it is set up, for `drumlin check`.
[[nodiscard]] std::string brush_text(std::size_t number, const sim::BrushSetup& setup,
                                     const cases::BrushStation& station, const Style& style);

/// What brushes do at work: force of a tip, reach, make-up, and how discs go over the part. Empty
/// where the line has none.
[[nodiscard]] std::string brushes_text(const sim::Result& result, const Style& style);

}  // namespace drumlin::app
