#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "cases/case.hpp"
#include "models/belt/dulling.hpp"
#include "models/belt/nip_compliance.hpp"
#include "models/belt/tensioned_plate.hpp"
#include "models/brush/brush.hpp"
#include "models/elastomer/bonded_layer.hpp"
#include "models/elastomer/relaxation.hpp"
#include "models/elastomer/softening.hpp"
#include "models/removal/removal_laws.hpp"
#include "sim/heat/heat_setup.hpp"

namespace drumlin::sim {

/// What the abrasive does to one material.
struct LayerLaw {
  std::string material;
  models::AnyRemovalLaw law;
  double coefficient = 0;      ///< K [1/MPa], for messages and bands
  double coefficient_low = 0;  ///< band of K
  double coefficient_high = 0;
  std::string origin;  ///< "case" or "mu/u from the library"
  /// c [-]: share of the belt's bite that is lost once its gaps are clogged with this material.
  double clogging = 0;
};

/// Multiplies what the abrasive takes off a material.
void scale_removal(LayerLaw& layer, double factor);

/// How the belt of a station wears, and how far it has.
struct BeltWearSetup {
  models::Dulling dulling;  ///< with its life as the grinding ratio, or the case, gives it
  double life_low = 1;      ///< life of the short-lived end of the band over the expected one [-]
  double life_high = 1;     ///< and of the long-lived end
  double worn_low = 1;      ///< [-] band of the share of K that is left at the end
  double worn_high = 1;
  double belt_length = 0;     ///< [mm]
  double grain_diameter = 0;  ///< d [mm], mean
  /// Whether the case says what is left at the end: that counts loading and all.
  bool by_case = false;
  double life_share = 0;  ///< x [-] of its life that the belt has behind it
  double sharpness = 1;   ///< K over the fresh belt's [-], loading included
};

/// What of the drum's mechanics is followed (the keys of [numerics]).
struct Options {
  bool curved = false;         ///< cover_geometry = "drum"
  bool moving = false;         ///< cover_motion = "moving"
  bool gripped = false;        ///< belt_grip = "stick"
  bool finite_strain = false;  ///< cover_strain = "finite"
};

/// A belt station as the solvers take it: laws and plain numbers.
struct BeltSetup {
  models::BondedLayer cover{};    ///< modulus as the durometer reads it
  models::TensionedPlate belt{};  ///< tension as set, at rest
  double radius = 0;              ///< R [mm]
  double density = 0;             ///< [t/mm^3]
  Options options;
  /// Whether somebody found already that the belt runs below 0.9 of the critical speed, so that
  /// nobody need look for it again; see `inertia_share`.
  bool below_critical = false;
  models::AnyRelaxation relaxation = models::RateIndependent{};
  double softening = 1;  ///< factor on the modulus for the cover's temperature [-]
  double softening_rate = models::softening_per_kelvin;  ///< of the modulus with temperature [1/K]
  /// Factor on the modulus for the strain amplitude [-] in place of the law's own; for bands.
  std::optional<double> strain_softening;
  /// Measured compound, of which the temperature shifts the times; none: the usual softening.
  std::optional<cases::CoverMaterial> compound;
  double belt_mass = 0;              ///< m' [t/mm^2]
  double temperature_rise = 0;       ///< of the cover since the drum was set [K]
  double thermal_expansion = 0;      ///< linear, of the cover [1/K]
  double frame_compliance = 0;       ///< s_m of frame and bed [mm^2/N]
  double land_ratio = 1;             ///< share of lands on the circumference [-]
  std::optional<double> land_pitch;  ///< [mm]
  double run_out = 0;                ///< of the drum's surface, peak to peak [mm]
  bool with_feed = true;             ///< whether the belt at the nip runs as the part does
  cases::Setting setting;
  double belt_speed = 0;     ///< v_b [mm/s]
  double sliding_speed = 0;  ///< v [mm/s], belt against part
  double feed = 0;           ///< v_f [mm/s]
  double friction = 0;       ///< mu [-]
  LayerLaw substrate;
  LayerLaw coating;  ///< as substrate where the part has no coating
  LayerLaw top;      ///< layer over the coating; as coating where there is none
  BeltWearSetup wear;
  bool wet = false;
  /// Specific energy of the base metal [MPa]; a burr of another one grinds in proportion.
  double specific_energy = 0;
  double grain_spacing = 0;  ///< between grains that cut [mm]
  double spacing_low = 0;    ///< [mm] band of it
  double spacing_high = 0;
  double modulus_low = 0;  ///< [MPa] band of E
  double modulus_high = 0;
  double poisson_low = 0;  ///< [-] band of nu
  double poisson_high = 0;
  double bending_low = 0;  ///< [N mm] band of D
  double bending_high = 0;
  double threshold_low = 0;  ///< [MPa] band of p_th
  double threshold_high = 0;
  double grain_low = 0;  ///< [mm/MPa] band of c_g
  double grain_high = 0;
  double loss_low = 0;  ///< [-] band of a constant loss factor
  double loss_high = 0;
  double mass_low = 0;  ///< [t/mm^2] band of m'
  double mass_high = 0;
  double expansion_low = 0;  ///< [1/K] band of alpha
  double expansion_high = 0;
  double frame_low = 0;  ///< [mm^2/N] band of s_m
  double frame_high = 0;
  bool temperature_given = false;  ///< whether the case says how warm the cover is
  /// [mm] added to what the setting gives: thickness, bow, cover wear, another belt's thickness.
  double interference_offset = 0;
  /// v_b over the Rayleigh speed of the bare cover at the modulus that the nip meets [-]: a quick
  /// estimate; what results state is over the critical speed of cover and belt.
  double speed_ratio = 0;
  std::string description;
  std::vector<std::string> warnings;  ///< where a number had to be changed to be solvable
};

/// Whether the face loses in proportion to the line load: Preston's law without a threshold in
/// every layer.
[[nodiscard]] bool removes_in_proportion(const BeltSetup& station);

/// Belt and cover as the nip feels them at an interference: with speed, curvature, grip, finite
/// strain and what is left of the belt's tension, as far as the options ask for them.
///
/// @param interference  delta [mm] at the plain face: finite strain goes with it.
[[nodiscard]] models::BeltOnCover nip_of(const BeltSetup& station, double interference);

/// What drum and bed add to the interference that the setting gives [mm]: growth of the cover with
/// temperature and with speed (both > 0).
[[nodiscard]] double cover_growth(const BeltSetup& station);

/// How much more line load finite strain carries than small strain at an interference [-], >= 1;
/// whether the options follow it or not.
[[nodiscard]] double finite_strain_of(const BeltSetup& station, double interference);

/// Factor on the modulus for the strain amplitude in the nip [-]; 1 where the modulus does not
/// depend on rate: the hardness itself is read at large strain.
[[nodiscard]] double strain_softening_of(const BeltSetup& station, double interference);

/// Warms the cover by so much since the drum was set [K]: its modulus, and with a measured compound
/// its times, go with it.
void set_temperature_rise(BeltSetup& station, double rise);

/// Hard edges or pins that strike off what stands high.
struct KnockOffSetup {
  double clearance = 0;   ///< between tool and face [mm]
  double line_force = 0;  ///< [N/mm]
  std::string description;
};

/// The part is turned over.
struct FlipSetup {
  std::string description;
};

/// A brush station as the solvers take it.
struct BrushSetup {
  models::AnyBrush brush;  ///< as worn as it is; its removal coefficient is the base metal's
  double penetration = 0;  ///< [mm] that is left of the one set, >= 0
  double interference_offset = 0;  ///< [mm] added to it: thickness, bow
  double speed = 0;                ///< of the tips [mm/s]
  double grain_diameter = 0;       ///< mean, in filaments or web [mm]; 0: none
  bool wet = false;
  double feed = 0;                     ///< v_f [mm/s]
  bool with_feed = true;               ///< whether the tips run as the part does
  bool second_of_pair = false;         ///< of two counter-rotating rollers
  models::Preston base, coating, top;  ///< removal by material; where a layer is missing, as below
  double removal_low = 0;              ///< [1/MPa] band of the base metal's
  double removal_high = 0;
  double modulus_low = 0;  ///< [MPa] band of the filaments' or the web's
  double modulus_high = 0;
  double fill_low = 0;  ///< [-] band of the fill
  double fill_high = 0;
  double specific_energy =
      0;  ///< of the base metal [MPa]; a burr of another one wears in proportion
  /// Metal of lips, but for its flow stress, which is the burr's own.
  double sheet_modulus = 0;       ///< Young's modulus E [MPa]
  double fracture_ductility = 0;  ///< D [-]
  std::string description;
  std::vector<std::string> warnings;
};

/// Multiplies what a brush takes off every material.
void scale_removal(BrushSetup& station, double factor);

/// Registration: a new station kind adds its struct here, its pass to the models and its statement
/// to `state_tool` (sim/answer.hpp).
using StationSetup = std::variant<BeltSetup, KnockOffSetup, FlipSetup, BrushSetup>;

/// The case joined with the laws: all that a run needs.
struct Setup {
  cases::Case scenario;
  std::vector<StationSetup> stations;
  HeatSetup heat;

  /// The belt station of that index; throws std::bad_variant_access if it is of another kind.
  [[nodiscard]] BeltSetup& belt(std::size_t index) { return std::get<BeltSetup>(stations[index]); }
  [[nodiscard]] const BeltSetup& belt(std::size_t index) const {
    return std::get<BeltSetup>(stations[index]);
  }
};

/// Lets the part run through every station at another feed [mm/s]; belts and brushes keep their
/// speed.
void set_feed(Setup& setup, double feed);

/// Sets the tool of a station that much deeper into the part [mm]; without effect on tools that are
/// not set by depth.
void deepen(StationSetup& station, double offset);

/// Joins a checked case with the laws: the one place where both meet.
///
/// @throws cases::CaseError, at the station's `speed`, if a moving cover cannot follow the belt; at
///         its `penetration`, if filaments bend farther than their law holds.
[[nodiscard]] Setup set_up(cases::Case scenario);

}  // namespace drumlin::sim
