#pragma once

#include <map>
#include <memory>
#include <utility>

#include "sim/fast/drum.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim::fast {

/// Numbers of a drum that its law may be interpolated over.
struct LadderAxes {
  bool modulus = false;  ///< of the cover, with hardness, temperature and strain on it
  bool speed = false;    ///< of the belt, with what it does to inertia, rate and tension
};

/// Whether two nips are one.
[[nodiscard]] bool same_nip(const models::BeltOnCover& a, const models::BeltOnCover& b);
[[nodiscard]] bool same_face(const DrumFace& a, const DrumFace& b);

/// Drums that differ in the cover's modulus, and perhaps the belt's speed, alone: made once on
/// fixed rungs, equal in the logarithm of either, and between them the cubic through the nearest
/// four of each.
///
/// A rung depends on its number and on what all rungs share, so a drum between rungs is the same
/// whatever was asked before. Against the drum itself: line load, half-width and kernel within
/// 1e-4, where waves of the cover are far off; see models/theory/fast_model.md.
class DrumLadder {
 public:
  /// What all rungs share: a nip but for the numbers on the axes, and what speed takes from the
  /// belt's tension.
  struct Family {
    models::BeltOnCover nip;
    DrumFace face;
    double deepest = 0;
    double set_tension = 0;  ///< T [N/mm] at rest
    double belt_mass = 0;    ///< m' [t/mm^2]
    LadderAxes axes;
  };

  DrumLadder(Family family, std::shared_ptr<KeptPairs> pairs)
      : family_(std::move(family)), pairs_(std::move(pairs)) {}

  [[nodiscard]] bool serves(const Family& family) const;

  /// The drum of a nip; none where it cannot be had between rungs.
  [[nodiscard]] std::unique_ptr<Drum> between(const models::BeltOnCover& nip);

 private:
  using Place = std::pair<int, int>;  // rung of modulus and of speed

  [[nodiscard]] std::shared_ptr<Drum> rung(Place place);
  [[nodiscard]] double tension_at(double speed) const;

  Family family_;
  std::shared_ptr<KeptPairs> pairs_;
  std::map<Place, std::shared_ptr<Drum>> rungs_;  // empty ones could not be made
};

/// Whether a station's drum may stand between rungs: far from waves that keep up with the belt.
[[nodiscard]] bool may_interpolate(const BeltSetup& station, double interference);

}  // namespace drumlin::sim::fast
