#pragma once

#include <vector>

#include "sim/answer.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// Adds the part's temperatures to what a model says: of face and edges the highest so far after
/// each station, and where each station's power goes. The sheet's mean temperature is carried from
/// station to station and pass to pass; on the way one face cools to the room.
///
/// Every pass counts with the power of the first, since models state that one; the last is stated.
/// Without effect where the part's metal is not known.
void add_heat(const Setup& setup, StatedAnswer& answer);

/// Every quantity of a station's heat that gets a band, always in the same order.
[[nodiscard]] std::vector<Quantity*> banded_heat(StationResult& station);

/// No band of a temperature reaches under the room's or past the melting point, and no band of a
/// share past what is published.
void cap_heat(const Setup& setup, StatedAnswer& answer);

}  // namespace drumlin::sim
