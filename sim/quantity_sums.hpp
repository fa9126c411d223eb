#pragma once

#include <optional>

#include "sim/quantity.hpp"

namespace drumlin::sim {

/// A quantity times a positive number, band and all.
[[nodiscard]] inline Quantity scaled(const Quantity& quantity, double factor) {
  if (!quantity) return std::nullopt;
  const auto times = [factor](std::optional<double> end) {
    return end ? std::optional<double>(*end * factor) : std::nullopt;
  };
  return Banded{quantity->value * factor, times(quantity->low), times(quantity->high)};
}

/// Sum of two quantities; what is absent counts as nothing, of two absent ones none comes. Low ends
/// and high ends are added: the bands may have their causes in common.
[[nodiscard]] inline Quantity sum_of(const Quantity& a, const Quantity& b) {
  if (!a || !b) return a ? a : b;
  Banded sum{a->value + b->value, {}, {}};
  if (a->low || b->low) sum.low = a->low.value_or(a->value) + b->low.value_or(b->value);
  if (a->high || b->high) sum.high = a->high.value_or(a->value) + b->high.value_or(b->value);
  return sum;
}

}  // namespace drumlin::sim
