#include "sim/fast/fast_model.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "sim/fast/edge_pass.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::sim::fast {
namespace {

using cases::Side;

/// Widest cell beside an edge over the nip's half width: eleven or so carry the plain nip, whose
/// answer is not read from them.
constexpr double widest_cell = 1.0 / 6.0;

double tallest_burr(const models::AnyBurr& burr) {
  const auto* wall = std::get_if<models::WallBurr>(&burr);
  return wall != nullptr ? wall->height : 0.0;
}

/// The sides of metal that a feature shows in sections normal to the drum; an opening's two sides
/// stand in one section.
std::vector<std::vector<SectionSide>> sides_in_sections(const cases::Feature& feature) {
  const auto wanted = sides_of(feature);
  const auto side = [&](Side which, double x, int metal) {
    const bool asked = std::find(wanted.begin(), wanted.end(), which) != wanted.end();
    return SectionSide{.name = asked ? edge_name(feature, which) : "",
                       .x = x,
                       .metal = metal,
                       .burr = asked ? feature.burr : models::AnyBurr{models::NoBurr{}}};
  };
  std::vector<std::vector<SectionSide>> sections;
  if (feature.side == Side::side) return sections;
  // The drum travels towards -x: it leaves the metal at the rim on the +x side.
  if (feature.kind != cases::FeatureKind::outer_edge) {
    const double half = 0.5 * feature.size.value_or(0.0);
    sections.push_back({side(Side::trailing, half, +1), side(Side::leading, -half, -1)});
    return sections;
  }
  for (const Side which : wanted) {
    if (which != Side::side)
      sections.push_back({side(which, 0.0, which == Side::trailing ? +1 : -1)});
  }
  return sections;
}

/// Where a station stands in a pass.
struct Seat {
  double set = 0;           ///< interference that the drum is set to [mm]
  double interference = 0;  ///< what the nip has of it [mm]
};

class Line {
 public:
  Line(const Setup& setup, Drums& drums, const std::stop_token& stop)
      : setup_(setup), drums_(drums), stop_(stop), depths_(setup.stations.size(), 0.0) {}

  FastAnswer run();

 private:
  [[nodiscard]] Seat seat(std::size_t index, const PlainFace& face);
  [[nodiscard]] double depth_for(std::size_t index, const PlainFace& face, double line_load);
  [[nodiscard]] double after_frame_give(std::size_t index, const PlainFace& face, double rigid);
  void cut_sections();
  void pass_station(int pass, std::size_t index);

  const Setup& setup_;
  Drums& drums_;
  std::stop_token stop_;
  FastAnswer answer_;
  PlainFace face_;
  std::vector<Section> sections_;
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
    const double given_back = interference_for(law, abrasion, face.coating, line_load);
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
                        interference - face.removed)
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

void Line::cut_sections() {
  const cases::Part& part = setup_.scenario.part;
  double narrowest = std::numeric_limits<double>::infinity();
  double tallest = 0.0;
  for (const auto& feature : part.features)
    tallest = std::max(tallest, tallest_burr(feature.burr));
  SectionCut cut{.widest = 1, .extent = 0, .coating = face_.coating};
  for (std::size_t i = 0; i < setup_.stations.size(); ++i) {
    if (!std::holds_alternative<BeltSetup>(setup_.stations[i])) continue;
    const double interference = std::max(seat(i, face_).interference, 1e-3);
    const DrumLaw& law = drums_.of(i, setup_.belt(i), interference).law;
    narrowest = std::min(narrowest, law.half_width(interference));
    cut.extent = std::max(cut.extent, edge_pass_reach(law, interference, tallest));
  }
  // Beside a wide nip a narrow one is followed on cells of its own measure only so far.
  cut.widest = std::max(widest_cell * narrowest, cut.extent / 60.0);
  for (const auto& feature : part.features) {
    for (const auto& sides : sides_in_sections(feature))
      sections_.push_back(unworn_section(feature.name, sides, cut));
  }
}

void Line::pass_station(int pass, std::size_t index) {
  if (stop_.stop_requested()) throw Stopped();
  const BeltSetup& station = setup_.belt(index);
  const Seat place = seat(index, face_);
  Drum& drum = drums_.of(index, station, place.interference);
  const Abrasion abrasion = abrasion_of(station);
  StationPass record;
  record.interference = place.set;
  record.effective_interference = place.interference;
  record.plain =
      wearing_pass(drum.law, abrasion, face_.coating, place.interference - face_.removed);
  if (pass == 0) {
    answer_.static_nips.push_back(
        {.line_load = drum.law.line_load(place.interference),
         .half_width = drum.law.half_width(place.interference),
         .peak_pressure = drum.peak_pressure(place.interference),
         .line_load_slope = drum.law.line_load_slope(place.interference)});
  }
  for (Section& section : sections_) {
    EdgePass edges(drum.kernel, drum.law, abrasion, section);
    edges.run(section, place.interference, record.plain, face_);
  }
  face_.removed += record.plain.removal;
  face_.coating = record.plain.coating;
  record.face = face_;
  record.sections = sections_;
  if (pass == 0) answer_.first.push_back(record);
  if (pass + 1 == setup_.scenario.conveyor.passes) answer_.last.push_back(std::move(record));
}

FastAnswer Line::run() {
  const cases::Part& part = setup_.scenario.part;
  face_.coating = part.coating ? part.coating->thickness : 0.0;
  cut_sections();
  for (int pass = 0; pass < setup_.scenario.conveyor.passes; ++pass) {
    for (std::size_t index = 0; index < setup_.stations.size(); ++index)
      pass_station(pass, index);
  }
  return std::move(answer_);
}

}  // namespace

FastAnswer simulate(const Setup& setup, Drums& drums, const std::stop_token& stop) {
  return Line(setup, drums, stop).run();
}

}  // namespace drumlin::sim::fast
