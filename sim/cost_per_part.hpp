#pragma once

#include "sim/line_economy_result.hpp"
#include "sim/setup.hpp"

/// Money per part, by cause.
namespace drumlin::sim {

/// Life of belts and brushes as the line predicts it, for prices that come without one: parts by
/// index of the station; empty or absent where nothing is predicted.
using PredictedLife = std::vector<std::optional<double>>;

/// Adds the cost per part to what is known of the line, as far as prices are given, and says what
/// is missing.
///
/// @param line  with throughput and energy per part.
void state_cost(const Setup& setup, const PredictedLife& life, LineEconomy& line);

}  // namespace drumlin::sim
