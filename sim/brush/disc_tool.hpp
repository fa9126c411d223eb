#pragma once

#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include "cases/case.hpp"
#include "models/brush/disc.hpp"
#include "models/brush/dragged.hpp"
#include "sim/disc_result.hpp"

namespace drumlin::sim {

/// How an edge lies under a brush.
struct EdgeLie {
  int metal = 1;  ///< side of the edge on which the metal lies, +1 or -1 along the section
  /// [mm] of the opening before it along the section; infinite before an outer edge.
  double opening = std::numeric_limits<double>::infinity();
  bool along_feed = false;  ///< the section runs across the feed, towards +y
};

/// What lies under a row of discs.
struct Fed {
  double width = 0;  ///< [mm] about the row's middle line; 0: as wide as the row
  /// One part, so that its sides lie at the ends of that width; of parts side by side each has its
  /// sides elsewhere, and the mean across is taken.
  bool one_lane = true;

  [[nodiscard]] bool operator==(const Fed&) const = default;
};

/// The part, or the lanes of it, as it is fed.
[[nodiscard]] Fed fed_width(const cases::Case& scenario) noexcept;

/// What discs do to an edge, per length of it; over the feed speed: in a pass.
struct DiscEdge {
  double slide = 0;     ///< force times length that flanks slide over it [N/s]
  double crossing = 0;  ///< force times way of the tips that cross it, per length of it [N/(mm s)]
  double onto = 0;      ///< filaments that come onto the metal [1/s]
  double off = 0;       ///< that run off it [1/s]
  double reversed = 0;  ///< of both, with one from the other side to go with [1/s]
  double peak_force = 0;   ///< of one of them [N]
  double flank_reach = 0;  ///< [mm] below the face
};

/// A row of discs over a part at one penetration, speed and feed: solved once, whatever it takes
/// off.
class DiscTool {
 public:
  DiscTool(const models::DiscBrush& brush, double penetration, double speed, double feed,
           const Fed& fed);

  /// On the face, per width of the part and mean over it.
  [[nodiscard]] const models::BrushContact& face() const noexcept { return face_; }
  [[nodiscard]] const DiscResult& motion() const noexcept { return motion_; }
  /// Mean speed of the tips over the part [mm/s].
  [[nodiscard]] double tip_speed() const noexcept { return motion_.tip_speed; }
  [[nodiscard]] DiscEdge edge(const EdgeLie& lie);

 private:
  [[nodiscard]] const models::LeanOnEdge& lean(double depth);
  void state_motion(double path, double count, const models::Rubbing& rubbing);

  models::DiscBrush brush_;
  double penetration_;
  double feed_;
  models::DraggedFilament dragged_;
  models::BrushContact face_;
  DiscResult motion_;
  /// Metal on the side of +x or -x, of +y or -y; the part's sides, metal towards +y or -y.
  models::EdgePassing along_[2], across_[2], sides_[2];
  std::vector<std::pair<double, models::LeanOnEdge>> leans_;  // by depth
};

}  // namespace drumlin::sim
