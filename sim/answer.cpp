#include "sim/answer.hpp"

#include <algorithm>
#include <limits>
#include <variant>

#include "models/brush/wear.hpp"
#include "sim/names.hpp"
#include "sim/turned.hpp"

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

namespace {

/// What is left as a share of what there was; none of a layer that was not there.
Quantity fraction(double left, double before) {
  return before > 0.0 ? known(left / before) : Quantity{};
}

}  // namespace

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

BrushPass brush_pass(BrushTool& tool) {
  constexpr double open = std::numeric_limits<double>::infinity();
  BrushPass pass{.penetration = tool.penetration(),
                 .tip_reach = tool.edge(models::EdgeSide::onto_metal, open).flank_reach,
                 .face = tool.face(),
                 .whole = tool.whole(),
                 .disc = {}};
  if (DiscTool* disc = tool.disc(); disc != nullptr && tool.penetration() > 0.0) {
    pass.tip_reach = tool.penetration();
    pass.disc = disc->motion();
  }
  return pass;
}

StationResult state_brush(const BrushSetup& station, const BrushPass& pass) {
  StationResult result;
  result.kind = "brush";
  result.description = station.description;
  result.line_load = known(pass.face.line_force);
  result.working_line_load = known(pass.face.line_force);
  result.power = known(pass.face.power);
  result.penetration = known(pass.penetration);
  // Discs have no nip, and rub all ways: what is left of their drag along the feed is not followed.
  if (!std::holds_alternative<models::DiscBrush>(station.brush)) {
    result.half_width = known(0.5 * pass.face.contact_length);
    result.drag = known(pass.face.drag);
  }
  if (pass.face.tips) result.tip_force = known(pass.face.tips->peak_force);
  if (!std::holds_alternative<models::NonWovenBrush>(station.brush))
    result.tip_reach = known(pass.tip_reach);
  const double wear = models::wear_rate(station.brush, pass.whole);
  if (wear > 0.0) result.make_up_rate = known(wear);
  result.disc = pass.disc;
  return result;
}

void state_marks(const BrushMarks& marks, FeatureResult& result) {
  // Lives from universal slopes are good to a factor of ten (models/brush/lip_fatigue.hpp).
  constexpr double life_band = 10.0;
  if (marks.life_used > 0.0)
    result.root_life_used = Banded{.value = marks.life_used,
                                   .low = marks.life_used / life_band,
                                   .high = marks.life_used * life_band};
}

StationResult state_tool(const KnockOffSetup& station) {
  StationResult result;
  result.kind = "knock-off";
  result.description = station.description;
  return result;
}

StationResult state_tool(const FlipSetup& station) {
  StationResult result;
  result.kind = "flip";
  result.description = station.description;
  return result;
}

FaceResult state_face(const cases::Part& part, FaceSide side, const PlainFace& face) {
  FaceResult result;
  result.removal = known(face.removed);
  if (!part.coating) return result;
  result.coating_left = known(face.coating);
  result.coating_left_fraction = fraction(face.coating, unworn_face(part, side).coating);
  if (part.coating->top) result.top_left = known(face.top);
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

std::string fed_as(const cases::Part& part, cases::Side drawn) {
  std::string text;
  for (const FedEdge& fed : fed_edges(part.angle, drawn)) {
    if (!text.empty()) text += " and ";
    text += to_text(fed.side);
  }
  return text;
}

FaceState state_edges(const cases::Part& part, const FaceResult& face, const EdgeStatement& edge) {
  FaceState state;
  state.face = face;
  for (const auto& feature : part.features) {
    for (const auto side : sides_of(feature)) {
      state.features.push_back(edge(feature, side));
      state.features.back().fed_as = fed_as(part, side);
    }
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
