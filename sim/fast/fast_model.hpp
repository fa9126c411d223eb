#pragma once

#include <stop_token>
#include <vector>

#include "sim/answer.hpp"
#include "sim/fast/drums.hpp"
#include "sim/fast/section.hpp"

namespace drumlin::sim::fast {

/// Drum on the plain, unworn face, nothing sliding.
struct StaticNip {
  double line_load = 0;        ///< P' [N/mm]
  double half_width = 0;       ///< a [mm]
  double peak_pressure = 0;    ///< p0 [MPa]
  double line_load_slope = 0;  ///< dP'/d(delta) [N/mm^2]
};

/// One station's doing in one pass of the line.
struct StationPass {
  double interference = 0;            ///< that the drum is set to, against the nominal face [mm]
  double effective_interference = 0;  ///< what the nip has of it, with growth and give [mm]
  WearingPass plain;                  ///< on the face as it then was
  PlainFace face;                     ///< as it left the station
  std::vector<Section> sections;      ///< as they left the station
};

/// What the fast model finds for a set-up.
struct FastAnswer {
  std::vector<StaticNip> static_nips;  ///< per station, first pass
  std::vector<StationPass> first;      ///< per station, in the first pass
  std::vector<StationPass> last;       ///< per station, in the last pass
};

/// Takes the part through every station, `passes` times: plain face by closed form, edges by small
/// solves in drum position.
///
/// The state that goes along is one: depth and coating of the plain face, height, burr metal and
/// coating of every cell beside an edge. Whatever else changes over a pass (heat, dulling) belongs
/// to the same state.
///
/// @param drums  of this line, kept from case to case.
/// @throws NumericsError, Stopped.
[[nodiscard]] FastAnswer simulate(const Setup& setup, Drums& drums,
                                  const std::stop_token& stop = {});

/// Puts an answer of the fast model into the result's terms; what it does not give has no value.
///
/// @param waves  whether to look for the critical speed, which takes milliseconds.
[[nodiscard]] StatedAnswer state(const Setup& setup, const FastAnswer& answer, bool waves = true);

}  // namespace drumlin::sim::fast
