#pragma once

#include <variant>

#include "models/removal/removal_laws.hpp"

namespace drumlin::models {

/// How much harder the lands of a serrated cover press than a plain cover at equal force [-],
///
///     1 + groove / land = 1 / lambda,   lambda the land ratio.
///
/// @param groove_over_land  width of a groove over that of a land [-], >= 0; 0 is a plain cover.
///
/// Source: an abrasive maker's training page as quoted in the trade: 2, 4 and 5 for 1:1, 3:1, 4:1.
[[nodiscard]] constexpr double land_pressure_factor(double groove_over_land) noexcept {
  return 1.0 + groove_over_land;
}

/// Removal under a serrated cover: a place on the part is under a land for the share lambda of the
/// time, and then at p / lambda,
///
///     r_lands(p) = lambda r(p / lambda).
///
/// For a law in proportion to pressure nothing changes; a threshold is reached earlier, a law that
/// rises faster than pressure removes more. Holds while a land passes faster than anything else
/// changes, and as long as lands neither tilt nor touch with their grooves.
template <typename Law>
struct OnLands {
  Law law{};
  double land_ratio = 1;  ///< lambda [-], 0 < lambda <= 1

  /// Removed depth per sliding path [-] at the mean pressure p [MPa].
  [[nodiscard]] constexpr double per_path(double p) const noexcept {
    return land_ratio * law.per_path(p / land_ratio);
  }
  /// d(per_path)/dp [1/MPa].
  [[nodiscard]] constexpr double slope(double p) const noexcept {
    return law.slope(p / land_ratio);
  }
};

/// The same as a law of the plain kind: lambda r(p / lambda) is the law itself with every pressure
/// among its numbers times lambda, its coefficient as it is. Preston's threshold becomes lambda
/// p_th; a power's reference becomes lambda p_r, which removes 1 / lambda^(m - 1) times as much.
template <RemovalLaw Law>
[[nodiscard]] constexpr Law on_lands(Law law, double land_ratio) noexcept {
  for (const auto& key : Law::keys())
    if (key.dimension == dimension::pressure) law.*key.member *= land_ratio;
  return law;
}
[[nodiscard]] inline AnyRemovalLaw on_lands(const AnyRemovalLaw& law, double land_ratio) {
  return std::visit([&](const auto& l) -> AnyRemovalLaw { return on_lands(l, land_ratio); }, law);
}

/// How long a land stays over a point of the nip [s].
///
/// @param pitch       from land to land [mm].
/// @param land_ratio  lambda [-].
/// @param belt_speed  v_b [mm/s].
[[nodiscard]] constexpr double land_dwell_time(double pitch, double land_ratio,
                                               double belt_speed) noexcept {
  return land_ratio * pitch / belt_speed;
}

/// Distance on the part between the marks of neighbouring lands [mm]: pitch v_f / v_b. Where it is
/// far shorter than the nip, the marks average out.
[[nodiscard]] constexpr double chatter_pitch(double pitch, double feed_speed,
                                             double belt_speed) noexcept {
  return pitch * feed_speed / belt_speed;
}

}  // namespace drumlin::models
