#include "sim/remedy/breaks.hpp"

#include <cmath>
#include <optional>

namespace drumlin::sim {

std::vector<Break> first_breaks(Trials& trials, const std::vector<Axis>& axes,
                                const Verdict& verdict) {
  std::vector<Break> breaks;
  const Trial& base = trials.base();
  for (const Axis& axis : axes) {
    for (const int way : {-1, +1}) {
      std::optional<Break> first;
      double first_place = 0;
      const Trial* before = &base;
      double place_before = 0;
      for (const double place : axis.places(way)) {
        const Trial& there = trials.at(axis.settings(place));
        if (!there.refused.empty()) break;
        for (std::size_t i = 0; i < base.limits.size(); ++i) {
          const auto& a = before->limits[i].margin;
          const auto& b = there.limits[i].margin;
          if (!a || !b || !base.limits[i].margin || *base.limits[i].margin < 0) continue;
          if (*a < 0 || *b >= 0) continue;
          const double at =
              axis.in_steps() ? place : place_before + (place - place_before) * *a / (*a - *b);
          if (first && std::abs(at) >= std::abs(first_place)) continue;
          first_place = at;
          first = Break{axis.index(), way, verdict.items[i].name, axis.share(at),
                        axis.text(axis.value(at))};
        }
        if (first) break;
        before = &there;
        place_before = place;
      }
      if (first) breaks.push_back(*first);
    }
  }
  return breaks;
}

}  // namespace drumlin::sim
