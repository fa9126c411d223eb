#include <algorithm>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "sim/consequences.hpp"
#include "sim/drum_state.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/fast/hanging_lip.hpp"

namespace drumlin::sim::fast {
namespace {

/// Burr metal that counts as none [mm]: less than any gauge reads.
constexpr double no_metal = 1e-3;

/// A rim and the section it stands in.
struct Found {
  const Section* section = nullptr;
  const SectionRim* rim = nullptr;
};

/// How much of a burr is left to judge [mm]: what stands or what lies.
double left_of(const Found& found, const PlainFace& face) {
  const double standing = burr_height(*found.section, *found.rim, face);
  return found.rim->beyond ? std::max(standing, overhang(*found.rim)) : standing;
}

/// The rim that a name belongs to, and its section; none for an edge along the feed. Turned by 90
/// degrees both sides of a part share a name: the one with more burr left speaks for it.
Found find_rim(const Face& face, const std::string& name) {
  Found found;
  for (const Section& section : face.sections) {
    for (const SectionRim& rim : section.rims) {
      if (rim.name != name) continue;
      const Found next{&section, &rim};
      if (found.rim == nullptr || left_of(next, face.plain) > left_of(found, face.plain))
        found = next;
    }
  }
  return found;
}

std::string outcome_of(const Found& found) {
  const SectionRim& rim = *found.rim;
  if (std::holds_alternative<models::NoBurr>(rim.burr)) return "";
  const bool metal = burr_metal(*found.section, rim) > no_metal;
  if (rim.broken_off) return "broken off";
  if (rim.peak_pressure <= 0.0 && !rim.struck && !rim.brushed.met) return "untouched";
  if (rim.lip && rim.beyond) return "folded beyond the edge";
  if (!metal) return "ground off";
  return rim.lip ? "folded onto the face" : "stands";
}

void state_burr(const Found& found, const PlainFace& face, FeatureResult& result) {
  const SectionRim& rim = *found.rim;
  result.outcome = outcome_of(found);
  if (rim.reach == 0) return;
  result.burr_height = known(burr_height(*found.section, rim, face));
  result.peak_line_force = known(rim.peak_force);
  result.secondary_burr = known(overhang(rim));
  if (rim.lip) result.lip_thickness = known(lip_thickness(rim));
  if (rim.folded_here) {
    result.fold_start = known(rim.fold_start);
    result.fold_stop = known(rim.fold_stop);
  }
}

/// How far a stub still sticks out of the edge [mm]: as far as a column of it is not ground through
/// the whole sheet.
double protrusion_left(const Found& found, double sheet_thickness) {
  const Section& section = *found.section;
  const SectionRim& rim = *found.rim;
  const double given = models::protrusion_of(rim.burr);
  double gone = 0.0;
  for (std::size_t i = 0; gone < given; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    if (section.height[cell] > -sheet_thickness) break;
    gone += rim.across * section.width(cell);
  }
  return std::max(given - gone, 0.0);
}

FeatureResult feature_result(const Setup& setup, const cases::Feature& feature, cases::Side side,
                             const Face& face, FaceSide which) {
  FeatureResult result = state_edge(feature, side);
  const bool burrs = which == FaceSide::burrs;
  if (!burrs) result.burr = std::string(models::NoBurr::name);
  const Found found = find_rim(face, result.name);
  if (found.rim == nullptr) {
    result.note =
        "an edge along the feed needs a section along the drum, which the fast model does not have";
    return result;
  }
  if (burrs) state_burr(found, face.plain, result);
  state_marks(found.rim->brushed, result);
  if (std::holds_alternative<models::Stub>(found.rim->burr))
    result.protrusion = known(protrusion_left(found, setup.scenario.part.thickness));
  result.edge_drop = known(edge_drop(*found.section, *found.rim, face.plain));
  result.peak_pressure = known(found.rim->peak_pressure);
  result.note = "the fast model gives no edge radius and no bare length";
  if (!setup.scenario.part.coating) return result;
  const auto left = [&](double beyond) {
    return known(coating_left(*found.section, *found.rim, face.plain, beyond));
  };
  result.coating_left = left(0.0);
  for (const double distance : coating_distances(setup.scenario.accept))
    result.coating_beyond.push_back({distance, left(distance)});
  return result;
}

FaceState face_state(const Setup& setup, const Face& face, FaceSide which) {
  const cases::Part& part = setup.scenario.part;
  return state_edges(part, state_face(part, which, face.plain),
                     [&](const cases::Feature& feature, cases::Side side) {
                       return feature_result(setup, feature, side, face, which);
                     });
}

PartState part_state(const Setup& setup, const Part& part) {
  PartState state{face_state(setup, part.burrs, FaceSide::burrs), {}};
  if (part.reverse) state.reverse = face_state(setup, *part.reverse, FaceSide::reverse);
  return state;
}

}  // namespace

StatedAnswer state(const Setup& setup, const FastAnswer& answer, bool waves) {
  StatedAnswer stated;
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    StationResult result = std::visit(
        [&]<class Station>(const Station& station) {
          if constexpr (std::is_same_v<Station, BeltSetup>) {
            StationResult belt = state_station(
                station, nip_numbers(answer.static_nips[i].value(), answer.first[i].value()));
            state_drum(station, belt, waves);
            return belt;
          } else if constexpr (std::is_same_v<Station, BrushSetup>) {
            return state_brush(station, answer.last[i].brush.value());
          } else {
            return state_tool(station);
          }
        },
        setup.stations[i]);
    result.after = part_state(setup, answer.last[i].part);
    stated.stations.push_back(std::move(result));
  }
  add_consequences(setup, stated);
  if (!stated.stations.empty()) stated.part = stated.stations.back().after;
  return stated;
}

}  // namespace drumlin::sim::fast
