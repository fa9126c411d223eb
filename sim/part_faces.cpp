#include "sim/part_faces.hpp"

#include <algorithm>

namespace drumlin::sim {

PlainFace unworn_face(const cases::Part& part, FaceSide side) {
  if (!part.coating) return {};
  return {.removed = 0.0,
          .coating =
              side == FaceSide::burrs ? part.coating->thickness : part.coating->reverse_thickness,
          .top = part.coating->top ? part.coating->top->thickness : 0.0};
}

bool meets_reverse(const Setup& setup) {
  const auto met = cases::meetings<FlipSetup>(setup.scenario.part.burr_side,
                                              setup.scenario.conveyor.passes, setup.stations);
  return std::any_of(met.begin(), met.end(), [](const auto& meeting) { return !meeting.burrs_up; });
}

double tallest_burr(const cases::Part& part) {
  double tallest = 0.0;
  for (const auto& feature : part.features)
    tallest = std::max(tallest, models::height_of(feature.burr));
  return tallest;
}

}  // namespace drumlin::sim
