#pragma once

#include <string>

#include "sim/result.hpp"

namespace drumlin::viz {

/// The report of a result: one file of HTML, complete without network and without scripts. The same
/// result gives the same text; run time, date and folders are not in it.
[[nodiscard]] std::string report_html(const sim::Result& result);

}  // namespace drumlin::viz
