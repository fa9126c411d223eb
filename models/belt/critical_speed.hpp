#pragma once

#include <optional>

#include "models/belt/nip_compliance.hpp"

namespace drumlin::models {

/// Where belt and cover throw standing waves behind the nip.
struct CriticalSpeed {
  double speed;        ///< v [mm/s]
  double wave_number;  ///< of the wave that then stands [rad/mm]
};

/// Lowest speed at which a wave travels along cover and belt as fast as they pass: from there on
/// the nip sheds waves, and no pressure is steady without loss.
///
///     D q^4 + (T - m' v^2) q^2 + 1 / C_layer(q, v) = 0   for a real q > 0,
///
/// C_layer of the flat bonded layer in motion, its surface sliding along the belt or held by it,
/// with a real modulus. Without a belt this is the Rayleigh speed of the cover, 0.955 c_s near
/// nu = 1/2; a belt raises it to about 1.05 c_s on a soft cover. Only waves that the nip drives
/// count: with a loss factor of 0.02 they would swell beyond what they give at rest. (Countless
/// weaker ones run between hub and belt at speeds from c_s on.) Looked for between wave numbers
/// 0.2 / t and 40 / t. Flat layer: on a drum the depth travels more slowly than the surface, and
/// the critical speed is 1 to 7 % higher (R 100, t 10 to 20), so this errs to the early side.
/// Theory: no measured onset of such waves was found.
///
/// @param at_rest         cover (density > 0; curvature, speed and relaxation are not used) and
///                        belt with its tension at rest.
/// @param belt_mass       m' [t/mm^2], >= 0.
/// @param modulus_factor  storage modulus at the wave's frequency over that of `at_rest` [-].
/// @return  no value if there is none up to 2.5 times the speed of shear waves. Some milliseconds.
///
/// Source: models/theory/moving_cover.md, eq. (16); Karttunen and von Hertzen (2013), Int. J. Mech.
/// Sci. 66, 180 for the covered cylinder (abstract seen).
[[nodiscard]] std::optional<CriticalSpeed> critical_speed(const BeltOnCover& at_rest,
                                                          double belt_mass,
                                                          double modulus_factor = 1.0);

}  // namespace drumlin::models
