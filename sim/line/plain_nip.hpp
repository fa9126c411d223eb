#pragma once

#include "sim/line/surface.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::line {

/// Drum pressed on a plain, unworn face, nothing sliding.
struct StaticNip {
  double line_load = 0;        ///< P' [N/mm]
  double half_width = 0;       ///< a [mm]
  double peak_pressure = 0;    ///< p0 [MPa]
  double line_load_slope = 0;  ///< dP'/d(delta) [N/mm^2]
};

/// Smallest period that is used whatever a case asks for [mm]: 160 mm, eleven covers at least;
/// there images put 0.03 % on the line load of a 15 mm cover.
[[nodiscard]] double least_window(const BeltSetup& station);

/// Period of the cover's response that keeps images from speaking to each other [mm]: an 80 mm
/// window still put 2 % on the line load of a 15 mm cover, 160 mm 0.03 %; twice that is taken, or
/// twenty covers, or what the case asks for.
[[nodiscard]] double response_window(const BeltSetup& station, const cases::Numerics& numerics);

/// Half the width of patch that holds the contact at an interference, with room to spare [mm].
[[nodiscard]] double patch_half_span(const BeltSetup& station, double interference, double window);

[[nodiscard]] StaticNip static_nip(const BeltSetup& station, double interference, double window);

/// The steady wearing pass over a plain face.
struct PlainPass {
  double working_line_load = 0;  ///< P'_work [N/mm]
  double removal = 0;            ///< [mm], all layers
  double coating = 0;            ///< left [mm]
};

/// Runs the drum over a plain face until the nip is steady.
///
/// @param interference  against the face as it is now [mm], so less what earlier passes took.
/// @param steps         per passage, as for strips: a fifth of them go over the half patch.
[[nodiscard]] PlainPass plain_pass(const BeltSetup& station, const PlainFace& face,
                                   double interference, double window, int steps = 400);

/// Interference against the face as it is now [mm] whose steady pass works at a line load, to a
/// ten-thousandth of the load.
///
/// @throws NumericsError if no interference up to the cover's thickness carries it.
[[nodiscard]] double interference_for(const BeltSetup& station, const PlainFace& face,
                                      double working_line_load, double window, int steps = 400);

}  // namespace drumlin::sim::line
