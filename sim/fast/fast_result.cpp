#include <algorithm>
#include <string>
#include <variant>

#include "sim/drum_state.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/line/surface.hpp"
#include "sim/names.hpp"

namespace drumlin::sim::fast {
namespace {

Quantity known(double value) {
  return Banded{.value = value, .low = {}, .high = {}};
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
  FeatureResult result;
  result.name = line::edge_name(feature, side);
  result.feature = feature.name;
  result.kind = std::string(to_text(feature.kind));
  result.side = std::string(to_text(side));
  result.burr = std::visit([](const auto& burr) { return std::string(burr.name); }, feature.burr);
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
  for (const double distance : distances_of(setup.scenario.accept))
    result.coating_beyond.push_back(
        {distance, known(coating_left(*section, *rim, face, distance))});
  return result;
}

PartState part_state(const Setup& setup, const StationPass& pass) {
  PartState state;
  state.face = face_result(setup.scenario.part, pass.face);
  for (const auto& feature : setup.scenario.part.features) {
    for (const auto side : line::sides_of(feature))
      state.features.push_back(feature_result(setup, feature, side, pass));
  }
  return state;
}

}  // namespace

StatedAnswer state(const Setup& setup, const FastAnswer& answer, bool waves) {
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
    result.effective_interference = known(first.effective_interference);
    state_drum(station, result, waves);
    result.after = part_state(setup, answer.last[i]);
    stated.stations.push_back(std::move(result));
  }
  stated.part = stated.stations.back().after;
  return stated;
}

}  // namespace drumlin::sim::fast
