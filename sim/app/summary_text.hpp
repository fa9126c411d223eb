#pragma once

#include <string>
#include <vector>

#include "sim/app/text.hpp"
#include "sim/result.hpp"

namespace drumlin::app {

/// What a person reads at a glance after a run: what was asked, what came out of each edge and of
/// the face, whether the limits are kept and what decides, how sure that is, which inputs matter
/// most, which samples to run, and what to beware of.
///
/// Bands stand under their values as low..high. A quantity that the model does not give is "-".
[[nodiscard]] std::string summary_text(const sim::Result& result, const Style& style);

/// Where the files of a run lie.
/// @param files    relative to the folder.
/// @param remarks  what could not be written and why.
[[nodiscard]] std::string files_text(const std::string& folder,
                                     const std::vector<std::string>& files,
                                     const std::vector<std::string>& remarks, const Style& style);

}  // namespace drumlin::app
