#pragma once

#include "sim/line/passage.hpp"
#include "sim/line/surface.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::line {

/// Drum pressed on a plain, unworn face that does not wear.
struct StaticNip {
  double line_load = 0;        ///< P' [N/mm]
  double half_width = 0;       ///< a [mm], half of all that is pressed
  double peak_pressure = 0;    ///< p0 [MPa]
  double line_load_slope = 0;  ///< dP'/d(delta) [N/mm^2]
  double lean = 0;             ///< of the pressure's centroid from the axis, along +x [mm]
  double rolling_loss = 0;     ///< power that the cover turns into heat [mW/mm]
};

/// Smallest period that is used whatever a case asks for [mm]: 160 mm, eleven covers at least;
/// there images put 0.03 % on the line load of a 15 mm cover.
[[nodiscard]] double least_window(const BeltSetup& station);

/// Period of the cover's response that keeps images from speaking to each other [mm]: an 80 mm
/// window still put 2 % on the line load of a 15 mm cover, 160 mm 0.03 %; twice that is taken, or
/// twenty covers, or what the case asks for. A drum's own circumference, or a whole part of it that
/// is as wide, where its curvature is followed.
[[nodiscard]] double response_window(const BeltSetup& station, const cases::Numerics& numerics);

/// Half the width of patch that holds the contact at an interference, with room to spare [mm].
[[nodiscard]] double patch_half_span(const Drum& drum, double interference, double window);

[[nodiscard]] StaticNip static_nip(const Drum& drum, double interference, double window);

/// The steady wearing pass over a plain face.
struct PlainPass {
  double working_line_load = 0;  ///< P'_work [N/mm]
  double removal = 0;            ///< [mm], all layers
  double coating = 0;            ///< left [mm]
  double top = 0;                ///< layer over the coating, left [mm]
  double lean = 0;               ///< of the pressure's centroid from the axis, along +x [mm]
  double rolling_loss = 0;       ///< power that the cover turns into heat [mW/mm]
  SteadyNip nip;
};

/// The nip once it is steady on a plain face: contact and the removal of the columns that pass
/// through it, solved together.
///
/// @param interference  against the face as it is now [mm], so less what earlier passes took.
[[nodiscard]] PlainPass plain_pass(const Drum& drum, const PlainFace& face, double interference,
                                   double window);

/// Interference against the face as it is now [mm] whose steady pass works at a line load, to a
/// ten-thousandth of the load; to three thousandths where thresholds or layers forced marching.
///
/// @throws NumericsError if no interference up to the cover's thickness carries it.
[[nodiscard]] double interference_for(const BeltSetup& station, const PlainFace& face,
                                      double working_line_load, double window);

/// Interference at the plain face [mm] that is left of what the setting and the cover's growth give
/// when frame and bed yield to the working line load.
[[nodiscard]] double after_frame_give(const BeltSetup& station, const PlainFace& face, double rigid,
                                      double window);

}  // namespace drumlin::sim::line
