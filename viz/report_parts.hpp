#pragma once

#include <string>

#include "sim/result.hpp"

/// The parts of the report, each an HTML text; empty where the result gives nothing for it.
namespace drumlin::viz {

[[nodiscard]] std::string report_header(const sim::Result& result);  ///< cautions, verdict
[[nodiscard]] std::string report_limits(const sim::Result& result);  ///< table of the limits
[[nodiscard]] std::string report_part(const sim::Result& result);    ///< part as it leaves
[[nodiscard]] std::string report_remedies(
    const sim::Result& result);                                    ///< what would have to change
[[nodiscard]] std::string report_pass(const sim::Result& result);  ///< moments of the pass
[[nodiscard]] std::string report_pictures(const sim::Result& result);  ///< drawings by feature
[[nodiscard]] std::string report_stations(const sim::Result& result);  ///< set-up, contact, heat
[[nodiscard]] std::string report_life(const sim::Result& result);      ///< belts fresh to worn
[[nodiscard]] std::string report_line(const sim::Result& result);      ///< parts, power, cost
[[nodiscard]] std::string report_drift(const sim::Result& result);     ///< what moves the setting
[[nodiscard]] std::string report_scatter(const sim::Result& result);   ///< limits over draws
[[nodiscard]] std::string report_sureness(const sim::Result& result);  ///< how sure
[[nodiscard]] std::string report_cautions(const sim::Result& result);
[[nodiscard]] std::string report_numbers(const sim::Result& result);  ///< every number
[[nodiscard]] std::string report_words(const sim::Result& result);    ///< case, sources, glossary
[[nodiscard]] std::string report_footer(const sim::Result& result);

}  // namespace drumlin::viz
