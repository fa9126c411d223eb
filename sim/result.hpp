#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/disc_result.hpp"
#include "sim/heat_result.hpp"
#include "sim/life_result.hpp"
#include "sim/line_economy_result.hpp"
#include "sim/part_result.hpp"
#include "sim/quantity.hpp"
#include "sim/remedy_result.hpp"
#include "sim/scatter_result.hpp"
#include "sim/verdict_result.hpp"

/// What a run gives, in mm, N, MPa, s: the only thing that writers see. A quantity that the model
/// does not give has no value, all the way to an absent key in every file.
namespace drumlin::sim {

struct StationResult {
  std::string kind;  ///< "belt", "brush", "knock-off", "flip"
  std::string description;
  Quantity line_load;          ///< [N/mm] static, plain unworn face
  Quantity interference;       ///< [mm]
  Quantity half_width;         ///< [mm] static
  Quantity peak_pressure;      ///< [MPa] static, plain unworn face
  Quantity line_load_slope;    ///< [N/mm^2] dP'/d(delta), static
  Quantity working_line_load;  ///< [N/mm] of the steady wearing pass
  Quantity power;              ///< [mW/mm]
  Quantity speed_ratio;        ///< v_b over critical_speed [-]
  /// [mm] of the pressure's centroid from the drum's axis, along the feed.
  Quantity lean;
  Quantity rolling_loss;        ///< [mW/mm] power that the cover turns into heat
  Quantity cover_heating_rate;  ///< [K/s] of the cover while nothing cools it
  Quantity cover_heating;       ///< [K] of the cover over the air once it is steady; an estimate
  /// [mm/s] of cover and belt, at the modulus that the nip meets. Theory, no measured onset.
  Quantity critical_speed;
  /// [-] modulus at the nip's frequency v_b / a over the durometer's, softening counted.
  Quantity dynamic_stiffening;
  Quantity cover_growth;            ///< [mm] with temperature and speed
  Quantity effective_interference;  ///< [mm] setting + growth + thickness - give of the frame
  Quantity belt_tension_at_speed;   ///< [N/mm] what the belt's inertia leaves of it
  Quantity land_pressure_factor;    ///< [-] land pressure over that of a plain cover
  Quantity land_pressure;           ///< [MPa] highest static pressure under a land
  Quantity land_dwell;              ///< [s] for which a land presses on one place
  /// [mm] along the part between two passages of the same place of the drum.
  Quantity ripple_pitch;
  Quantity ripple_height;  ///< [mm] most that run-out can leave on the face, peak to peak
  Quantity penetration;    ///< [mm] that a brush works with, wear and thickness counted
  Quantity drag;           ///< [N/mm] of a brush on the part, the way its tips run
  Quantity tip_force;      ///< [N] highest of one filament on the face
  Quantity tip_reach;  ///< [mm] below the face, how far tips strike the flanks that they run onto
  Quantity make_up_rate;            ///< [mm/s] by which a brush must be moved in while it works
  std::optional<DiscResult> disc;   ///< of a brush of discs that touches
  std::optional<StationHeat> heat;  ///< of a tool that rubs; absent where the metal is not known
  PartState after;
};

/// One moment of a pass over a section, on the section's display points.
struct Frame {
  int pass = 0;     ///< counted over the whole line, from 0
  int station = 0;  ///< index
  int step = 0;
  double drum_x = 0;            ///< [mm] of the drum's axis in the part's frame
  double line_load = 0;         ///< [N/mm]
  std::vector<double> surface;  ///< [mm] height of the part's top; NaN where there is no metal
  std::vector<double> coating;  ///< [mm] left
  /// [mm] height of the underside of metal that hangs over an opening, NaN elsewhere; empty where
  /// none hangs.
  std::vector<double> underside;
  std::vector<double> burr;      ///< [mm] burr metal left on top of each place's column
  std::vector<double> pressure;  ///< [MPa]
  std::vector<double> belt;      ///< [mm] height of the belt's face; NaN beyond the contact patch
};

/// One point of the history of a pass.
struct StepRecord {
  int pass = 0;
  int station = 0;
  double drum_x = 0;         ///< [mm]
  double line_load = 0;      ///< [N/mm]
  double face_pressure = 0;  ///< [MPa] highest outside the edges' neighbourhood
  double edge_pressure = 0;  ///< [MPa] highest on burr or edge
  int iterations = 0;        ///< of the contact solver
  int applications = 0;      ///< of compliance or preconditioner (one FFT pair each)
  double residual = 0;       ///< [mm] largest complementarity error
};

/// An edge line inside a section.
struct SectionEdge {
  std::string feature;     ///< name of the FeatureResult
  double x = 0;            ///< [mm] of the edge line
  int metal = 0;           ///< +1: metal towards +x, -1: towards -x
  double burr_root = 0;    ///< [mm] 0 without burr
  double burr_height = 0;  ///< [mm]
  std::string burr;        ///< kind: "wall", "rolled", "bead", "stub", "none"
};

/// What one section through a feature looked like, before, after and on the way.
/// x = feed direction; the drum travels towards -x over the part. z = 0 is the nominal, unworn
/// face.
struct SectionRecord {
  std::string name;
  double part_thickness = 0;  ///< [mm]
  std::vector<SectionEdge> edges;
  std::vector<double> x;               ///< [mm] display points, finer at edges
  std::vector<double> before;          ///< [mm] surface; NaN where there is no metal
  std::vector<double> before_coating;  ///< [mm]
  std::vector<double> after;           ///< [mm]
  std::vector<double> after_coating;   ///< [mm]
  std::vector<double> before_underside, after_underside;  ///< [mm] as in frames
  double face_removal = 0;                                ///< [mm] of the far face
  std::vector<Frame> frames;
  std::vector<StepRecord> history;
  int telling_frame = 0;  ///< index of the frame with the highest edge pressure
};

/// Drum as pictures need it.
struct DrumShape {
  double radius = 0;        ///< [mm]
  double cover = 0;         ///< [mm]
  double interference = 0;  ///< [mm]
  double belt_speed = 0;    ///< [mm/s]
};

/// How far one input moves one output: outputs at the input's low and high end.
struct Influence {
  std::string input;         ///< such as "station[0].drum.hardness"
  std::string meaning;       ///< in words
  double low = 0, high = 0;  ///< of the input, in its own unit
  std::string unit;
  std::string output;                      ///< such as "face removal"
  double output_low = 0, output_high = 0;  ///< [mm]
};

/// One cover of a study over belt speed; all lists are as long as `speed`.
struct SpeedCurve {
  std::string cover;                     ///< such as "20 Shore A"
  std::vector<double> speed;             ///< v_b [mm/s], rising
  std::vector<double> face_pressure;     ///< [MPa] highest on the plain face
  std::vector<double> burr_pressure;     ///< [MPa] highest on the burr
  std::optional<double> critical_speed;  ///< of cover and belt [mm/s]; theory, no measured onset
};

/// How the pressure on burr and face answers to belt speed, cover by cover, all else as in the
/// case.
struct SpeedStudy {
  std::string held;                ///< what is held equal, such as "0.5 mm interference"
  std::string burr;                ///< which burr, such as "hole-6:trailing, 0.15 mm high"
  std::string model;               ///< what computed it: "fast" or "line"
  double belt_speed = 0;           ///< of the case [mm/s]
  std::vector<SpeedCurve> curves;  ///< softest first
};

/// Something that changes the interference from part to part or in the course of a shift.
struct Disturbance {
  std::string name;    ///< such as "thickness tolerance"
  std::string key;     ///< of the case, such as "part.thickness_tolerance"
  bool given = false;  ///< whether the case gives an amount; else a usual one is shown
  double low = 0;      ///< [mm] of interference that it takes off or adds at its one end
  double high = 0;     ///< [mm] and at its other
  double removal_low = 0, removal_high = 0;         ///< [mm] face removal at these ends
  std::optional<double> coating_low, coating_high;  ///< [mm] coating left on the face there
  std::optional<bool> accepted;                     ///< whether the limits hold at both ends
};

/// What a change of interference does to the part, cause by cause, and how much of it the limits
/// leave room for.
struct InterferenceStudy {
  std::string model;          ///< what computed it: "fast"
  double removal = 0;         ///< [mm] face removal as set
  double removal_per_mm = 0;  ///< [mm/mm] its slope with interference
  std::vector<Disturbance> disturbances;
  /// [mm] change of interference either way within which every limit that the model can judge
  /// holds; no value where one fails as set, or none is given.
  std::optional<double> most_less, most_more;
  std::string limited_less, limited_more;  ///< name of the item that ends it
};

/// What becomes of burrs over their height and root thickness under the line's stations.
struct FoldMap {
  enum class Outcome { ground_off, stands, folds };
  std::string station;         ///< description of the station
  std::string edge;            ///< name of the result whose edge it is
  std::string model;           ///< what computed it: "fast"
  std::vector<double> height;  ///< [mm] rising
  std::vector<double> root;    ///< [mm] rising
  /// Row by row: height index * root.size() + root index.
  std::vector<Outcome> outcome;
  std::vector<double> burr_left;                 ///< [mm] above the worn face
  std::vector<double> secondary_burr;            ///< [mm]
  std::optional<double> case_height, case_root;  ///< the case's own burr [mm]
};

struct Provenance {
  std::string version;
  std::string case_sha256;
  std::string case_file;
  std::string case_text;
  int seed = 0;
  double wall_s = 0;  ///< [s] reading and solving, without writing
};

struct Result {
  std::string title;
  std::string model;                 ///< "line", "fast"
  std::vector<std::string> options;  ///< "cover_geometry = drum", ...
  bool calibrated = false;
  std::vector<StationResult> stations;
  PartState part;  ///< after the last station and pass
  Verdict verdict;
  std::vector<Influence> influences;
  std::vector<std::string> warnings;
  std::vector<std::string> notes;              ///< what the model leaves out and by how much
  std::vector<std::string> cautions;           ///< for people's safety
  std::vector<std::string> pressing_cautions;  ///< those of them that come before everything else
  std::vector<std::string> samples;            ///< which sample parts to run and what to measure
  std::vector<std::string> unused_keys;
  std::vector<std::string> defaults;
  std::optional<std::string> coating;  ///< name of the coating's material
  double coating_thickness = 0;        ///< [mm] before the first station
  std::string part_material;
  double feed = 0;               ///< [mm/s] of the conveyor
  std::vector<DrumShape> drums;  ///< one per station; all zero at one without a drum
  std::vector<SectionRecord> sections;
  std::optional<SpeedStudy> speed_study;
  std::optional<InterferenceStudy> interference_study;
  std::optional<FoldMap> fold_map;
  std::optional<LifeStudy> life_study;
  std::optional<LineEconomy> line_economy;
  std::optional<WetDryStudy> wet_dry;
  std::optional<RemedyStudy> remedies;
  std::optional<ScatterStudy> scatter;
  Provenance provenance;
};

}  // namespace drumlin::sim
