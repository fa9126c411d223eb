#pragma once

#include <cmath>
#include <vector>

#include "models/brush/sweep.hpp"

namespace drumlin::models {

/// What the next touch will be like if things go on as between the last two.
[[nodiscard]] inline Touch extrapolated(const SweepPoint& a, const SweepPoint& b,
                                        double hub_angle) {
  const double t = (hub_angle - b.hub_angle) / (b.hub_angle - a.hub_angle);
  const auto on = [t](double from, double to) { return to + t * (to - from); };
  Touch guess = b.touch;
  guess.normal_force = on(a.touch.normal_force, b.touch.normal_force);
  guess.angle = on(a.touch.angle, b.touch.angle);
  guess.x = on(a.touch.x, b.touch.x);
  guess.length = on(a.touch.length, b.touch.length);
  return guess;
}

/// Follows a touch over the hub angle, or over whatever moves its holder, until it ends; strides
/// are halved where it is hard to follow.
///
/// @param solve  the touch at a hub angle from a guess, or no value.
/// @param ended  whether a touch is the last one.
template <class Solve, class Ended>
void follow(std::vector<SweepPoint>& points, double stride, double farthest, Solve&& solve,
            Ended&& ended) {
  constexpr int finest = 5;  // halvings: the end is found to 1 / 32 of a stride
  constexpr int finest_at_start = 14;
  int halvings = 0;
  while (points.back().hub_angle < farthest) {
    const SweepPoint& last = points.back();
    const double angle = last.hub_angle + std::ldexp(stride, -halvings);
    const auto touch = points.size() > 1
                           ? solve(angle, extrapolated(*(points.end() - 2), last, angle))
                           : solve(angle, last.touch);
    if (!touch) {
      if (++halvings > (points.size() > 2 ? finest : finest_at_start)) return;
      continue;
    }
    points.push_back({angle, *touch});
    if (ended(*touch)) return;
    if (halvings > 0 && points.size() % 2 == 0) --halvings;
  }
}

}  // namespace drumlin::models
