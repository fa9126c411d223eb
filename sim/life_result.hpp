#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/part_result.hpp"
#include "sim/verdict_result.hpp"

namespace drumlin::sim {

/// How long the belt of a station lasts.
struct BeltLife {
  int station = 0;  ///< index
  Quantity parts;   ///< off the line until its end of life [-]
  Quantity time;    ///< of running [s]
  Quantity length;  ///< [mm] of sheet past each place of the belt
  double worn_share =
      1;               ///< removal coefficient at the end over the fresh one [-], loading counted
  std::string origin;  ///< "the case", or by which grinding ratio
};

/// What the line makes once so many parts have gone through.
struct LifePoint {
  std::string when;  ///< "fresh", "half life", "end of life"
  double parts = 0;
  double time = 0;                ///< [s]
  std::vector<double> sharpness;  ///< K over the fresh belt's [-], one per belt
  PartState part;
  double power = 0;  ///< [mW/mm] of all stations
  Verdict verdict;
};

/// The same line with fresh, half-used and worn-out belts; brushes are taken as moved in as they
/// wear.
struct LifeStudy {
  std::string model;  ///< what computed it: "fast" or "line", coarse
  std::vector<BeltLife> belts;
  std::vector<LifePoint> points;
  /// Parts after which the first limit is lost; no value where none is lost before the first
  /// belt's end of life, where one is lost from the start, or where none is given.
  Quantity lost_after;
  std::string lost;  ///< name of the item that is lost
  /// Feed at which the face loses at the end what it loses with fresh belts [mm/s].
  std::optional<double> feed_for_equal_removal;
  double feed = 0;  ///< of the case [mm/s]
};

}  // namespace drumlin::sim
