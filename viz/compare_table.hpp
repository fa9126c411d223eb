#pragma once

#include <string>
#include <vector>

#include "sim/result.hpp"

namespace drumlin::viz {

/// One quantity of several results, in the unit in which it leaves the program.
struct ComparedQuantity {
  std::string place;  ///< "station 1", "face", a feature's name
  std::string name;   ///< in words, without the unit
  std::string unit;
  std::string meaning;
  std::vector<sim::Quantity> values;  ///< one per result; absent where its model gives none
  bool differs = false;               ///< by more than the arithmetic's own half per cent
  /// Whether the bands of all values share a stretch, so that a sample has to decide.
  bool bands_overlap = false;
};

/// Names of features that not all of the results have.
[[nodiscard]] std::vector<std::string> features_of_some(const std::vector<sim::Result>& results);

/// Every quantity of stations, face and shared features that at least one of the results has.
/// Stations are matched by their place in the line, features by name.
[[nodiscard]] std::vector<ComparedQuantity> compared_quantities(
    const std::vector<sim::Result>& results);

}  // namespace drumlin::viz
