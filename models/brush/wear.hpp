#pragma once

#include <optional>

#include "models/brush/brush.hpp"

namespace drumlin::models {

/// How far a brush has been used up.
struct BrushWear {
  double radius_loss = 0;  ///< length that filaments or web have lost [mm], >= 0; discs keep theirs
  double set = 0;          ///< fraction of their working deflection that filaments keep, 0 <= s < 1
  double make_up = 0;      ///< by how much the drum has been moved in again [mm], >= 0

  [[nodiscard]] bool operator==(const BrushWear&) const = default;
};

/// The brush as it is left: shorter filaments on the same hub, at the same number.
[[nodiscard]] FilamentBrush worn(const FilamentBrush& brush, const BrushWear& wear) noexcept;
/// The web as it is left: less of it on the same hub.
[[nodiscard]] NonWovenBrush worn(const NonWovenBrush& brush, const BrushWear& wear) noexcept;
/// The discs as they are left: shorter filaments at the same places.
[[nodiscard]] DiscBrush worn(const DiscBrush& brush, const BrushWear& wear) noexcept;
/// @overload
[[nodiscard]] AnyBrush worn(const AnyBrush& brush, const BrushWear& wear);

/// Penetration that is left of one that was set with the brush new [mm]:
///
///     set - radius loss - s^2 set + make-up, at least 0.
///
/// A filament that keeps the fraction s of the deflection w that drew its tip up by the penetration
/// (about 0.6 w^2 / L) reaches short by s^2 of that. Common practice gives no numbers for s.
[[nodiscard]] double penetration_left(double penetration, const BrushWear& wear) noexcept;

/// Speed of the tips [mm/s] when the drum keeps its revolutions; discs keep theirs.
[[nodiscard]] double speed_left(const AnyBrush& brush, const BrushWear& wear, double speed);

/// How fast the radius is worn away [mm/s], and so the make-up that holds the penetration: wear
/// coefficient times the rubbing of every filament, spread over its section,
///
///     k rub / (2 pi R fill) (N / P_E)^(n - 1);   fill 1 and the factor 1 for a web;
///     for discs, the ring's area over the row's width in place of 2 pi R.
///
/// N the mean force of a tip, P_E the filament's buckling load, n the wear exponent.
///
/// @param contact  that the brush is in, the whole time; of discs that of the whole row
/// (contact()).
[[nodiscard]] double wear_rate(const AnyBrush& brush, const BrushContact& contact);

/// Volume of metal that a brush takes off, per width, for a length of radius that it loses [mm]:
/// what a trim is worth. Without wear there is no value.
///
/// Source for its falling with harsher settings: Uhlmann and Hoyer (2021), Ceramics 4(3), 29
/// (abstract): harsher settings need not take off more, because of wear.
[[nodiscard]] std::optional<double> removal_per_trim(const AnyBrush& brush,
                                                     const BrushContact& contact);

}  // namespace drumlin::models
