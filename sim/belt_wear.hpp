#pragma once

#include "sim/setup.hpp"

namespace drumlin::sim {

/// How a belt wears, by what it is made of and what the case says of it; fresh.
[[nodiscard]] BeltWearSetup wear_of(const cases::Belt& belt, bool wet);

/// Share of the fresh belt's removal coefficient that is left at a share x of its life [-].
///
/// @param clogging  of the layer that the belt meets first [-]: a belt that is set right stays in
/// it.
[[nodiscard]] double sharpness_at(const BeltWearSetup& wear, double clogging, double life_share);

/// Makes a fresh station's belt as dull as it is at a share of its life, its gaps as full of metal:
/// removal coefficients and friction change together (models/belt/dulling.hpp).
///
/// @param life_share  x [-], 0 fresh, 1 at the end.
void wear_belt(BeltSetup& station, double life_share);

/// The same by the share of the removal coefficient that is left [-], 0 < g <= 1.
void dull_belt(BeltSetup& station, double sharpness);

}  // namespace drumlin::sim
