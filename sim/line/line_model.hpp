#pragma once

#include <functional>
#include <optional>
#include <stop_token>
#include <string_view>
#include <vector>

#include "sim/answer.hpp"
#include "sim/line/plain_nip.hpp"
#include "sim/line/recorder.hpp"
#include "sim/line/surface.hpp"

namespace drumlin::sim::line {

/// What a drum did to the plain face in one pass.
struct BeltPass {
  double interference = 0;            ///< that the drum is set to, against the nominal face [mm]
  double effective_interference = 0;  ///< what the nip has of it, with growth and give [mm]
  PlainPass plain;                    ///< on the face as it then was
};

/// One station's doing in one pass of the line.
struct StationPass {
  std::optional<BeltPass> belt;    ///< none at a station of another kind
  std::optional<BrushPass> brush;  ///< likewise
  PartSurface part;                ///< as it left the station
};

/// What the line model finds for a set-up.
struct LineAnswer {
  /// Per station, plain unworn face, first pass; none at a station of another kind.
  std::vector<std::optional<StaticNip>> static_nips;
  std::vector<StationPass> first;  ///< per station, in the first pass
  std::vector<StationPass> last;   ///< per station, in the last pass
  PartSurface unworn;
  std::vector<SectionRecord> records;  ///< empty unless asked for
};

struct LineOptions {
  Fineness fineness;
  int frames = 0;  ///< kept per section over the whole run; 0: nothing is recorded
  std::function<void(double share, std::string_view what)> progress;
  std::stop_token stop;
};

/// Takes the part through every station, `passes` times, section by section.
///
/// @param start  the part as another line left it, cut for this line's drums too; none: unworn.
/// @throws NumericsError, Stopped.
[[nodiscard]] LineAnswer simulate(const Setup& setup, const LineOptions& options,
                                  const PartSurface* start = nullptr);

}  // namespace drumlin::sim::line
