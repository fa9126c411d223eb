#pragma once

#include <cstddef>
#include <deque>
#include <optional>
#include <utility>
#include <vector>

#include "models/brush/edge.hpp"
#include "models/brush/lip_fatigue.hpp"
#include "models/burr/fold.hpp"
#include "sim/brush/disc_tool.hpp"
#include "sim/brush/edge_wear.hpp"
#include "sim/part_faces.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {

/// What the tips of a brush do to one edge in a pass, per length of edge.
struct Strokes {
  EdgeWork work;           ///< on the base metal
  double strikes = 0;      ///< filaments that cross it [1/mm]
  double reversed = 0;     ///< of them, those that have one from the other side to go with [1/mm]
  int way = 0;             ///< the way that most of them run along the section, +1 or -1
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
  BrushTool(const BrushSetup& station, const Fed& fed);

  /// Per width of drum; of discs, per width of the part and mean over it.
  [[nodiscard]] const models::BrushContact& face() const noexcept {
    return disc_ ? disc_->face() : face_;
  }
  /// That wears it: of discs, the contact of the whole row.
  [[nodiscard]] const models::BrushContact& whole() const noexcept { return face_; }
  [[nodiscard]] double penetration() const noexcept { return penetration_; }
  /// Speed with which tips strike [mm/s].
  [[nodiscard]] double tip_speed() const noexcept { return disc_ ? disc_->tip_speed() : speed_; }
  [[nodiscard]] bool serves(const BrushSetup& station, const Fed& fed) const;
  /// A row of discs, where it is one.
  [[nodiscard]] DiscTool* disc() noexcept { return disc_ ? &*disc_ : nullptr; }

  /// Forces of a roller on an edge.
  ///
  /// @param opening  length of the opening before it along the feed [mm]; infinite before an outer
  ///                 edge. Tips hang into a short one less deep than they are set.
  [[nodiscard]] const models::EdgeContact& edge(models::EdgeSide side, double opening);

 private:
  models::AnyBrush brush_;
  double penetration_;
  double speed_;
  double feed_;
  Fed fed_;
  models::BrushContact face_;
  std::optional<DiscTool> disc_;
  models::EdgeContact off_, onto_;
  std::vector<std::pair<double, models::EdgeContact>> openings_;  // by length
};

/// The brushes of a line, kept from case to case.
class BrushTools {
 public:
  /// The tool of a station; stays until so many other settings have been asked for.
  BrushTool& of(const BrushSetup& station, const Fed& fed);

 private:
  std::deque<BrushTool> tools_;
};

/// Normal work per area of face in one pass [N/mm]: K times it is the depth lost.
[[nodiscard]] double rubbed(const BrushSetup& station, const BrushTool& tool);

/// Rubs the plain face.
void rub_face(const BrushSetup& station, double rubbed, PlainFace& face);

/// What the tips do to an edge; the part runs to +x. Along the feed only discs strike edges.
[[nodiscard]] Strokes strokes_on(const BrushSetup& station, BrushTool& tool, const EdgeLie& lie);

/// @param lip          turned by 0 it is a wall that stands.
/// @param flow_stress  of its root [MPa].
[[nodiscard]] LipStrikes strike_lip(const BrushSetup& station, const BrushTool& tool,
                                    const Strokes& strokes, const models::Lip& lip,
                                    double flow_stress);

}  // namespace drumlin::sim
