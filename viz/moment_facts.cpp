#include "viz/moment_facts.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "viz/section_view.hpp"
#include "viz/sheet.hpp"

namespace drumlin::viz {

Range contact(const sim::SectionRecord& section, const sim::Frame& frame) {
  Range out{frame.drum_x, frame.drum_x};
  for (std::size_t i = 0; i < section.x.size(); ++i) {
    if (!(frame.pressure.at(i) > 0)) continue;
    out.low = std::min(out.low, section.x[i]);
    out.high = std::max(out.high, section.x[i]);
  }
  return out;
}

FacePressure face_pressure(const sim::SectionRecord& section, const sim::Frame& frame) {
  constexpr double distance = 1.0;  // [mm] the edges' neighbourhood, for the scale only
  FacePressure highest;
  for (std::size_t i = 0; i < section.x.size(); ++i) {
    const bool plain = std::none_of(
        section.edges.begin(), section.edges.end(),
        [&](const sim::SectionEdge& edge) { return std::abs(section.x[i] - edge.x) < distance; });
    if (plain && frame.pressure.at(i) > highest.value) highest = {frame.pressure[i], section.x[i]};
  }
  return highest;
}

const char* burr_or_edge(const sim::SectionRecord& section, const sim::Frame& frame,
                         const sim::SectionEdge& edge) {
  constexpr double least = 2e-3;  // [mm] lower steps are what is left of a burr's root
  if (edge.burr_height <= 0) return "edge";
  const auto surface = [&](double depth) {
    return value_at(section.x, frame.surface, edge.x + edge.metal * depth);
  };
  const auto beside = surface(1.2 * edge.burr_root + 0.05);
  for (const double share : {0.1, 0.3, 0.5, 0.7, 0.9}) {
    const auto here = surface(share * edge.burr_root);
    if (here && beside && *here > *beside + least) return "burr";
  }
  return frame.underside.empty() ? "edge" : "burr";
}

double highest_pressure(const sim::Frame& frame) {
  return frame.pressure.empty() ? 0
                                : *std::max_element(frame.pressure.begin(), frame.pressure.end());
}

double highest_pressure(const sim::SectionRecord& section, const sim::Frame& frame,
                        const Range& stretch) {
  const auto found = extent(section.x, frame.pressure, stretch);
  return found ? std::max(found->high, 0.0) : 0.0;
}

std::string moment_why(const sim::Result& result, const sim::SectionRecord& section,
                       const sim::Frame& frame) {
  const sim::SectionEdge* edge = busiest_edge(section, frame);
  const double beside = face_pressure(section, frame).value;
  const double highest = highest_pressure(frame);
  if (edge == nullptr)
    return fmt::format("The belt presses with up to {} here.", pressure_text(highest));
  if (beside < 0.01 * highest)
    return fmt::format("The belt meets the {} with {} before it lies on the face.",
                       burr_or_edge(section, frame, *edge), pressure_text(highest));
  const double ratio = highest / plain_face_pressure(result, frame.station).value_or(beside);
  const char* what = burr_or_edge(section, frame, *edge);
  if (ratio < 1.5)
    return fmt::format("The {} carries {}, about what the plain face carries.", what,
                       pressure_text(highest));
  return fmt::format(
      "The {} stands into the belt and the cover cannot follow so short a step: it carries {}, "
      "{} the plain face.",
      what, pressure_text(highest), times_text(ratio));
}

}  // namespace drumlin::viz
