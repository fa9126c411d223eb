#include "sim/fast/fast_model.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "sim/fast/brush_pass.hpp"
#include "sim/fast/edge_pass.hpp"
#include "sim/fast/folding.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::sim::fast {
namespace {

/// Widest cell beside an edge over the nip's half width: eight or so carry the plain nip, whose
/// answer is not read from them.
constexpr double widest_cell = 1.0 / 4.0;

/// Cuts of sections go in sixteenths of a decade, so that cases of nearly the same setting share
/// their cells and with them the pair matrix.
double in_steps(double length) {
  return std::pow(10.0, std::round(16.0 * std::log10(length)) / 16.0);
}

/// Where a station stands in a pass.
struct Seat {
  double set = 0;           ///< interference that the drum is set to [mm]
  double interference = 0;  ///< what the nip has of it [mm]
};

class Line {
 public:
  Line(const Setup& setup, Drums& drums, std::stop_token stop)
      : setup_(setup), drums_(drums), stop_(std::move(stop)), depths_(setup.stations.size(), 0.0) {}

  FastAnswer run(const Part* start);

 private:
  [[nodiscard]] Seat seat(std::size_t index, const PlainFace& face);
  [[nodiscard]] double depth_for(std::size_t index, const PlainFace& face, double line_load);
  [[nodiscard]] double after_frame_give(std::size_t index, const PlainFace& face, double rigid);
  void cut_part();
  void pass_station(int pass, std::size_t index);
  [[nodiscard]] BeltPass pass_belt(int pass, std::size_t index, const BeltSetup& station);

  const Setup& setup_;
  Drums& drums_;
  std::stop_token stop_;
  FastAnswer answer_;
  Part part_;
  std::vector<double> depths_;  // found last, per station set by line load [mm]
};

/// Interference against the face as it is [mm] that works at a line load. The drum itself may go
/// with the interference: then a secant looks for the one that its own drum gives back.
double Line::depth_for(std::size_t index, const PlainFace& face, double line_load) {
  const BeltSetup& station = setup_.belt(index);
  const Abrasion abrasion = abrasion_of(station);
  const bool one_drum = !station.options.finite_strain && !station.options.moving;
  double& depth = depths_[index];  // the last pass's answer is the best guess
  if (depth <= 0.0) depth = 0.02 * station.cover.thickness;
  double last_depth = 0.0;
  double last_move = 0.0;
  for (int step = 0; step < 40; ++step) {
    const DrumLaw& law = drums_.of(index, station, depth).law;
    const double given_back = interference_for(law, abrasion, face.coating, line_load, face.top);
    if (given_back > station.cover.thickness) {
      throw NumericsError(fmt::format(
          "{}: no interference up to the cover's {:.4g} mm works at {:.4g} N/mm; ask for less, or "
          "take a harder or thinner cover",
          station.description, station.cover.thickness, line_load));
    }
    const double move = given_back - depth;
    const bool served = one_drum && given_back <= law.deepest();
    if (served || std::abs(move) <= 1e-5 * depth) return depth = given_back;
    const double slope = step > 0 ? (move - last_move) / (depth - last_depth) : -1.0;
    last_depth = depth;
    last_move = move;
    // The drum changes far less than the interference: the slope is near -1.
    depth -= move / std::clamp(slope, -2.0, -0.3);
    depth = std::clamp(depth, 0.2 * last_depth, 5.0 * last_depth);
  }
  return depth;
}

double Line::after_frame_give(std::size_t index, const PlainFace& face, double rigid) {
  const BeltSetup& station = setup_.belt(index);
  if (station.frame_compliance <= 0.0 || rigid <= face.removed) return rigid;
  const Abrasion abrasion = abrasion_of(station);
  const auto load = [&](double interference) {
    return wearing_pass(drums_.of(index, station, interference).law, abrasion, face.coating,
                        interference - face.removed, face.top)
        .working_line_load;
  };
  // delta + s P'(delta) = rigid; both parts rise, so a secant inside a bracket.
  double low = face.removed;
  double high = rigid;
  double at = rigid;
  double open = station.frame_compliance * load(at);
  double slope = 1.0 + 1.5 * open / std::max(rigid - face.removed, 1e-9);
  for (int step = 0; step < 40 && std::abs(open) > 1e-6 * rigid; ++step) {
    (open > 0.0 ? high : low) = at;
    double next = at - open / slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    const double next_open = next + station.frame_compliance * load(next) - rigid;
    if (next != at) slope = (next_open - open) / (next - at);
    at = next;
    open = next_open;
  }
  return at;
}

Seat Line::seat(std::size_t index, const PlainFace& face) {
  const BeltSetup& station = setup_.belt(index);
  const double added = station.interference_offset + cover_growth(station);
  Seat place;
  if (const auto* given = std::get_if<cases::InterferenceSetting>(&station.setting)) {
    place.set = given->interference;
    place.interference = after_frame_give(index, face, std::max(place.set + added, 0.0));
  } else {
    const double wanted = std::get<cases::LineLoadSetting>(station.setting).line_load;
    place.interference = depth_for(index, face, wanted) + face.removed;
    place.set = place.interference - added + station.frame_compliance * wanted;
    place.interference += station.interference_offset;
  }
  place.interference = std::max(place.interference, 0.0);
  return place;
}

void Line::cut_part() {
  const cases::Part& part = setup_.scenario.part;
  part_.burrs_up = part.burr_side == cases::BurrSide::up;
  const PlainFace unworn = unworn_face(part, part_.burrs_up ? FaceSide::burrs : FaceSide::reverse);
  double narrowest = std::numeric_limits<double>::infinity();
  SectionCut cut{.widest = 1, .extent = 10};
  for (std::size_t i = 0; i < setup_.stations.size() && !part.features.empty(); ++i) {
    if (!std::holds_alternative<BeltSetup>(setup_.stations[i])) continue;
    const double interference = std::max(seat(i, unworn).interference, 1e-3);
    const DrumLaw& law = drums_.of(i, setup_.belt(i), interference).law;
    narrowest = std::min(narrowest, law.half_width(interference));
    cut.extent = std::max(cut.extent, edge_pass_reach(law, interference, tallest_burr(part)));
  }
  cut.extent = in_steps(cut.extent + 1.5 * widest_footprint(part));
  // Beside a wide nip a narrow one is followed on cells of its own measure only so far.
  if (std::isfinite(narrowest))
    cut.widest = in_steps(std::max(widest_cell * narrowest, cut.extent / 60.0));
  part_.burrs = unworn_part_face(part, cut, FaceSide::burrs);
  if (meets_reverse(setup_)) part_.reverse = unworn_part_face(part, cut, FaceSide::reverse);
}

BeltPass Line::pass_belt(int pass, std::size_t index, const BeltSetup& station) {
  Face& face = part_.up();
  const Seat place = seat(index, face.plain);
  Drum& drum = drums_.of(index, station, place.interference);
  const Abrasion abrasion = abrasion_of(station);
  BeltPass done{.interference = place.set,
                .effective_interference = place.interference,
                .plain = wearing_pass(drum.law, abrasion, face.plain.coating,
                                      place.interference - face.plain.removed, face.plain.top)};
  if (pass == 0) {
    answer_.static_nips.emplace_back(
        StaticNip{.line_load = drum.law.line_load(place.interference),
                  .half_width = drum.law.half_width(place.interference),
                  .peak_pressure = drum.peak_pressure(place.interference),
                  .line_load_slope = drum.law.line_load_slope(place.interference)});
  }
  for (std::size_t k = 0; k < face.sections.size(); ++k) {
    Section& section = face.sections[k];
    if (face.alike[k] != k) {
      follow(face.sections[face.alike[k]], section);
      continue;
    }
    EdgePass edges(drum.pairs(section), drum.law, abrasion, section);
    edges.run(section, place.interference, done.plain, face.plain);
  }
  face.plain.removed += done.plain.removal;
  face.plain.coating = done.plain.coating;
  face.plain.top = done.plain.top;
  return done;
}

void Line::pass_station(int pass, std::size_t index) {
  if (stop_.stop_requested()) throw Stopped();
  const StationSetup& station = setup_.stations[index];
  std::optional<BeltPass> belt;
  if (const auto* drum = std::get_if<BeltSetup>(&station)) {
    belt = pass_belt(pass, index, *drum);
  } else if (pass == 0) {
    answer_.static_nips.emplace_back();
  }
  if (const auto* tool = std::get_if<KnockOffSetup>(&station)) {
    Face& face = part_.up();
    for (Section& section : face.sections)
      knock_off(section, tool->clearance, tool->line_force, face.plain.removed);
  }
  std::optional<BrushPass> brushed;
  if (const auto* brush = std::get_if<BrushSetup>(&station)) {
    BrushTool& tool = drums_.brushes().of(*brush, fed_width(setup_.scenario));
    pass_brush(*brush, tool, setup_.scenario.part.thickness, part_.up());
    brushed = brush_pass(tool);
  }
  if (std::holds_alternative<FlipSetup>(station)) part_.burrs_up = !part_.burrs_up;
  if (pass == 0) answer_.first.push_back(belt);
  if (pass + 1 == setup_.scenario.conveyor.passes)
    answer_.last.push_back({.belt = std::move(belt), .brush = brushed, .part = part_});
}

FastAnswer Line::run(const Part* start) {
  if (start != nullptr)
    part_ = *start;
  else
    cut_part();
  for (int pass = 0; pass < setup_.scenario.conveyor.passes; ++pass) {
    for (std::size_t index = 0; index < setup_.stations.size(); ++index)
      pass_station(pass, index);
  }
  return std::move(answer_);
}

}  // namespace

FastAnswer simulate(const Setup& setup, Drums& drums, const std::stop_token& stop,
                    const Part* start) {
  return Line(setup, drums, stop).run(start);
}

}  // namespace drumlin::sim::fast
