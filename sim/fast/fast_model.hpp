#pragma once

#include <optional>
#include <stop_token>
#include <vector>

#include "sim/answer.hpp"
#include "sim/fast/drums.hpp"
#include "sim/fast/part.hpp"
#include "sim/fast/wearing_pass.hpp"

namespace drumlin::sim::fast {

/// Drum on the plain, unworn face, nothing sliding.
struct StaticNip {
  double line_load = 0;        ///< P' [N/mm]
  double half_width = 0;       ///< a [mm]
  double peak_pressure = 0;    ///< p0 [MPa]
  double line_load_slope = 0;  ///< dP'/d(delta) [N/mm^2]
};

/// What a drum did to the plain face in one pass.
struct BeltPass {
  double interference = 0;            ///< that the drum is set to, against the nominal face [mm]
  double effective_interference = 0;  ///< what the nip has of it, with growth and give [mm]
  WearingPass plain;                  ///< on the face as it then was
};

/// One station's doing in one pass of the line.
struct StationPass {
  std::optional<BeltPass> belt;    ///< none at a station of another kind
  std::optional<BrushPass> brush;  ///< likewise
  Part part;                       ///< as it left the station
};

/// What the fast model finds for a set-up.
struct FastAnswer {
  /// Per station, plain unworn face, first pass; none at a station of another kind.
  std::vector<std::optional<StaticNip>> static_nips;
  std::vector<std::optional<BeltPass>> first;  ///< per station, in the first pass
  std::vector<StationPass> last;               ///< per station, in the last pass
};

/// Takes the part through every station, `passes` times: plain face by closed form, edges by small
/// solves in drum position.
///
/// The state that goes along is one: depth and layers of the plain face, height, burr metal and
/// layers of every cell beside an edge, what became of each burr, and which face lies up. Whatever
/// else changes over a pass (heat, dulling) belongs to the same state.
///
/// @param drums  of this line, kept from case to case.
/// @param start  the part as another line left it, cut for this line's drums too; none: unworn.
/// @throws NumericsError, Stopped.
[[nodiscard]] FastAnswer simulate(const Setup& setup, Drums& drums,
                                  const std::stop_token& stop = {}, const Part* start = nullptr);

/// Puts an answer of the fast model into the result's terms; what it does not give has no value.
///
/// @param waves  whether to look for the critical speed, which takes milliseconds.
[[nodiscard]] StatedAnswer state(const Setup& setup, const FastAnswer& answer, bool waves = true);

}  // namespace drumlin::sim::fast
