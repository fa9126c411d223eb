#pragma once

#include <concepts>
#include <string_view>
#include <variant>

#include "models/removal/preston.hpp"

namespace drumlin::models {

/// What every removal law answers: depth per sliding path at a pressure and its slope. Nothing
/// without pressure, monotone in pressure (tests/unit/removal_laws_test.cpp holds each to it).
template <class Law>
concept RemovalLaw = requires(const Law law, double p) {
  { law.per_path(p) }
  noexcept->std::same_as<double>;
  { law.slope(p) }
  noexcept->std::same_as<double>;
  { Law::name } -> std::convertible_to<std::string_view>;
};

/// Registration: a new law adds its header above and its name here.
using AnyRemovalLaw = std::variant<Preston>;

}  // namespace drumlin::models
