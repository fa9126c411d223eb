#include "sim/line/line_result.hpp"

#include <algorithm>
#include <numbers>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "models/edge/iso13715.hpp"
#include "sim/consequences.hpp"
#include "sim/drum_state.hpp"
#include "sim/line/burr_fate.hpp"
#include "sim/line/edge_shape.hpp"
#include "sim/turned.hpp"

namespace drumlin::sim::line {
namespace {

Quantity known(std::optional<double> value) {
  return value ? sim::known(*value) : Quantity{};
}

void add_note(FeatureResult& result, std::string_view note) {
  if (!result.note.empty()) result.note += "; ";
  result.note += note;
}

/// An edge among a face's strips.
struct Place {
  const Strip* strip;
  const StripEdge* edge;
  bool recorded;  ///< whether a section of that name shows it
};

std::optional<Place> find_edge(const Surface& surface, std::string_view name) {
  const auto among = [&](const std::vector<Strip>& strips, bool recorded) -> std::optional<Place> {
    for (const Strip& strip : strips) {
      for (const StripEdge& edge : strip.edges) {
        if (edge.name == name) return Place{&strip, &edge, recorded};
      }
    }
    return std::nullopt;
  };
  if (const auto place = among(surface.strips, true)) return place;
  return among(surface.sides, false);
}

/// One edge of one face, as every statement below takes it.
struct Seen {
  const Setup& setup;
  const Surface& surface;
  const Strip& strip;
  const StripEdge& edge;
  EdgeShape shape;
};

/// What became of the burr: outcome, lip, secondary burr, where folding began and stopped.
void state_burr(const Seen& seen, FeatureResult& result) {
  result.burr_height = known(seen.shape.burr_height);
  const BurrFate fate = burr_fate(seen.strip, seen.edge, seen.surface.face.removed);
  if (fate.height)
    result.burr_height =
        known(std::max(*fate.height, seen.shape.burr_height.value_or(*fate.height)));
  result.outcome = fate.outcome;
  result.secondary_burr = known(fate.secondary_burr);
  result.lip_thickness = known(fate.lip_thickness);
  result.fold_start = known(fate.fold_start);
  result.fold_stop = known(fate.fold_stop);
  if (!std::holds_alternative<models::NoBurr>(seen.edge.burr))
    result.peak_line_force = known(seen.edge.peak_force);
}

/// Highest that a burr may stand over the worn face and count as gone [mm]: what a reading of the
/// profile can tell.
constexpr double burr_gone = 2e-3;

/// Signed size: what stands beyond the ideal corner, or what is missing from it.
void state_size(const Seen& seen, FeatureResult& result) {
  const double above = result.burr_height ? result.burr_height->value : 0.0;
  const double beyond = result.secondary_burr ? result.secondary_burr->value : 0.0;
  const double passing = std::max(above, beyond);
  if (passing > burr_gone)
    result.edge_size = known(passing);
  else if (seen.shape.extents)
    result.edge_size =
        known(models::undercut_size(seen.shape.extents->face, seen.shape.extents->flank));
  if (!result.edge_size) return;
  result.size_class = std::string(models::size_class(result.edge_size->value));
  if (result.size_class.empty())
    add_note(result, "the edge is larger than every preferred size of ISO 13715");
}

void state_shape(const Seen& seen, FeatureResult& result) {
  const EdgeShape& shape = seen.shape;
  result.edge_drop = known(shape.drop);
  if (shape.rounding) {
    result.edge_radius = known(shape.rounding->radius);
    result.edge_radius_fit = known(shape.rounding->misfit);
  }
  result.minimum_radius = known(shape.minimum_radius);
  if (shape.extents) {
    result.face_extent = known(shape.extents->face);
    result.flank_extent = known(shape.extents->flank);
  }
  if (!shape.rounding && shape.drop < 0.0)
    add_note(result,
             "a burr still stands on the edge: it has no radius, no worn zone along face and flank "
             "yet");
  else if (!shape.rounding)
    add_note(result,
             "a folded burr hangs from the edge and covers it: it has no radius, no worn zone "
             "along face and flank");
  else if (!shape.extents)
    add_note(result, fmt::format("the worn zone reaches farther than the {:.0f} mm that are read",
                                 readable));
}

/// How far down the flank was worked, and what is left of its oxide.
void state_flank(const Seen& seen, FeatureResult& result) {
  if (!seen.shape.rounding) return;
  // A belt does not reach round the edge: the film goes with the metal above the edge's drop. Tips
  // of a brush strike farther down; whether they take the film there, their work on the edge tells
  // only as an estimate, between all of it and none.
  const cases::Part& part = seen.setup.scenario.part;
  const BrushMarks& marks = seen.edge.brushed;
  const double dropped = std::clamp(seen.shape.drop, 0.0, part.thickness);
  const double reach = std::clamp(marks.flank_reach, dropped, part.thickness);
  result.flank_reach = known(reach);
  if (part.flank_oxide <= 0.0) return;
  const double worked = std::clamp(marks.oxide_volume / part.flank_oxide, dropped, reach);
  result.oxide_left = known(1.0 - worked / part.thickness);
  if (reach <= dropped) return;
  result.oxide_left->low = 1.0 - reach / part.thickness;
  result.oxide_left->high = 1.0 - dropped / part.thickness;
}

void state_coating(const Seen& seen, FeatureResult& result) {
  const EdgeShape& shape = seen.shape;
  for (const double distance : coating_distances(seen.setup.scenario.accept)) {
    if (!shape.coating_left || distance > readable) continue;
    // Farther out than the section is read the plain face goes on.
    const double left =
        std::min(coating_left(seen.strip, seen.edge, distance), seen.surface.face.coating);
    result.coating_beyond.push_back({distance, known(left)});
  }
  result.coating_left = known(shape.coating_left);
  result.bare_length = known(shape.bare_length);
  result.coating = shape.coating;
}

FeatureResult edge_result(const Setup& setup, FeatureResult result, const Surface& surface,
                          FaceSide face, const Place& place) {
  const cases::Part& part = setup.scenario.part;
  const double bare_below =
      part.coating && part.coating->bare_below > 0.0 ? part.coating->bare_below : usual_bare_below;
  const Seen seen{.setup = setup,
                  .surface = surface,
                  .strip = *place.strip,
                  .edge = *place.edge,
                  .shape = edge_shape(*place.strip, *place.edge, surface.face.removed,
                                      part.coating.has_value(), bare_below)};
  if (place.recorded && face == FaceSide::burrs) result.section = place.strip->name;
  // Strips across a side hold no plate over the opening: nothing is known of one, nor of the edge
  // under it.
  if (!place.recorded && std::holds_alternative<models::RolledBurr>(place.edge->burr)) {
    add_note(result, "a rolled burr along the feed is not followed: it may hang as it did");
    state_coating(seen, result);
    return result;
  }
  // The reverse carries no burr, but a stub sticks out there, too.
  if (face == FaceSide::burrs) state_burr(seen, result);
  result.peak_pressure = known(seen.edge.peak_pressure);
  result.protrusion = known(protrusion_left(seen.strip, seen.edge, part.thickness));
  state_shape(seen, result);
  state_size(seen, result);
  state_flank(seen, result);
  state_marks(seen.edge.brushed, result);
  state_coating(seen, result);
  return result;
}

/// What to beware of because of how the edge lies.
void note_position(const cases::Part& part, const cases::Feature& feature, cases::Side side,
                   bool rubbed_along, FeatureResult& result) {
  const FedEdge fed = fed_edges(part.angle, side).front();
  // A round hole lies alike however it is turned.
  if (fed.skew > 1e-6 && feature.kind != cases::FeatureKind::hole)
    add_note(result, fmt::format("lies {:.0f} deg askew and is computed as if it lay square",
                                 fed.skew * 180.0 / std::numbers::pi));
  if (fed.side != cases::Side::side) return;
  if (rubbed_along)
    add_note(result,
             "a brush rubs this edge as it rubs the face: what filaments of a roller do that "
             "straddle an "
             "edge along their way is not modelled");
  if (feature.kind == cases::FeatureKind::hole)
    add_note(
        result,
        "counts that the belt is held all round a round hole; the sections through its leading "
        "and trailing rims do not, and state some half as much again there");
  if (feature.kind == cases::FeatureKind::slot)
    add_note(result,
             "the slot's width is not given: taken as wide as it is long, the most it can "
             "be");
}

FeatureResult feature_result(const Setup& setup, const cases::Feature& feature, cases::Side side,
                             const Surface& surface, FaceSide face) {
  FeatureResult result = state_edge(feature, side);
  if (face == FaceSide::reverse) result.burr = "none";
  const auto place = find_edge(surface, result.name);
  if (!place) {
    result.note = "no section of the line model shows this edge";
    return result;
  }
  FeatureResult stated = edge_result(setup, result, surface, face, *place);
  // A side of the part fed across the drum is both its ends.
  if (const auto second = find_edge(surface, result.name + "#2")) {
    stated = worse_of(stated, edge_result(setup, result, surface, face, *second));
    add_note(stated, "fed as leading and as trailing end: the worse of both, value by value");
  }
  note_position(setup.scenario.part, feature, side, place->edge->brushed.rubbed_along, stated);
  return stated;
}

FaceState state_surface(const Setup& setup, const Surface& surface, FaceSide side) {
  const cases::Part& part = setup.scenario.part;
  return state_edges(part, state_face(part, side, surface.face),
                     [&](const cases::Feature& feature, cases::Side drawn) {
                       return feature_result(setup, feature, drawn, surface, side);
                     });
}

PartState state_both(const Setup& setup, const PartSurface& part) {
  PartState state{state_surface(setup, part.burrs, FaceSide::burrs), {}};
  if (part.reverse) state.reverse = state_surface(setup, *part.reverse, FaceSide::reverse);
  return state;
}

StationResult state_belt(const BeltSetup& station, const StaticNip& nip, const BeltPass& first,
                         bool waves) {
  StationResult result = state_station(station, nip_numbers(nip, first));
  result.lean = known(nip.lean);
  result.rolling_loss = known(first.plain.rolling_loss);
  state_drum(station, result, waves);
  return result;
}

}  // namespace

StatedAnswer state(const Setup& setup, const LineAnswer& answer, bool waves) {
  StatedAnswer stated;
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    StationResult result = std::visit(
        [&]<class Station>(const Station& station) {
          if constexpr (std::is_same_v<Station, BeltSetup>)
            return state_belt(station, answer.static_nips[i].value(), answer.first[i].belt.value(),
                              waves);
          else if constexpr (std::is_same_v<Station, BrushSetup>)
            return state_brush(station, answer.last[i].brush.value());
          else
            return state_tool(station);
        },
        setup.stations[i]);
    result.after = state_both(setup, answer.last[i].part);
    stated.stations.push_back(std::move(result));
  }
  add_consequences(setup, stated);
  stated.part = stated.stations.back().after;
  return stated;
}

}  // namespace drumlin::sim::line
