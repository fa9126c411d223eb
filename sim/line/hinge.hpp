#pragma once

#include <cstddef>
#include <span>

#include "sim/line/strip.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::line {

/// What presses on a burr in one step, per length of edge.
struct BurrLoad {
  double normal = 0;  ///< f_n [N/mm]
  double moment = 0;  ///< on the hinge, towards where the burr would fall, grains counted [N]
  double limit = 0;   ///< plastic moment of the hinge [N]
};

/// Bends the burr of one edge at its root.
///
/// The burr is rigid and its hinge perfectly plastic: it turns until the moment of normal force and
/// drag on the hinge is back at the plastic moment. Away from the metal it becomes a lip over the
/// opening, which later pressure may push on; towards the metal it falls flat onto the face.
/// Derivation, and what is left out: models/theory/fold.md.
///
/// Made before a pass, for that pass. What changes is in the strip and its edge, so that a strip
/// may be put back to an earlier copy of itself between two turns.
class Hinge {
 public:
  /// @param edge  index among the strip's edges.
  Hinge(const BeltSetup& station, Strip& strip, std::size_t edge);
  /// For a tool that tells itself when a burr gives way.
  /// @param drag  way along x that it drags, +1 or -1.
  Hinge(int drag, Strip& strip, std::size_t edge);

  /// Whether there is a burr that can bend.
  [[nodiscard]] bool bends() const noexcept;
  /// Whether it falls away from the metal.
  [[nodiscard]] bool falls_outward() const noexcept;
  /// Load of a step's pressure [MPa] on patch cells, counted from strip cell `first`.
  [[nodiscard]] BurrLoad load(std::size_t first, std::span<const double> pressure) const;
  /// Angle from upright [rad].
  [[nodiscard]] double turn() const noexcept;

  /// Lays the burr flat onto the face; its metal is kept.
  void lay_on_face();
  /// Turns the burr beyond its edge to an angle from upright; its metal is kept.
  void turn_to(double angle);
  /// Drops what wear has ground through.
  void clean_up();

 private:
  [[nodiscard]] StripEdge& edge() const noexcept { return strip_->edges[edge_]; }
  [[nodiscard]] std::size_t lip_cells() const noexcept;
  [[nodiscard]] double out(std::size_t cell) const noexcept;
  [[nodiscard]] models::WeakestSection section() const noexcept;
  [[nodiscard]] double foot_share() const noexcept;
  [[nodiscard]] double burr_area() const noexcept;
  void stand_up_as_lip();

  Strip* strip_;
  std::size_t edge_;
  int drag_;             // way along x that the belt drags
  double friction_ = 0;  // of the drag across the edge [-]
  double grain_spacing_ = 0;
  double face_;  // level of the plain face before the pass [mm]
};

/// The wall that stands on an edge, as a plate of even thickness; of length 0 where none does.
[[nodiscard]] models::Lip standing_plate(const Strip& strip, const StripEdge& edge);

/// Plates laid over an opening that an edge's burr starts with (a rolled burr).
void lay_rolled_burr(Strip& strip, StripEdge& edge, const models::RolledBurr& burr);

}  // namespace drumlin::sim::line
