#pragma once

#include <string>

#include "sim/app/text.hpp"
#include "sim/result.hpp"

namespace drumlin::app {

/// What moves the interference from part to part, and how much of it the limits leave room for.
[[nodiscard]] std::string part_as_it_is_text(const sim::InterferenceStudy& study,
                                             const Style& style);

/// Where, over burr height and root, the line's first belt cuts and where it folds.
[[nodiscard]] std::string cut_or_fold_text(const sim::FoldMap& map, const Style& style);

}  // namespace drumlin::app
