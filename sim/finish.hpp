#pragma once

#include "sim/answer.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// Adds the faces' roughness after every station: what the part came with, worn down by what each
/// station takes off, and the lay of its own grains on top (models/finish/roughness.hpp).
///
/// Values carry the band of the law; what the contact's own uncertainty adds comes with the bands.
/// Knock-offs and turns leave a face as it is. So do brushes of plain wire, but for what they take
/// off: what they do to a lay has no number.
void add_finish(const Setup& setup, std::vector<StationResult>& stations);

/// Ra across the lay [mm] that a station would leave on a face that it has gone over often enough.
/// None for a tool without grains, and where nothing is pressed on.
[[nodiscard]] std::optional<double> lay_of(const StationSetup& station,
                                           const StationResult& result);

}  // namespace drumlin::sim
