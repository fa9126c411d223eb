#pragma once

#include <functional>
#include <optional>
#include <stop_token>
#include <string_view>
#include <vector>

#include "sim/line/plain_nip.hpp"
#include "sim/line/recorder.hpp"
#include "sim/line/surface.hpp"

namespace drumlin::sim::line {

/// One station's doing in one pass of the line.
struct StationPass {
  double interference = 0;            ///< that the drum is set to, against the nominal face [mm]
  double effective_interference = 0;  ///< what the nip has of it, with growth and give [mm]
  PlainPass plain;                    ///< on the face as it then was
  Surface surface;                    ///< as it left the station
  std::vector<std::vector<Recorder::EdgePeak>> peaks;  ///< per strip and edge, up to then
};

/// What the line model finds for a set-up.
struct LineAnswer {
  std::vector<StaticNip> static_nips;  ///< per station, plain unworn face, first pass
  std::vector<StationPass> first;      ///< per station, in the first pass
  std::vector<StationPass> last;       ///< per station, in the last pass
  Surface unworn;
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
/// @throws NumericsError, Stopped.
[[nodiscard]] LineAnswer simulate(const Setup& setup, const LineOptions& options);

}  // namespace drumlin::sim::line
