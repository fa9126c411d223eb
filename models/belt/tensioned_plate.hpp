#pragma once

namespace drumlin::models {

/// Abrasive belt over the cover: a plate under tension whose grains give a little where they press.
struct TensionedPlate {
  double bending_stiffness;  ///< D [N mm], >= 0
  double tension;            ///< T [N/mm], >= 0
  double grain_compliance;   ///< c_g [mm/MPa], >= 0
};

/// Compliance [mm/MPa] of cover, belt and grains together to one Fourier component of pressure,
///
///     C = 1 / (D q^4 + T q^2 + 1 / C_cover) + c_g.
///
/// The belt rests on the cover everywhere (it neither lifts off nor grips), the cover gives
/// C_cover(q), the grains yield in place.
///
/// @param q                 wave number along the belt [rad/mm], >= 0.
/// @param cover_compliance  C_cover(q) [mm/MPa], > 0.
///
/// Source: plate on a foundation, Timoshenko and Woinowsky-Krieger (1959), ch. 8 (from memory).
[[nodiscard]] double combined_compliance(const TensionedPlate& belt, double q,
                                         double cover_compliance) noexcept;

}  // namespace drumlin::models
