#pragma once

#include "tests/reference/half_cover.hpp"

namespace drumlin::reference {

/// Line load [N/mm] of both halves by CalculiX's own contact (surface to surface, linear pressure
/// against overclosure) with a rigid plate (curved cover) or a rigid parabola (flat layer).
///
/// @param penalty  pressure per overclosure over E / t [-].
[[nodiscard]] double program_contact_load(const HalfCover& cover, const CoverMesh& mesh,
                                          const Material& material, double penalty);

}  // namespace drumlin::reference
