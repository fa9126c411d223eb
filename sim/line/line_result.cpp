#include "sim/line/line_result.hpp"

#include <algorithm>

#include "sim/drum_state.hpp"
#include "sim/line/edge_shape.hpp"
#include "sim/names.hpp"

namespace drumlin::sim::line {
namespace {

Quantity known(double value) {
  return Banded{.value = value, .low = {}, .high = {}};
}

Quantity known(std::optional<double> value) {
  return value ? known(*value) : Quantity{};
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

FaceResult face_result(const cases::Part& part, const PlainFace& face) {
  FaceResult result;
  result.removal = known(face.removed);
  if (part.coating) {
    result.coating_left = known(face.coating);
    result.coating_left_fraction = known(face.coating / part.coating->thickness);
  }
  return result;
}

/// Every distance to an edge from which on a limit asks for coating [mm].
std::vector<double> distances_of(const cases::Accept& accept) {
  std::vector<double> distances;
  for (const auto& limits : accept.features) {
    if (limits.beyond) distances.push_back(*limits.beyond);
  }
  std::sort(distances.begin(), distances.end());
  distances.erase(std::unique(distances.begin(), distances.end()), distances.end());
  return distances;
}

FeatureResult feature_result(const Setup& setup, const cases::Feature& feature, cases::Side side,
                             const Surface& surface,
                             const std::vector<std::vector<Recorder::EdgePeak>>& peaks) {
  FeatureResult result;
  result.name = edge_name(feature, side);
  result.feature = feature.name;
  result.kind = std::string(to_text(feature.kind));
  result.side = std::string(to_text(side));
  result.burr = std::visit([](const auto& burr) { return std::string(burr.name); }, feature.burr);
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
  for (const double distance : distances_of(setup.scenario.accept)) {
    if (!shape.coating_left || distance > readable) continue;
    // Farther out than the section is read the plain face goes on.
    const double left = std::min(coating_left(strip, edge, distance), surface.face.coating);
    result.coating_beyond.push_back({distance, known(left)});
  }
  result.coating_left = known(shape.coating_left);
  result.bare_length = known(shape.bare_length);
  const auto& peak = peaks[place->strip][place->edge];
  result.peak_pressure = known(peak.pressure);
  if (edge.reach > 0) result.peak_line_force = known(peak.burr_force);
  return result;
}

PartState part_state(const Setup& setup, const Surface& surface,
                     const std::vector<std::vector<Recorder::EdgePeak>>& peaks) {
  PartState state;
  state.face = face_result(setup.scenario.part, surface.face);
  for (const auto& feature : setup.scenario.part.features) {
    for (const auto side : sides_of(feature)) {
      state.features.push_back(feature_result(setup, feature, side, surface, peaks));
    }
  }
  return state;
}

}  // namespace

StatedAnswer state(const Setup& setup, const LineAnswer& answer, bool waves) {
  StatedAnswer stated;
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    const BeltSetup& station = setup.stations[i];
    const StaticNip& nip = answer.static_nips[i];
    const StationPass& first = answer.first[i];
    StationResult result;
    result.kind = "belt";
    result.description = station.description;
    result.line_load = known(nip.line_load);
    result.interference = known(first.interference);
    result.half_width = known(nip.half_width);
    result.peak_pressure = known(nip.peak_pressure);
    result.line_load_slope = known(nip.line_load_slope);
    result.working_line_load = known(first.plain.working_line_load);
    // F_t v with F_t = mu P'; what is cut and what is rubbed alike.
    result.power = known(station.friction * first.plain.working_line_load * station.sliding_speed);
    result.lean = known(nip.lean);
    result.rolling_loss = known(first.plain.rolling_loss);
    result.effective_interference = known(first.effective_interference);
    state_drum(station, result, waves);
    result.after = part_state(setup, answer.last[i].surface, answer.last[i].peaks);
    stated.stations.push_back(std::move(result));
  }
  stated.part = stated.stations.back().after;
  return stated;
}

}  // namespace drumlin::sim::line
