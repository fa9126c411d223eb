#include "sim/heat/heat_variations.hpp"

namespace drumlin::sim {

void add_heat_variations(std::vector<Variation>& list, const Setup& setup) {
  const HeatSetup& heat = setup.heat;
  if (!heat.part || heat.share_low >= heat.share_high) return;
  list.push_back({"heat into the part",
                  "share of the power that the part takes up as heat",
                  "-",
                  heat.share_low,
                  heat.share_high,
                  [low = heat.share_low, high = heat.share_high](Setup& s, bool to_high) {
                    s.heat.share = to_high ? high : low;
                  },
                  {}});
}

}  // namespace drumlin::sim
