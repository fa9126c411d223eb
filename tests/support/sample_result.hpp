#pragma once

#include "sim/result.hpp"

namespace drumlin::support {

/// Closed-form numbers behind the sample: one pass of a soft drum over a punched hole.
struct Sample {
  double hole = 6;               ///< [mm] diameter
  double burr_height = 0.15;     ///< [mm]
  double burr_root = 0.15;       ///< [mm]
  double coating = 0.020;        ///< [mm]
  double removal = 0.0117;       ///< [mm] of the far face
  double edge_drop = 0.045;      ///< [mm] at the edge line
  double drop_reach = 0.08;      ///< [mm] over which the drop fades by e
  double half_width = 9.054;     ///< [mm]
  double face_pressure = 0.103;  ///< [MPa]
  double burr_pressure = 4.5;    ///< [MPa] of an unworn burr in the middle of the nip
  double line_load = 1.0;        ///< [N/mm]
  double radius = 100;           ///< [mm]
  double interference = 0.5;     ///< [mm]
  int frames = 60;
};

/// A result as a run would give it, from closed-form shapes: parabolic nip pressure, a wall burr on
/// the trailing rim of a hole, worn down in the course of the pass. For the tests of the writers;
/// no number in it is a prediction.
[[nodiscard]] sim::Result sample_result(const Sample& sample = {});

/// Display points of the sample's section: 0.004 mm apart at the edges, coarse far away [mm].
[[nodiscard]] std::vector<double> sample_points(const Sample& sample = {});

}  // namespace drumlin::support
