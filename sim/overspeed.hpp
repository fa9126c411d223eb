#pragma once

#include <string>
#include <vector>

#include "cases/case.hpp"

namespace drumlin::sim {

/// One sentence for each speed limit that a case exceeds since `allow_overspeed` says so.
[[nodiscard]] std::vector<std::string> overspeed_warnings(const cases::Case& scenario);

/// The caution that stands before all others where there is one; else empty.
[[nodiscard]] std::string overspeed_caution(const cases::Case& scenario);

}  // namespace drumlin::sim
