#pragma once

#include <cstddef>
#include <deque>
#include <utility>
#include <vector>

#include "models/brush/edge.hpp"
#include "models/brush/lip_fatigue.hpp"
#include "models/burr/fold.hpp"
#include "sim/brush/edge_wear.hpp"
#include "sim/part_faces.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// What the tips of a brush do to one edge in a pass, per length of edge.
struct Strokes {
  EdgeWork work;           ///< on the base metal
  double strikes = 0;      ///< filaments that cross it [1/mm]
  double peak_force = 0;   ///< of one of them [N]
  double flank_reach = 0;  ///< [mm] below the face; 0 where tips leave the metal
};

/// What a brush's strikes do to a burr that stands, lies or hangs.
struct LipStrikes {
  bool bends = false;    ///< a single strike turns its root
  double life_used = 0;  ///< strikes of the pass over those to break [-]
};

/// Forces of a brush at one penetration and speed, on the face and on edges: solved once, whatever
/// it takes off and however fast the part runs.
class BrushTool {
 public:
  BrushTool(const models::AnyBrush& brush, double penetration, double speed);

  [[nodiscard]] const models::BrushContact& face() const noexcept { return face_; }
  [[nodiscard]] double penetration() const noexcept { return penetration_; }
  [[nodiscard]] bool serves(const models::AnyBrush& brush, double penetration, double speed) const;

  /// Forces on an edge.
  ///
  /// @param opening  length of the opening before it along the feed [mm]; infinite before an outer
  ///                 edge. Tips hang into a short one less deep than they are set.
  [[nodiscard]] const models::EdgeContact& edge(models::EdgeSide side, double opening);

 private:
  models::AnyBrush brush_;
  double penetration_;
  double speed_;
  models::BrushContact face_;
  models::EdgeContact off_, onto_;
  std::vector<std::pair<double, models::EdgeContact>> openings_;  // by length
};

/// The brushes of a line, kept from case to case.
class BrushTools {
 public:
  /// The tool of a station; stays until so many other settings have been asked for.
  BrushTool& of(const BrushSetup& station);

 private:
  std::deque<BrushTool> tools_;
};

/// Normal work per area of face in one pass [N/mm]: K times it is the depth lost.
[[nodiscard]] double rubbed(const BrushSetup& station, const BrushTool& tool);

/// Rubs the plain face.
void rub_face(const BrushSetup& station, double rubbed, PlainFace& face);

/// @param metal    on which side of the edge the metal lies, +1 or -1 along x; the part runs to +x.
/// @param opening  as in BrushTool::edge.
[[nodiscard]] Strokes strokes_on(const BrushSetup& station, BrushTool& tool, int metal,
                                 double opening);

/// @param lip          turned by 0 it is a wall that stands.
/// @param flow_stress  of its root [MPa].
[[nodiscard]] LipStrikes strike_lip(const BrushSetup& station, const BrushTool& tool,
                                    const Strokes& strokes, const models::Lip& lip,
                                    double flow_stress);

}  // namespace drumlin::sim
