#include "sim/line/line_model.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "sim/line/brush_pass.hpp"
#include "sim/line/knock_off.hpp"
#include "sim/line/passage.hpp"
#include "sim/line/side_pass.hpp"
#include "sim/numerics/error.hpp"

namespace drumlin::sim::line {
namespace {

/// Least removal that errors are measured against [mm].
constexpr double least_removal = 1e-4;
/// Strides may grow to this many times the finest, and to a tenth of half the patch.
constexpr int stride_growth = 8;
/// What one step may be wrong by: this share of what the plain face loses, or of a burr's height.
/// Errors of one sign and the other follow as a column comes under the drum and leaves it, so the
/// pass as a whole stays within a few tenths of that.
constexpr double step_error = 0.01;

/// From before the drum touches what is to be read, on a nip that is steady, to after it has left
/// it; for an outer edge from or to open air.
Course course_over(const Strip& strip, double half_span, const Fineness& fineness) {
  const double unit = strip.cells.unit;
  const auto opening = std::find(strip.metal.begin(), strip.metal.end(), 0);
  const auto first = static_cast<std::size_t>(opening - strip.metal.begin());
  const auto last =
      strip.size() - 1 -
      static_cast<std::size_t>(std::find(strip.metal.rbegin(), strip.metal.rend(), 0) -
                               strip.metal.rbegin());
  const bool metal_ahead = first > 0;                 // towards -x
  const bool metal_behind = last + 1 < strip.size();  // towards +x
  const int patch = static_cast<int>(std::ceil(half_span / unit));
  const int read = static_cast<int>(readable / unit);
  Course course;
  course.from = metal_behind ? strip.cells.bounds[last + 1] + read + patch
                             : strip.cells.bounds[first] + patch;
  course.to =
      metal_ahead ? strip.cells.bounds[first] - read - patch : strip.cells.bounds[last + 1] - patch;
  // As many steps as asked for over the readable length on both sides of an edge and four patches;
  // an outer edge, with air on one side, takes fewer.
  const double stride = static_cast<double>(2 * read + 4 * patch) / fineness.steps;
  course.stride = std::max(1, static_cast<int>(std::lround(stride)));
  course.longest =
      fineness.nested ? std::max(course.stride, std::min(stride_growth * course.stride, patch / 10))
                      : course.stride;
  return course;
}

class Line {
 public:
  /// @param room  factor on the width of the contact patch.
  Line(const Setup& setup, const LineOptions& options, double room, const PartSurface* start)
      : setup_(setup), options_(options), room_(room), start_(start) {}

  LineAnswer run();

 private:
  struct Seat {           // where a station stands in a pass
    double set;           // interference that the drum is set to [mm]
    double interference;  // what the nip has of it [mm]
    double half_span;
    double window;
    Drum drum;
  };
  [[nodiscard]] Seat seat(const BeltSetup& station, const PlainFace& face) const;
  void cut_part();
  void pass_station(int pass, int index);
  [[nodiscard]] BeltPass pass_belt(int pass, int index, const BeltSetup& station);
  [[nodiscard]] BrushPass pass_brush(const BrushSetup& station);
  void pass_strip(int pass, int index, std::size_t k, const Seat& seat, const PlainPass& plain);
  void report(std::string_view what);

  const Setup& setup_;
  const LineOptions& options_;
  double room_;
  const PartSurface* start_;
  LineAnswer answer_;
  PartSurface part_;
  BrushTools brushes_;
  std::vector<Recorder> recorders_, reverse_recorders_;
  double done_ = 0;
  double all_ = 1;
};

Line::Seat Line::seat(const BeltSetup& station, const PlainFace& face) const {
  const double window = response_window(station, setup_.scenario.numerics);
  const double added = station.interference_offset + cover_growth(station);
  double set = 0.0;
  double interference = 0.0;
  if (const auto* given = std::get_if<cases::InterferenceSetting>(&station.setting)) {
    set = given->interference;
    interference = after_frame_give(station, face, std::max(set + added, 0.0), window);
  } else {
    const double wanted = std::get<cases::LineLoadSetting>(station.setting).line_load;
    interference = interference_for(station, face, wanted, window) + face.removed;
    set = interference - added + station.frame_compliance * wanted;
    interference += station.interference_offset;
  }
  interference = std::max(interference, 0.0);
  const double deepest = std::max(interference + tallest_burr(setup_.scenario.part), 1e-3);
  Drum drum(station, interference);
  const double half_span = room_ * patch_half_span(drum, deepest, window);
  return {set, interference, half_span, window, std::move(drum)};
}

void Line::report(std::string_view what) {
  if (options_.stop.stop_requested()) throw Stopped();
  if (options_.progress) options_.progress(std::min(done_ / all_, 1.0), what);
}

void Line::pass_strip(int pass, int index, std::size_t k, const Seat& seat,
                      const PlainPass& plain) {
  Strip& strip = part_.up().strips[k];
  Passage passage(seat.drum, strip, seat.half_span, seat.window);
  Course course = course_over(strip, seat.half_span, options_.fineness);
  course.interference = seat.interference;
  course.face_error = step_error * std::max(plain.removal, least_removal);
  course.burr_error = step_error * tallest_burr(setup_.scenario.part);
  if (!plain.nip.offset.empty()) course.landing = &plain.nip;
  Recorder& recorder = (part_.burrs_up ? recorders_ : reverse_recorders_)[k];
  const double travel = strip.cells.unit * (course.from - course.to);
  recorder.begin(pass, index, travel);
  const double start = done_;
  const double from = strip.origin + strip.cells.unit * course.from;
  passage.run(strip, course, [&](const StepView& view) {
    if (options_.frames > 0) recorder.step(strip, view);
    done_ = start + std::clamp((from - view.axis) / travel, 0.0, 1.0);
    if (view.step % 16 == 0) report(strip.name);
  });
  done_ = start + 1.0;
}

BeltPass Line::pass_belt(int pass, int index, const BeltSetup& station) {
  Surface& surface = part_.up();
  const Seat place = seat(station, surface.face);
  BeltPass done{.interference = place.set,
                .effective_interference = place.interference,
                .plain = plain_pass(place.drum, surface.face,
                                    place.interference - surface.face.removed, place.window)};
  if (pass == 0)
    answer_.static_nips.emplace_back(static_nip(place.drum, place.interference, place.window));
  for (std::size_t k = 0; k < surface.strips.size(); ++k)
    pass_strip(pass, index, k, place, done.plain);
  pass_sides(place.drum, surface.face, done.plain, place.interference, surface.sides);
  surface.face.removed += done.plain.removal;
  surface.face.coating = done.plain.coating;
  surface.face.top = done.plain.top;
  return done;
}

BrushPass Line::pass_brush(const BrushSetup& station) {
  BrushTool& tool = brushes_.of(station, fed_width(setup_.scenario));
  line::pass_brush(station, tool, setup_.scenario.part.thickness, part_.up());
  return brush_pass(tool);
}

void Line::pass_station(int pass, int index) {
  const StationSetup& station = setup_.stations[static_cast<std::size_t>(index)];
  report(std::visit([](const auto& tool) { return std::string_view(tool.description); }, station));
  StationPass record;
  if (const auto* belt = std::get_if<BeltSetup>(&station)) {
    record.belt = pass_belt(pass, index, *belt);
  } else {
    if (pass == 0) answer_.static_nips.emplace_back();
    if (const auto* tool = std::get_if<KnockOffSetup>(&station))
      knock_off(*tool, part_.up());
    else if (const auto* brush = std::get_if<BrushSetup>(&station))
      record.brush = pass_brush(*brush);
    else
      part_.burrs_up = !part_.burrs_up;
  }
  record.part = part_;
  if (pass == 0) answer_.first.push_back(record);
  if (pass + 1 == setup_.scenario.conveyor.passes) answer_.last.push_back(std::move(record));
}

void Line::cut_part() {
  double reach = 0.0;
  double narrowest = std::numeric_limits<double>::infinity();
  for (const auto& station : setup_.stations) {
    const auto* belt = std::get_if<BeltSetup>(&station);
    if (belt == nullptr) continue;
    const double half_span = seat(*belt, {}).half_span;
    reach = std::max(reach, half_span);
    narrowest = std::min(narrowest, half_span);
  }
  // Passes at a set line load follow the face down as it wears; a tenth more is ample for that.
  const cases::Part& part = setup_.scenario.part;
  reach = 1.1 * reach + 1.0;
  part_.burrs_up = part.burr_side == cases::BurrSide::up;
  part_.burrs = unworn_surface(part, options_.fineness, reach, narrowest);
  part_.burrs.sides = unworn_sides(part, options_.fineness, FaceSide::burrs);
  if (meets_reverse(setup_)) {
    part_.reverse = unworn_surface(part, options_.fineness, reach, narrowest, FaceSide::reverse);
    part_.reverse->sides = unworn_sides(part, options_.fineness, FaceSide::reverse);
  }
  answer_.unworn = part_;
}

LineAnswer Line::run() {
  const int passes = setup_.scenario.conveyor.passes;
  if (start_ != nullptr)
    answer_.unworn = part_ = *start_;
  else
    cut_part();
  const int passages = passes * static_cast<int>(setup_.stations.size());
  const int frames = options_.frames > 0 ? std::max(1, options_.frames / passages) : 1;
  for (const auto& strip : part_.burrs.strips)
    recorders_.emplace_back(strip, setup_.scenario.part.thickness, frames);
  if (part_.reverse) {
    for (const auto& strip : part_.reverse->strips)
      reverse_recorders_.emplace_back(strip, setup_.scenario.part.thickness, frames);
  }
  all_ = std::max(1.0, static_cast<double>(passages) * static_cast<double>(recorders_.size()));
  for (int pass = 0; pass < passes; ++pass) {
    for (int index = 0; index < static_cast<int>(setup_.stations.size()); ++index) {
      pass_station(pass, index);
    }
  }
  for (std::size_t k = 0; k < recorders_.size(); ++k) {
    if (options_.frames <= 0) continue;
    answer_.records.push_back(
        recorders_[k].finish(part_.burrs.strips[k], part_.burrs.face.removed));
  }
  return std::move(answer_);
}

}  // namespace

LineAnswer simulate(const Setup& setup, const LineOptions& options, const PartSurface* start) {
  // How wide the contact gets beside edges is not known beforehand; the usual room mostly does.
  for (double room = 1.0;; room *= 1.4) {
    try {
      return Line(setup, options, room, start).run();
    } catch (const PatchOutgrown&) {
      if (room > 3.0) throw;
    }
  }
}

}  // namespace drumlin::sim::line
