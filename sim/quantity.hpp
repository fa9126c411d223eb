#pragma once

#include <optional>

namespace drumlin::sim {

/// A value with the band in which the truth is expected to lie.
struct Banded {
  double value = 0;
  std::optional<double> low;
  std::optional<double> high;
};
using Quantity = std::optional<Banded>;

/// The value without its band.
[[nodiscard]] inline std::optional<double> without_band(const Quantity& quantity) {
  return quantity ? std::optional<double>(quantity->value) : std::nullopt;
}

}  // namespace drumlin::sim
