#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "cases/cost.hpp"
#include "cases/material.hpp"
#include "cases/problem.hpp"
#include "cases/uncertainty.hpp"
#include "models/brush/brush.hpp"
#include "models/brush/wear.hpp"
#include "models/burr/burr_kinds.hpp"
#include "models/removal/removal_laws.hpp"

/// The checked case: what the user said, in mm, N, MPa, s, K, with defaults filled in and names
/// looked up. Plain structs; whoever holds a Case may rely on every range having been checked.
namespace drumlin::cases {

enum class FeatureKind { outer_edge, hole, slot, stub };
enum class Side { leading, trailing, side };
enum class Direction { with_feed, against_feed };
enum class Cooling { dry, wet };
/// Face of the part that lies up when it enters the line.
enum class BurrSide { up, down };

/// Layer over the coating, such as a primer over zinc.
struct TopLayer {
  Material material;
  double thickness = 0;  ///< [mm] on either face

  [[nodiscard]] bool operator==(const TopLayer&) const = default;
};

/// Layer on the part's faces.
struct Coating {
  Material material;
  double thickness = 0;                   ///< [mm] on the face that carries the burrs
  double reverse_thickness = 0;           ///< [mm] on the other face
  std::optional<std::string> mass_class;  ///< as given, such as "Z200"
  double split = 0.5;                     ///< share of the mass class on the burrs' face [-]
  double bare_below = 0;                  ///< coating thinner than this counts as bare [mm]
  std::optional<TopLayer> top;
  /// [mm] published range of the class on that face; both equal to thickness where that was given.
  double thickness_low = 0;
  double thickness_high = 0;

  [[nodiscard]] bool operator==(const Coating&) const = default;
};

/// An edge or an opening of the part, with the burr it carries.
struct Feature {
  std::string name;
  FeatureKind kind = FeatureKind::outer_edge;
  /// [mm] diameter of a hole, length of a slot along the feed, width of a stub along its edge.
  std::optional<double> size;
  std::optional<Side> side;  ///< which edge or rim carries the burr; absent: each of them
  models::AnyBurr burr = models::NoBurr{};
  /// Centre of a hole or slot on the part [mm]: from the leading edge, and from the middle line
  /// towards the left side seen along the feed. Only for the check that openings keep clear.
  std::optional<double> along{};
  std::optional<double> across{};
  /// Band of each of the burr's numbers that the library supplied, by the number's key.
  std::map<std::string, Sourced> burr_bands{};

  [[nodiscard]] bool operator==(const Feature&) const = default;
};

struct Part {
  Material material;
  double thickness = 0;  ///< [mm]
  /// Of the sheet that drums and brushes were set to [mm]; absent: this one. A thicker part meets
  /// tools that stand still as interference.
  std::optional<double> set_thickness;
  double thickness_tolerance = 0;  ///< [mm], plus or minus
  double width = 0;                ///< [mm] along the drum
  double length = 0;               ///< [mm] along the feed
  double bow = 0;    ///< [mm] lengthwise arch that the hold-down leaves, plus or minus
  double lift = 0;   ///< [mm] how much nearer to the tools this face lies than a flat part's
  double angle = 0;  ///< turn against the feed from how the features are named [rad]
  BurrSide burr_side = BurrSide::up;
  double flank_oxide = 0;  ///< [mm] oxide film on the cut flanks
  /// Ra [mm] of the faces before the line; absent: neither the case nor the library knows.
  std::optional<double> roughness;
  Sourced roughness_band;
  std::optional<Coating> coating;
  std::vector<Feature> features;

  [[nodiscard]] bool operator==(const Part&) const = default;
};

struct Drum {
  double radius = 0;               ///< R [mm], outer, cover included
  double cover = 0;                ///< t [mm]
  std::optional<double> hardness;  ///< [Shore A]; this or modulus is given
  std::optional<double> modulus;   ///< E [MPa]
  double poisson_ratio = 0;        ///< nu [-]
  double density = 0;              ///< rho [t/mm^3]
  /// tan delta [-], the same at every rate; 0: modulus independent of rate. Without effect where
  /// one of the two measured relaxations below is given.
  double loss_factor = 0;
  Sourced loss_factor_band;                       ///< the library's, [-]
  std::optional<CoverMaterial> cover_material;    ///< shipped relaxation, by name
  std::optional<models::PronySeries> relaxation;  ///< the case's own, at the cover's temperature
  std::optional<double> temperature;              ///< of the cover's surface [K]; absent: as read
  double thermal_expansion = 0;                   ///< linear, alpha [1/K]
  Sourced thermal_expansion_band;                 ///< [1/K]
  double land_ratio = 1;                          ///< share of lands on the circumference [-]
  std::optional<double> land_pitch;               ///< from land to land [mm]
  double wear = 0;                                ///< cover worn off since the drum was set [mm]
  std::optional<double> speed_limit;              ///< marked on the drum, at its surface [mm/s]

  [[nodiscard]] bool operator==(const Drum&) const = default;
};

/// Temperature at which a durometer is read [K], 23 degC: the standard laboratory's (ISO 23529,
/// from memory).
inline constexpr double durometer_temperature = 296.15;

/// How much a belt has seen or stands, in one of several measures.
struct Amount {
  enum class Of { parts, area, length, time, life };
  Of of = Of::parts;
  double value = 0;  ///< [parts], [mm^2] or [mm] of sheet, [s] of running, share of its life [-]

  [[nodiscard]] bool operator==(const Amount&) const = default;
};

struct Belt {
  Grit grit;
  Abrasive abrasive;
  Backing backing;
  double tension = 0;                 ///< T [N/mm]
  double length = 0;                  ///< [mm] of the loop
  std::optional<double> width;        ///< [mm]
  std::optional<double> speed_limit;  ///< marked on the belt [mm/s]
  bool wet = true;                    ///< whether it may run wet
  double bending_stiffness = 0;       ///< D [N mm]
  double grain_compliance = 0;        ///< c_g [mm/MPa]
  double mass = 0;                    ///< m' [t/mm^2]
  double threshold_pressure = 0;      ///< p_th [MPa]
  double grain_spacing = 0;           ///< between grains that cut [mm]
  double thickness_change = 0;  ///< of the belt against the one that the drum was set with [mm]
  /// How removal goes with pressure: the law's own numbers, K and p_th excepted, which are here.
  models::AnyRemovalLaw removal_law = models::Preston{};
  std::map<std::string, Sourced> removal_bands;        ///< of the law's own numbers, by key
  std::optional<double> removal_coefficient;           ///< K [1/MPa], every layer alike
  std::map<std::string, double> removal_coefficients;  ///< K [1/MPa] by material, where given so
  /// Bands of four of the numbers above; where the case gives the number, low = high and the source
  /// is "case".
  Sourced bending_stiffness_band;
  Sourced grain_compliance_band;
  Sourced threshold_pressure_band;
  Sourced mass_band;
  Sourced grain_spacing_band;
  /// How it wears: by the library unless the case says otherwise.
  std::optional<Amount> life;        ///< as the case states it; absent: by the grinding ratio
  std::optional<double> worn_share;  ///< K at the end of life over the fresh belt's [-]
  BeltWearDefaults wear;

  [[nodiscard]] bool operator==(const Belt&) const = default;
};

struct InterferenceSetting {
  double interference = 0;  ///< delta [mm], into the top of the nominal, unworn part

  [[nodiscard]] bool operator==(const InterferenceSetting&) const = default;
};
struct LineLoadSetting {
  double line_load = 0;  ///< P' [N/mm], of the steady wearing pass

  [[nodiscard]] bool operator==(const LineLoadSetting&) const = default;
};
using Setting = std::variant<InterferenceSetting, LineLoadSetting>;

/// A drum with its belt.
struct BeltStation {
  Drum drum;
  Belt belt;
  Setting setting = InterferenceSetting{};
  double speed = 0;              ///< v_b [mm/s]
  Place speed_place;             ///< where the file says so
  bool allow_overspeed = false;  ///< computed even above a speed limit
  Direction direction = Direction::with_feed;
  std::optional<Amount> belt_age;  ///< what the belt has seen; absent: fresh
  double run_out = 0;              ///< [mm], peak to peak at the drum's surface
  double frame_compliance = 0;     ///< s_m of frame and bed [mm^2/N], give per line load
  /// Of frame and bed; low = high where the case gave the number.
  Sourced frame_compliance_band;

  [[nodiscard]] bool operator==(const BeltStation&) const = default;
};

/// Hard edges or pins that strike off what stands high above the face: dross and slag.
struct KnockOffStation {
  double clearance = 0;   ///< between tool and face [mm]: what stands higher is struck
  double line_force = 0;  ///< with which it strikes along the edge [N/mm]

  [[nodiscard]] bool operator==(const KnockOffStation&) const = default;
};

/// The part is turned over: its other face lies up from here on.
struct FlipStation {
  [[nodiscard]] bool operator==(const FlipStation&) const = default;
};

/// How the brushes of a station stand and turn.
enum class BrushArrangement {
  roller,            ///< axis along the drum's
  counter_rotating,  ///< two such rollers one behind the other, turning opposite ways
  disc,              ///< face brushes, axes normal to the sheet
  planetary,         ///< discs that turn about their own axes and about a common one
};

/// Brush: a roller with its axis along the drum's, or discs. A pair of counter-rotating rollers is
/// two stations, one behind the other.
struct BrushStation {
  BrushArrangement arrangement = BrushArrangement::roller;
  int roller_of_pair = 0;    ///< 1 or 2 of a counter-rotating pair, else 0
  models::AnyBrush brush;    ///< as it was new
  std::string filament;      ///< what its filaments are made of; empty for a web
  std::optional<Grit> grit;  ///< grain in the filaments or on the web; absent: none
  double penetration = 0;    ///< delta [mm] of the free tips' circle into the face, as set when new
  double speed = 0;          ///< of the tips when new [mm/s]; of discs at their outer radius
  std::optional<double> speed_limit;           ///< marked on the brush, at its tips [mm/s]
  bool allow_overspeed = false;                ///< computed even above that limit
  Place penetration_place;                     ///< where the file says so
  Direction direction = Direction::with_feed;  ///< way the tips run over the part
  models::BrushWear wear;                      ///< what it has lost since
  /// Bands of three of the numbers; low = high where the case gave the number.
  Sourced modulus_band;  ///< [MPa] of filaments, or the contact modulus of a web
  Sourced removal_band;  ///< K [1/MPa] on the base metal
  Sourced fill_band;     ///< [-]
  double slowest = 0;    ///< tip speed that such filaments are used from [mm/s]; 0: not known
  double fastest = 0;    ///< and up to [mm/s]

  [[nodiscard]] bool operator==(const BrushStation&) const = default;
};

/// Registration: a new station kind adds its struct and its name here.
using Station = std::variant<BeltStation, KnockOffStation, FlipStation, BrushStation>;

/// Where in the file's list a station stands: both rollers of a pair are one entry there.
[[nodiscard]] inline std::size_t index_in_file(const std::vector<Station>& stations,
                                               std::size_t index) noexcept {
  std::size_t seconds = 0;
  for (std::size_t i = 0; i <= index && i < stations.size(); ++i) {
    const auto* brush = std::get_if<BrushStation>(&stations[i]);
    if (brush != nullptr && brush->roller_of_pair == 2) ++seconds;
  }
  return index - seconds;
}

/// A station that meets the part, and the face that then lies up.
struct Meeting {
  std::size_t station = 0;  ///< index
  bool burrs_up = true;
};

/// Which face each station but a flip meets, in order, over at most two passes: from then on the
/// line repeats itself.
///
/// @tparam Flip  the alternative of the stations' variant that turns the part over.
template <class Flip, class AnyStation>
[[nodiscard]] std::vector<Meeting> meetings(BurrSide side, int passes,
                                            const std::vector<AnyStation>& stations) {
  std::vector<Meeting> list;
  bool burrs_up = side == BurrSide::up;
  for (int pass = 0; pass < passes && pass < 2; ++pass) {
    for (std::size_t i = 0; i < stations.size(); ++i) {
      if (std::holds_alternative<Flip>(stations[i]))
        burrs_up = !burrs_up;
      else
        list.push_back({i, burrs_up});
    }
  }
  return list;
}

struct Conveyor {
  double speed = 0;  ///< v_f [mm/s]
  int passes = 1;
  int lanes = 0;               ///< parts side by side as they lie; 0: not given
  double gap = 0;              ///< [mm] between parts, along and across
  double station_spacing = 0;  ///< [mm] from one station to the next, along the feed
  double pass_interval = 0;    ///< [s] from the end of the line to its start again
  Grip grip{};

  [[nodiscard]] bool operator==(const Conveyor&) const = default;
};

/// A limit as the customer gave it, in the inner unit; either end may be open.
struct Limit {
  std::optional<double> low;
  std::optional<double> high;
  std::string text;  ///< as written, such as "<= 0.03 mm"
  std::string unit;  ///< the unit as written
  double scale = 1;  ///< inner value = offset + scale * value in that unit
  double offset = 0;

  [[nodiscard]] bool operator==(const Limit&) const = default;
};

/// What the customer accepts: quantity (its accept key, such as "burr_height") to limit.
using Limits = std::map<std::string, Limit>;

/// Limits for some features only: by name, by kind, by side, or any of these together.
struct FeatureLimits {
  std::optional<std::string> name;
  std::optional<FeatureKind> kind;
  std::optional<Side> side;
  std::optional<double> beyond;  ///< coating counts from this distance to the edge on [mm]
  Limits limits;

  [[nodiscard]] bool operator==(const FeatureLimits&) const = default;
};

struct Accept {
  Limits limits;
  std::vector<FeatureLimits> features;

  [[nodiscard]] bool operator==(const Accept&) const = default;
};

/// How the answer is computed. Names are those of the case file.
struct Numerics {
  std::string model = "line";
  std::string cover_geometry = "drum";
  std::string cover_motion = "moving";
  std::string belt_grip = "stick";
  std::string cover_strain = "finite";
  std::string grid = "nested";
  double resolution = 0.005;     ///< [mm]
  int steps = 400;               ///< per pass over a feature
  std::optional<double> window;  ///< [mm]; absent: chosen from the drum
  bool bands = true;             ///< whether bands are computed

  [[nodiscard]] bool operator==(const Numerics&) const = default;
};

/// A key that was given and understood but has no effect on this version's results.
struct UnusedKey {
  std::string key;  ///< dotted path, such as "station[0].drum.land_ratio"
  int line = 0;
  std::string text;  ///< why, in one sentence
};

struct Case {
  std::string title;
  std::string file;    ///< as given on the command line
  std::string text;    ///< the file's bytes
  std::string sha256;  ///< of the text, hexadecimal
  int seed = 0;
  Part part;
  std::vector<Station> stations;
  Conveyor conveyor;
  Cooling cooling = Cooling::dry;
  std::vector<Material> other_metals;  ///< that run on the same line before or after
  double room_temperature = 0;         ///< of air, fluid and incoming part [K]
  std::optional<Cost> cost;            ///< absent: no price given
  Accept accept;
  Numerics numerics;
  std::optional<Uncertainty> uncertainty;  ///< absent: nothing scatters
  std::vector<UnusedKey> unused;
  std::vector<std::string> defaults;  ///< "key = value: why" for each value the library supplied
};

}  // namespace drumlin::cases
