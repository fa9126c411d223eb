#pragma once

#include <concepts>
#include <string_view>
#include <variant>

#include "models/removal/preston.hpp"
#include "models/removal/threshold_power.hpp"

namespace drumlin::models {

/// What every removal law answers: depth per sliding path at a pressure and its slope. Nothing
/// without pressure, monotone in pressure (tests/unit/removal_laws_test.cpp holds each to it).
///
/// Material and abrasive give two numbers of every law: `coefficient` K [1/MPa], to which removal
/// is in proportion, and `threshold` p_th [MPa].
template <class Law>
concept RemovalLaw = requires(Law law, double p) {
  { law.per_path(p) }
  noexcept->std::same_as<double>;
  { law.slope(p) }
  noexcept->std::same_as<double>;
  { Law::name } -> std::convertible_to<std::string_view>;
  { law.coefficient } -> std::same_as<double&>;
  { law.threshold } -> std::same_as<double&>;
};

/// Registration: a new law adds its header above and its name here.
using AnyRemovalLaw = std::variant<Preston, ThresholdPower>;

}  // namespace drumlin::models
