#pragma once

#include <optional>
#include <vector>

#include "sim/remedy/axis.hpp"

namespace drumlin::sim {

/// Two knobs turned together.
struct PairPlace {
  std::size_t one = 0, other = 0;  ///< of the axes
  double at = 0, other_at = 0;     ///< places
  double worst = 0;                ///< least margin over its limit there [-]
  double change = 0;               ///< of both [-]

  [[nodiscard]] Settings settings(const std::vector<Axis>& axes) const;
};

struct PairSearch {
  std::vector<PairPlace> found;      ///< all limits met; least change first
  std::optional<PairPlace> nearest;  ///< where none is found
};

/// Evaluations that the search may take.
inline constexpr int pair_evaluations = 400;

/// Looks for two settings with which every limit is met.
///
/// What single knobs do was looked at before: margins are taken to add up, which costs nothing and
/// orders the pairs and the places of each. The best four pairs are tried at their best 24 places;
/// from the best that holds, the change is made smaller knob by knob, by halving. No promise that
/// there is nothing nearer.
[[nodiscard]] PairSearch search_pairs(Trials& trials, const std::vector<Axis>& axes);

}  // namespace drumlin::sim
