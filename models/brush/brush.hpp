#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <variant>

#include "models/brush/filament.hpp"
#include "models/brush/sweep.hpp"
#include "models/key.hpp"

namespace drumlin::models {

/// How a brush takes metal away and is itself worn away: both in proportion to normal force and
/// rubbed path (Preston 1927, Archard 1953).
struct BrushAbrasion {
  double removal_coefficient = 0;  ///< K [1/MPa] of the base metal, >= 0
  double removal_band = 1;         ///< K is known within a factor of this up and down [-], >= 1
  double wear_coefficient = 0;     ///< of the filaments or the web [1/MPa], >= 0
  /// n [-]: wear goes with force to this power, >= 1. Above 1 a harsher setting takes less metal
  /// for the same length of brush.
  double wear_exponent = 1;

  [[nodiscard]] bool operator==(const BrushAbrasion&) const = default;

  static constexpr auto keys();
};

constexpr auto BrushAbrasion::keys() {
  return std::to_array<Key<BrushAbrasion>>({
      {"removal_coefficient", &BrushAbrasion::removal_coefficient, dimension::per_pressure, 0, 1e-2,
       "volume removed per normal force and rubbed path"},
      {"removal_band", &BrushAbrasion::removal_band, dimension::number, 1, 100,
       "factor up and down within which the removal coefficient is known"},
      {"wear_coefficient", &BrushAbrasion::wear_coefficient, dimension::per_pressure, 0, 1e-2,
       "volume of the brush worn per normal force and rubbed path"},
      {"wear_exponent", &BrushAbrasion::wear_exponent, dimension::number, 1, 5,
       "power of the force with which the brush wears"},
  });
}

/// Roller of filaments: a cylinder with its axis along the drum's, filaments straight outwards.
struct FilamentBrush {
  static constexpr std::string_view name = "filament";

  Filament filament;
  double radius = 0;  ///< R [mm] of the free tips' circle, greater than the filament's length
  double fill = 0;  ///< fraction of the tips' cylinder that filament sections cover, 0 < fill <= 1
  double rows = 0;  ///< rows of tufts around the drum; 0: evenly spread
  BrushAbrasion abrasion;

  [[nodiscard]] bool operator==(const FilamentBrush&) const = default;

  static constexpr auto keys();
};

constexpr auto FilamentBrush::keys() {
  return std::to_array<Key<FilamentBrush>>({
      {"radius", &FilamentBrush::radius, dimension::length, 5, 1000, "radius of the free tips"},
      {"fill", &FilamentBrush::fill, dimension::number, 1e-4, 0.9069,
       "fraction of the tips' cylinder that filament sections cover"},
      {"rows", &FilamentBrush::rows, dimension::number, 0, 1000,
       "rows of tufts around the drum, 0 where they are evenly spread"},
  });
}

/// Roller of abrasive web (non-woven): a soft ring that gives as a bed of springs.
struct NonWovenBrush {
  static constexpr std::string_view name = "non-woven";

  double radius = 0;           ///< R [mm], greater than the depth
  double depth = 0;            ///< t [mm] of web over the hub, > 0
  double contact_modulus = 0;  ///< E_c [MPa]: pressure over (overlap / depth), > 0
  double friction = 0;         ///< mu [-]
  BrushAbrasion abrasion;

  [[nodiscard]] bool operator==(const NonWovenBrush&) const = default;

  static constexpr auto keys();
};

constexpr auto NonWovenBrush::keys() {
  return std::to_array<Key<NonWovenBrush>>({
      {"radius", &NonWovenBrush::radius, dimension::length, 5, 1000, "radius of the web"},
      {"depth", &NonWovenBrush::depth, dimension::length, 1, 500, "depth of web over its hub"},
      {"contact_modulus", &NonWovenBrush::contact_modulus, dimension::pressure, 1e-3, 100,
       "pressure over relative compression of the web"},
      {"friction", &NonWovenBrush::friction, dimension::number, 0, 1.2,
       "drag over normal force on the part"},
  });
}

/// Row of face brushes: discs that turn about axes normal to the sheet, filaments pointing at it,
/// each alone or several on a carrier that turns about an axis of its own (planetary).
///
/// The speed of such a brush is that of the tips at its outer radius about the disc's own axis.
struct DiscBrush {
  static constexpr std::string_view name = "disc";

  Filament filament;
  double radius = 0;          ///< b [mm] outer radius of the ring of filaments
  double inner_radius = 0;    ///< a [mm], 0 <= a < b
  double fill = 0;            ///< fraction of the ring that filament sections cover, 0 < fill <= 1
  double carrier_radius = 0;  ///< R_c [mm] from the carrier's axis to a disc's; 0: no carrier
  /// Turns of the carrier per turn of a disc about its own axis, seen from the carrier [-];
  /// negative: the other way round.
  double carrier_turns = 0;
  int discs = 1;            ///< on a carrier
  int heads = 1;            ///< side by side across the feed, about the middle line
  double head_pitch = 0;    ///< [mm] from head to head
  bool alternating = true;  ///< neighbouring heads turn opposite ways
  BrushAbrasion abrasion;

  [[nodiscard]] bool operator==(const DiscBrush&) const = default;

  static constexpr auto keys();
};

constexpr auto DiscBrush::keys() {
  return std::to_array<Key<DiscBrush>>({
      {"radius", &DiscBrush::radius, dimension::length, 5, 1000, "outer radius of a disc"},
      {"inner_radius", &DiscBrush::inner_radius, dimension::length, 0, 999,
       "radius within which a disc carries no filaments"},
      {"fill", &DiscBrush::fill, dimension::number, 1e-4, 0.9069,
       "fraction of a disc's ring that filament sections cover"},
      {"head_pitch", &DiscBrush::head_pitch, dimension::length, 1, 5000,
       "across the feed, from the middle of a head to that of the next"},
  });
}

/// Registration: a new kind of brush adds its struct above and its name here.
using AnyBrush = std::variant<FilamentBrush, NonWovenBrush, DiscBrush>;

/// What single filaments do in a contact.
struct TipContact {
  double mean_force = 0;    ///< normal, over the way on the face [N]
  double peak_force = 0;    ///< [N]
  double flank_length = 0;  ///< longest part of a filament that lies down on its flank [mm]
  double strikes = 0;       ///< filaments that pass, per width of drum and time [1/(mm s)]
  std::optional<double> row_frequency;  ///< rows that pass [1/s]; absent where evenly spread
  /// Swings that a filament could make of itself while it is on the face [-]; absent at rest. The
  /// balance of forces that everything here rests on holds well above 1; near and below 1 inertia
  /// changes it (passage()).
  std::optional<double> swings;
};

/// A brush on a flat face, per width of drum: what a station needs to know.
struct BrushContact {
  double line_force = 0;  ///< normal force [N/mm]
  /// Tangential force on the part, in the direction of the tips [N/mm]; 0 where they run all ways.
  double drag = 0;
  double power = 0;           ///< that the drum puts in [mW/mm]
  double contact_length = 0;  ///< along the feed [mm]
  double rub = 0;             ///< normal force times the speed at which it rubs [mW/mm]
  std::optional<TipContact> tips;
};

/// Filaments per hub angle and width of drum [1/(rad mm)]: 4 fill R / (pi d^2).
[[nodiscard]] double filaments_per_angle(const FilamentBrush& brush) noexcept;

/// Fill at the tips [-] of a brush given by filaments per area of its hub [1/mm^2].
[[nodiscard]] double fill_of_hub_density(const Filament& filament, double radius,
                                         double per_hub_area) noexcept;

/// One filament of the brush, set and turning as the brush is.
[[nodiscard]] FilamentOnDrum filament_on(const FilamentBrush& brush, double penetration,
                                         double speed) noexcept;

/// Brush on a flat face, either way round: the face does not know the direction of rotation.
///
/// Every filament carries what it would alone (neighbours neither prop it up nor crowd it: a dense
/// brush is stiffer). Forces are those of the quasi-static sweep with centrifugal load; half a
/// millisecond each for filaments, see BrushTable for many. What inertia adds: passage().
///
/// @param penetration  delta [mm] of the free tips' circle into the face; at or below zero nothing
///                     touches and every value is zero.
/// @param speed        of the tips v [mm/s], >= 0.
/// @throws  std::domain_error for filaments limper than `limpest` (limpness(filament_on(...))) and
///          penetrations beyond `deepest_on_face` of their length.
[[nodiscard]] BrushContact contact(const FilamentBrush& brush, double penetration, double speed);

/// The same for a web: pressure E_c / t times the overlap of circle and face,
///
///     P' = (E_c / t) (R^2 acos(h / R) - h sqrt(R^2 - h^2)),   h = R - delta.
[[nodiscard]] BrushContact contact(const NonWovenBrush& brush, double penetration, double speed);

/// The same for a row of discs, per width of the row, its middle on the face and the feed left out:
/// every filament stands in the same steady drag (dragged_over_face()).
[[nodiscard]] BrushContact contact(const DiscBrush& brush, double penetration, double speed);

/// @overload
[[nodiscard]] BrushContact contact(const AnyBrush& brush, double penetration, double speed);

}  // namespace drumlin::models
