#include "sim/line/line_result.hpp"

#include <algorithm>

#include "sim/drum_state.hpp"
#include "sim/line/edge_shape.hpp"

namespace drumlin::sim::line {
namespace {

Quantity known(std::optional<double> value) {
  return value ? sim::known(*value) : Quantity{};
}

/// Where an edge lies among the strips.
struct Place {
  std::size_t strip;
  std::size_t edge;
};

std::optional<Place> find_edge(const Surface& surface, std::string_view name) {
  for (std::size_t k = 0; k < surface.strips.size(); ++k) {
    const auto& edges = surface.strips[k].edges;
    for (std::size_t e = 0; e < edges.size(); ++e) {
      if (edges[e].name == name) return Place{k, e};
    }
  }
  return std::nullopt;
}

FeatureResult feature_result(const Setup& setup, const cases::Feature& feature, cases::Side side,
                             const Surface& surface) {
  FeatureResult result = state_edge(feature, side);
  const auto place = find_edge(surface, result.name);
  if (!place) {
    result.note =
        "an edge along the feed needs a section along the drum, which the line model does not have";
    return result;
  }
  const Strip& strip = surface.strips[place->strip];
  const StripEdge& edge = strip.edges[place->edge];
  result.section = strip.name;
  const EdgeShape shape =
      edge_shape(strip, edge, surface.face.removed, setup.scenario.part.coating.has_value());
  result.burr_height = known(shape.burr_height);
  result.edge_drop = known(shape.drop);
  if (shape.rounding) {
    result.edge_radius = known(shape.rounding->radius);
    result.edge_radius_fit = known(shape.rounding->misfit);
  } else {
    result.note = "a burr still stands on the edge: it has no radius yet";
  }
  for (const double distance : coating_distances(setup.scenario.accept)) {
    if (!shape.coating_left || distance > readable) continue;
    // Farther out than the section is read the plain face goes on.
    const double left = std::min(coating_left(strip, edge, distance), surface.face.coating);
    result.coating_beyond.push_back({distance, known(left)});
  }
  result.coating_left = known(shape.coating_left);
  result.bare_length = known(shape.bare_length);
  result.peak_pressure = known(edge.peak_pressure);
  if (edge.reach > 0) result.peak_line_force = known(edge.peak_force);
  return result;
}

}  // namespace

StatedAnswer state(const Setup& setup, const LineAnswer& answer, bool waves) {
  StatedAnswer stated;
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    const BeltSetup& station = setup.belt(i);
    const StaticNip& nip = answer.static_nips[i].value();
    const BeltPass& first = answer.first[i].belt.value();
    StationResult result =
        state_station(station, {.line_load = nip.line_load,
                                .half_width = nip.half_width,
                                .peak_pressure = nip.peak_pressure,
                                .line_load_slope = nip.line_load_slope,
                                .interference = first.interference,
                                .effective_interference = first.effective_interference,
                                .working_line_load = first.plain.working_line_load});
    result.lean = known(nip.lean);
    result.rolling_loss = known(first.plain.rolling_loss);
    state_drum(station, result, waves);
    const StationPass& last = answer.last[i];
    const cases::Part& part = setup.scenario.part;
    const PlainFace& face = last.part.burrs.face;
    result.after = state_part(part, state_face(part, face.removed, face.coating),
                              [&](const cases::Feature& feature, cases::Side side) {
                                return feature_result(setup, feature, side, last.part.burrs);
                              });
    stated.stations.push_back(std::move(result));
  }
  stated.part = stated.stations.back().after;
  return stated;
}

}  // namespace drumlin::sim::line
