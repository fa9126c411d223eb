#include <algorithm>
#include <string>
#include <variant>

#include "sim/drum_state.hpp"
#include "sim/fast/fast_model.hpp"

namespace drumlin::sim::fast {
namespace {

/// The rim that a name belongs to, and its section; none for an edge along the feed.
std::pair<const Section*, const SectionRim*> find_rim(const std::vector<Section>& sections,
                                                      const std::string& name) {
  for (const Section& section : sections) {
    for (const SectionRim& rim : section.rims) {
      if (rim.name == name) return {&section, &rim};
    }
  }
  return {nullptr, nullptr};
}

FeatureResult feature_result(const Setup& setup, const cases::Feature& feature, cases::Side side,
                             const StationPass& pass) {
  FeatureResult result = state_edge(feature, side);
  const auto [section, rim] = find_rim(pass.sections, result.name);
  if (rim == nullptr) {
    result.note =
        "an edge along the feed needs a section along the drum, which the fast model does not have";
    return result;
  }
  const PlainFace& face = pass.face;
  if (rim->reach > 0) {
    result.burr_height = known(burr_height(*section, *rim, face));
    result.peak_line_force = known(rim->peak_force);
  }
  result.edge_drop = known(edge_drop(*section, *rim, face));
  result.peak_pressure = known(rim->peak_pressure);
  result.note = "the fast model gives no edge radius and no bare length";
  if (!setup.scenario.part.coating) return result;
  result.coating_left = known(coating_left(*section, *rim, face, 0.0));
  for (const double distance : coating_distances(setup.scenario.accept))
    result.coating_beyond.push_back(
        {distance, known(coating_left(*section, *rim, face, distance))});
  return result;
}

}  // namespace

StatedAnswer state(const Setup& setup, const FastAnswer& answer, bool waves) {
  StatedAnswer stated;
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    const BeltSetup& station = setup.belt(i);
    const StaticNip& nip = answer.static_nips[i];
    const StationPass& first = answer.first[i];
    StationResult result =
        state_station(station, {.line_load = nip.line_load,
                                .half_width = nip.half_width,
                                .peak_pressure = nip.peak_pressure,
                                .line_load_slope = nip.line_load_slope,
                                .interference = first.interference,
                                .effective_interference = first.effective_interference,
                                .working_line_load = first.plain.working_line_load});
    state_drum(station, result, waves);
    const StationPass& last = answer.last[i];
    const cases::Part& part = setup.scenario.part;
    result.after = state_part(part, state_face(part, last.face.removed, last.face.coating),
                              [&](const cases::Feature& feature, cases::Side side) {
                                return feature_result(setup, feature, side, last);
                              });
    stated.stations.push_back(std::move(result));
  }
  stated.part = stated.stations.back().after;
  return stated;
}

}  // namespace drumlin::sim::fast
