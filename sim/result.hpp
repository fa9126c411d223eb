#pragma once

#include <optional>
#include <string>
#include <vector>

/// What a run gives, in mm, N, MPa, s: the only thing that writers see. A quantity that the model
/// does not give has no value, all the way to an absent key in every file.
namespace drumlin::sim {

/// A value with the band in which the truth is expected to lie.
struct Banded {
  double value = 0;
  std::optional<double> low;
  std::optional<double> high;
};
using Quantity = std::optional<Banded>;

/// Plain face, far from every feature.
struct FaceResult {
  Quantity removal;                ///< [mm], all layers
  Quantity coating_left;           ///< [mm]
  Quantity coating_left_fraction;  ///< [-]
  Quantity roughness;              ///< Ra [mm]
  Quantity temperature;            ///< [K]
};

/// Least coating left from a distance to an edge on.
struct CoatingBeyond {
  double distance = 0;  ///< [mm]
  Quantity left;        ///< [mm]
};

/// One edge or rim.
struct FeatureResult {
  std::string name;      ///< as in the case, or "name:leading" where the case left the side open
  std::string feature;   ///< the case's own name of the feature
  std::string kind;      ///< "outer-edge", "hole", "slot"
  std::string side;      ///< "leading", "trailing", "side"
  std::string burr;      ///< "wall", "none"
  std::string section;   ///< name of the SectionRecord that shows it; empty where there is none
  Quantity burr_height;  ///< [mm] above the worn face; negative: worn below it
  Quantity secondary_burr;
  /// [mm] circle tangent to face and flank, least squares; no value while a burr stands on the
  /// edge.
  Quantity edge_radius;
  Quantity edge_radius_fit;  ///< [mm] rms distance of the profile from that circle
  Quantity edge_drop;        ///< [mm] below the worn face at the original edge line
  Quantity peak_pressure;    ///< [MPa] highest at this edge over all passes
  Quantity peak_line_force;  ///< f_n [N/mm] highest force on the burr over all passes
  Quantity coating_left;     ///< [mm] least, beyond the burr's root
  /// [mm] least coating from a distance to the edge on, for every distance that a limit names.
  std::vector<CoatingBeyond> coating_beyond;
  /// [mm] from the edge line to where coating begins; no value where none begins in the section.
  Quantity bare_length;
  Quantity temperature;  ///< [K]
  std::string note;      ///< why values are missing, or what to beware of
};

/// State of the part after a station.
struct PartState {
  FaceResult face;
  std::vector<FeatureResult> features;
};

struct StationResult {
  std::string kind;  ///< "belt"
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
  PartState after;
};

struct VerdictItem {
  std::string name;              ///< such as "hole-6:trailing burr_height" or "face coating_left"
  std::string quantity;          ///< the accept key
  std::string unit;              ///< unit of value, limit and margin: "mm", "um", "degC", ...
  Quantity value;                ///< in that unit
  std::optional<double> low;     ///< limit, in that unit
  std::optional<double> high;    ///< limit, in that unit
  std::string limit;             ///< as the customer wrote it
  std::optional<double> margin;  ///< distance to the nearer limit, in that unit; negative: outside
  std::optional<bool> accepted;  ///< no value: not known
};

struct Verdict {
  bool accepted = false;
  std::string state;       ///< "accepted", "not accepted", "not known", "no limits given"
  std::string decided_by;  ///< name of the item that decides
  std::vector<VerdictItem> items;
};

/// One moment of a pass over a section, on the section's display points.
struct Frame {
  int pass = 0;     ///< counted over the whole line, from 0
  int station = 0;  ///< index
  int step = 0;
  double drum_x = 0;             ///< [mm] of the drum's axis in the part's frame
  double line_load = 0;          ///< [N/mm]
  std::vector<double> surface;   ///< [mm] height of the part's top; NaN where there is no metal
  std::vector<double> coating;   ///< [mm] left
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
  double face_removal = 0;             ///< [mm] of the far face
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
  std::vector<std::string> notes;     ///< what the model leaves out and by how much
  std::vector<std::string> cautions;  ///< for people's safety
  std::vector<std::string> samples;   ///< which sample parts to run and what to measure
  std::vector<std::string> unused_keys;
  std::vector<std::string> defaults;
  std::optional<std::string> coating;  ///< name of the coating's material
  double coating_thickness = 0;        ///< [mm] before the first station
  std::string part_material;
  std::vector<DrumShape> drums;  ///< one per station
  std::vector<SectionRecord> sections;
  std::optional<SpeedStudy> speed_study;
  Provenance provenance;
};

}  // namespace drumlin::sim
