#include "sim/line/strip.hpp"

namespace drumlin::sim::line {

void shed_burr(Strip& strip, StripEdge& edge) {
  for (std::size_t i = 0; i < edge.reach; ++i) {
    const std::size_t cell = Strip::inward(edge, i);
    strip.height[cell] -= strip.burr[cell];
    strip.burr[cell] = 0.0;
  }
  edge.broken_off = true;
}

}  // namespace drumlin::sim::line
