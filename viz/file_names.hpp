#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim/result.hpp"

namespace drumlin::viz {

/// Names for files made from names in the case: letters, digits, '.', '_' and '-' stay, any other
/// run of characters becomes one '-', so that the files open on every system ("hole-6:trailing"
/// becomes "hole-6-trailing"). Names that would meet get "-2", "-3", ... in order.
[[nodiscard]] std::vector<std::string> file_names(const std::vector<std::string>& names);

/// File names of a result's sections, in their order.
[[nodiscard]] std::vector<std::string> section_files(const sim::Result& result);

}  // namespace drumlin::viz
