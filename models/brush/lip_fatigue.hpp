#pragma once

#include <array>
#include <string_view>

#include "models/brush/brush.hpp"
#include "models/burr/fold.hpp"
#include "models/key.hpp"

namespace drumlin::models {

/// The metal of a folded burr, as its root feels it. Fracture ductility of sheet: mild steel about
/// 1, austenitic stainless 1.2, aluminium 0.5 (from memory); an edge that was sheared has used part
/// of it.
struct LipMetal {
  static constexpr std::string_view name = "lip metal";

  double modulus = 0;             ///< Young's modulus E [MPa]
  double flow_stress = 0;         ///< sigma_y [MPa] in the root, after its first fold
  double tensile_strength = 0;    ///< R_m [MPa]
  double fracture_ductility = 0;  ///< D [-], ln(1 / (1 - reduction of area))

  static constexpr auto keys();
};

constexpr auto LipMetal::keys() {
  return std::to_array<Key<LipMetal>>({
      {"modulus", &LipMetal::modulus, dimension::pressure, 1e3, 1e6, "Young's modulus"},
      {"flow_stress", &LipMetal::flow_stress, dimension::pressure, 1, 1e4,
       "flow stress of the metal in the root"},
      {"tensile_strength", &LipMetal::tensile_strength, dimension::pressure, 1, 1e4,
       "tensile strength"},
      {"fracture_ductility", &LipMetal::fracture_ductility, dimension::number, 1e-2, 5,
       "logarithm of the area before over that after fracture"},
  });
}

/// Strain range [-] that a metal bears for a number of cycles: Manson's universal slopes,
///
///     range = 3.5 (R_m / E) N^-0.12 + D^0.6 N^-0.6,
///
/// the elastic part after Basquin, the plastic one after Coffin and Manson. An estimate from the
/// tensile test alone; lives within a factor of about ten.
///
/// Source: Manson (1965), Exp. Mech. 5, 193 (from memory). Per amplitude and reversals, as
/// handbooks print it: sigma_f' = 1.9018 R_m, eps_f' = 0.7579 D^0.6.
[[nodiscard]] double strain_range(const LipMetal& metal, double cycles) noexcept;

/// Cycles to fracture at a strain range [-]: the inverse, between 0.25 (a first bend breaks it) and
/// 1e12 (more than any part sees).
[[nodiscard]] double cycles_to_break(const LipMetal& metal, double strain_range);

/// What one filament does to a lip as it meets it.
struct Strike {
  double force = 0;   ///< that it bears on the lip's end, inertia left out [N]
  double energy = 0;  ///< that the part of it which takes part in the blow brings [N mm]
  double width = 0;   ///< of lip that shares it: the filament and 45 degrees to either side [mm]
};

/// A filament's blow on the end of a lip.
///
/// In the time in which the lip springs, only a short end of the filament can take part: a beam
/// struck at its free end answers with the mass m' / (2 k) of its bending wave k at that frequency,
/// never more than 33/140 of its own,
///
///     m = (m'/2)^(4/3) (E I / m')^(1/3) k_lip^(-1/3),   energy = m (v sin(incidence))^2 / 2,
///
/// k_lip the stiffness of the lip at its end. Tips come in at up to acos(1 - delta / R) against the
/// face; a lip that does not lie flat adds what it stands up.
///
/// @param lip    turned by pi / 2 it lies in the plane of the face.
/// @param force  of a filament, as from EdgeContact::peak_force or TipContact::peak_force [N].
///
/// Source: driving-point impedance of the half-infinite beam, Cremer and Heckl, Structure-Borne
/// Sound (from memory); models/theory/brush.md.
[[nodiscard]] Strike strike_on(const Lip& lip, const LipMetal& metal, const FilamentBrush& brush,
                               double penetration, double speed, double force) noexcept;

/// The same for filaments that come in at an angle against the face, whatever carries them.
///
/// @param incidence  [rad]; 0: along the face, as those of a disc.
[[nodiscard]] Strike strike_on(const Lip& lip, const LipMetal& metal, const Filament& filament,
                               double incidence, double speed, double force) noexcept;

/// Whether filaments always come from the same side.
enum class StrikeSense {
  one_way,   ///< the root springs back between strikes
  reversed,  ///< every strike bends the root back from the one before
};

/// How far a strike bends a lip and what its root bears.
struct LipBend {
  double moment = 0;        ///< at the root, at most the plastic one [N]
  double turn = 0;          ///< that stays, at most a right angle [rad]
  double strain_range = 0;  ///< at the root's surface, strike by strike [-]
};

/// Bending of a lip by a strike: elastic up to the plastic moment M_p, then a hinge that turns
/// until the blow's energy is spent; it follows the filament where the force alone bends it.
///
///     moment = F L / b + sqrt(6 D_l U / (b L)),        below M_p,
///     turn   = (U - (M_p - F L / b)^2 b L / (6 D_l)) / ((M_p - F L / b) b),
///     strain = 6 M / (E' t^2) + turn t / (2 max(t, L / 3)),
///
/// D_l = E' t^3 / 12, E' = E / (1 - 0.09). The hinge is as long as the part of a loaded strip that
/// yields, a third of its arm, or as it is thick. One-way strikes cycle the elastic part only:
/// what has turned stays turned; reversed ones cycle all of it twice.
[[nodiscard]] LipBend bend_by(const Strike& strike, const Lip& lip, const LipMetal& metal,
                              StrikeSense sense) noexcept;

/// Whether a pass breaks a folded burr off.
struct LipFatigue {
  LipBend bend;
  double strikes_to_break = 0;
  double strikes = 0;  ///< that each place of the root feels in the pass
  bool gone = false;
};

/// @param strikes_per_length  filaments that cross the edge in the pass [1/mm], as from
///                            EdgeWork::strikes.
[[nodiscard]] LipFatigue lip_fatigue(const Lip& lip, const LipMetal& metal, const Strike& strike,
                                     StrikeSense sense, double strikes_per_length);

}  // namespace drumlin::models
