#pragma once

#include <vector>

#include "models/removal/removal_laws.hpp"
#include "sim/fast/drum_law.hpp"

namespace drumlin::sim::fast {

/// What the belt does to the metal that goes by.
struct Abrasion {
  models::AnyRemovalLaw substrate;
  models::AnyRemovalLaw coating;
  double path_per_feed = 0;     ///< v / v_f [-]: belt that passes per length of feed
  models::AnyRemovalLaw top{};  ///< layer over the coating
  double specific_energy = 0;   ///< [MPa] of the base metal; 0: burrs grind as the base does
  double friction = 0;          ///< mu [-]
  double grain_spacing = 0;     ///< [mm] between grains that cut; 0: force spread evenly
  int drag = 1;                 ///< way along x that the belt rubs: +1 with the feed
};

/// The steady wearing pass over a plain face.
struct WearingPass {
  double working_line_load = 0;  ///< P'_work [N/mm]
  double removal = 0;            ///< [mm], all layers
  double coating = 0;            ///< left [mm]
  double top = 0;                ///< layer over the coating, left [mm]
  double relief = 0;             ///< [mm] of interference that wear takes off the nip
  /// Depth lost [mm] at places from the axis [mm], from where a column enters the nip (x = -a) to
  /// where it leaves it; the drum travels towards -x.
  std::vector<double> place, depth;
};

/// What a drum does to a plain face as it passes, once the nip is steady.
///
/// The face sinks while it goes through, from 0 to its removal z_1: the nip carries less than on an
/// unworn face. By reciprocity a small sinking z(x) takes int phi z dx off the line load, phi being
/// the pressure that a unit of interference adds, so the nip works as an unworn one whose
/// interference is less by
///
///     r = int phi z dx / int phi dx,
///
/// which is z_1 / 2 where removal is in proportion to pressure. What of the second order is left is
/// a factor 1 / (1 + c (r / delta)^2), c fitted to the line model.
///
/// Against `line` within 2 % while r < delta / 6 (a pass that takes less than a third of the
/// interference), 6 % while r < delta / 3; see models/theory/fast_model.md.
///
/// @param coating       on the face [mm].
/// @param interference  against the face as it is [mm].
/// @param top           layer over the coating [mm].
[[nodiscard]] WearingPass wearing_pass(const DrumLaw& law, const Abrasion& abrasion, double coating,
                                       double interference, double top = 0);

/// Interference against the face as it is [mm] whose steady pass works at a line load.
[[nodiscard]] double interference_for(const DrumLaw& law, const Abrasion& abrasion, double coating,
                                      double working_line_load, double top = 0);

}  // namespace drumlin::sim::fast
