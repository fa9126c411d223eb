#include "sim/answer.hpp"

#include <algorithm>
#include <utility>
#include <variant>

#include "sim/names.hpp"

namespace drumlin::sim {

Quantity known(double value) {
  return Banded{.value = value, .low = {}, .high = {}};
}

std::vector<cases::Side> sides_of(const cases::Feature& feature) {
  if (feature.side) return {*feature.side};
  return {cases::Side::leading, cases::Side::trailing, cases::Side::side};
}

std::string edge_name(const cases::Feature& feature, cases::Side side) {
  if (feature.side) return feature.name;
  return feature.name + ":" + std::string(to_text(side));
}

StationResult state_station(const BeltSetup& station, const NipNumbers& nip) {
  StationResult result;
  result.kind = "belt";
  result.description = station.description;
  result.line_load = known(nip.line_load);
  result.interference = known(nip.interference);
  result.half_width = known(nip.half_width);
  result.peak_pressure = known(nip.peak_pressure);
  result.line_load_slope = known(nip.line_load_slope);
  result.working_line_load = known(nip.working_line_load);
  // F_t v with F_t = mu P'; what is cut and what is rubbed alike.
  result.power = known(station.friction * nip.working_line_load * station.sliding_speed);
  result.effective_interference = known(nip.effective_interference);
  return result;
}

FaceResult state_face(const cases::Part& part, double removed, double coating) {
  FaceResult result;
  result.removal = known(removed);
  if (part.coating) {
    result.coating_left = known(coating);
    result.coating_left_fraction = known(coating / part.coating->thickness);
  }
  return result;
}

FeatureResult state_edge(const cases::Feature& feature, cases::Side side) {
  FeatureResult result;
  result.name = edge_name(feature, side);
  result.feature = feature.name;
  result.kind = std::string(to_text(feature.kind));
  result.side = std::string(to_text(side));
  result.burr = std::visit([](const auto& burr) { return std::string(burr.name); }, feature.burr);
  return result;
}

PartState state_part(const cases::Part& part, FaceResult face,
                     const std::function<FeatureResult(const cases::Feature&, cases::Side)>& edge) {
  PartState state;
  state.face = std::move(face);
  for (const auto& feature : part.features) {
    for (const auto side : sides_of(feature))
      state.features.push_back(edge(feature, side));
  }
  return state;
}

std::vector<double> coating_distances(const cases::Accept& accept) {
  std::vector<double> distances;
  for (const auto& limits : accept.features) {
    if (limits.beyond) distances.push_back(*limits.beyond);
  }
  std::sort(distances.begin(), distances.end());
  distances.erase(std::unique(distances.begin(), distances.end()), distances.end());
  return distances;
}

}  // namespace drumlin::sim
