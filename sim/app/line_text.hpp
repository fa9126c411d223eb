#pragma once

#include <string>

#include "cases/cost.hpp"
#include "sim/app/text.hpp"
#include "sim/result.hpp"

namespace drumlin::app {

/// How the conveyor holds parts.
[[nodiscard]] std::string grip_text(const cases::Grip& grip);

/// Speed limits that a case overrides, for the head of the report; empty where it overrides none.
[[nodiscard]] std::string forced_text(const sim::Result& result, const Style& style);

/// Throughput, power, hold-down and cost of the line.
[[nodiscard]] std::string line_text(const sim::LineEconomy& line, const Style& style);

/// The same case dry and wet.
[[nodiscard]] std::string wet_dry_text(const sim::WetDryStudy& study, const Style& style);

}  // namespace drumlin::app
