#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/quantity.hpp"

/// What a run says of the part, in mm, N, MPa, s. A quantity that the model does not give has no
/// value, all the way to an absent key in every file.
namespace drumlin::sim {

/// Plain face, far from every feature.
struct FaceResult {
  Quantity removal;                ///< [mm], all layers
  Quantity coating_left;           ///< [mm]
  Quantity coating_left_fraction;  ///< [-]
  Quantity top_left;               ///< [mm] of the layer over the coating
  Quantity roughness;              ///< Ra across the lay [mm]
  Quantity roughness_along;        ///< Ra along the lay [mm]
  /// Share of the face that the lay of the line's grains covers [-]; below 1 the face as it was
  /// delivered shows through.
  Quantity lay_covered;
  std::string lay;       ///< "along the feed", "crossing arcs"; empty: as delivered
  Quantity temperature;  ///< [K]
};

/// Least coating left from a distance to an edge on.
struct CoatingBeyond {
  double distance = 0;  ///< [mm]
  Quantity left;        ///< [mm]
};

/// Coating along the surface that is left, from the edge inwards.
struct CoatingProfile {
  std::vector<double> arc;   ///< [mm] from the edge line along the surface, rising
  std::vector<double> left;  ///< [mm]
};

/// One edge or rim.
struct FeatureResult {
  std::string name;     ///< as in the case, or "name:leading" where the case left the side open
  std::string feature;  ///< the case's own name of the feature
  std::string kind;     ///< "outer-edge", "hole", "slot", "stub"
  std::string side;     ///< "leading", "trailing", "side": as the case names it
  std::string fed_as;   ///< the same words: what it is as the part is fed, turned by its angle
  std::string burr;     ///< "wall", "rolled", "bead", "stub", "none"
  /// What became of the burr: "ground off", "stands", "folded beyond the edge", "folded onto the
  /// face", "broken off", "untouched"; empty without a burr.
  std::string outcome;
  std::string section;      ///< name of the SectionRecord that shows it; empty where there is none
  Quantity burr_height;     ///< [mm] above the worn face; negative: worn below it
  Quantity secondary_burr;  ///< [mm] overhang of folded burr beyond the original edge line
  Quantity lip_thickness;   ///< [mm] of the folded burr
  Quantity fold_start;      ///< [mm] height of the burr above the worn face when it began to fold
  Quantity fold_stop;       ///< [mm] height of its top above the worn face when folding stopped
  Quantity protrusion;      ///< [mm] of a stub beyond the edge line
  /// [mm] circle tangent to face and flank, least squares; no value while a burr stands on the
  /// edge.
  Quantity edge_radius;
  Quantity edge_radius_fit;  ///< [mm] rms distance of the profile from that circle
  Quantity edge_drop;        ///< [mm] below the worn face at the original edge line
  /// [mm] signed size of the edge as ISO 13715 states it: material beyond the ideal corner counts
  /// positive (burr), material missing negative: the larger of both extents.
  Quantity edge_size;
  Quantity face_extent;     ///< [mm] of the worn zone along the face
  Quantity flank_extent;    ///< [mm] of the worn zone along the flank
  Quantity minimum_radius;  ///< [mm] smallest local radius of the worn profile
  std::string size_class;   ///< preferred size of ISO 13715 that holds it, such as "-0.3"
  Quantity oxide_left;      ///< share of the flank's height that still carries its oxide [-]
  Quantity flank_reach;     ///< [mm] depth below the face to which the flank was worked
  /// [-] strikes of brushes on the burr's root over the strikes that break it; a factor of ten
  /// either way. No value where no brush struck a burr.
  Quantity root_life_used;
  Quantity peak_pressure;    ///< [MPa] highest at this edge over all passes
  Quantity peak_line_force;  ///< f_n [N/mm] highest force on the burr over all passes
  Quantity coating_left;     ///< [mm] least, beyond the burr's root
  /// [mm] least coating from a distance to the edge on, for every distance that a limit names.
  std::vector<CoatingBeyond> coating_beyond;
  /// [mm] from the edge line to where coating begins; no value where none begins in the section.
  Quantity bare_length;
  std::optional<CoatingProfile> coating;
  Quantity temperature;  ///< [K]
  std::string note;      ///< why values are missing, or what to beware of
};

/// One face of the part with its edges.
struct FaceState {
  FaceResult face;
  std::vector<FeatureResult> features;
};

/// State of the part after a station: the face that carries the burrs, with its edges.
struct PartState : FaceState {
  /// The other face, where a tool of the line meets it. Its edges carry no burr.
  std::optional<FaceState> reverse;
};

}  // namespace drumlin::sim
