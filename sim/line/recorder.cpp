#include "sim/line/recorder.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "sim/line/surface.hpp"

namespace drumlin::sim::line {
namespace {

/// Farther than this from every edge a pressure counts as the face's [mm]: what an opening sheds
/// onto its rims has mostly died away.
constexpr double face_beyond = 3.0;

double nearest_edge(const Strip& strip, std::size_t cell) {
  double nearest = std::numeric_limits<double>::infinity();
  for (const auto& edge : strip.edges)
    nearest = std::min(nearest, std::abs(strip.x(cell) - strip.x(edge.cell)));
  return nearest;
}

/// Every cell within 0.6 mm of an edge, then wider and wider apart.
std::vector<std::size_t> display_points(const Strip& strip, double reach) {
  std::vector<std::size_t> points;
  double next = -std::numeric_limits<double>::infinity();
  for (std::size_t cell = 0; cell < strip.size(); ++cell) {
    const double away = nearest_edge(strip, cell);
    if (away >= reach || (strip.x(cell) < next && away > 0.6)) continue;
    points.push_back(cell);
    const double gap = std::min(0.02 * std::max(away - 0.6, 0.0), 0.25);
    next = strip.x(cell) + gap + 0.999 * strip.cells.unit;
  }
  return points;
}

}  // namespace

Recorder::Recorder(const Strip& unworn, double part_thickness, int frames_per_passage)
    : points_(display_points(unworn, readable + 10.0)), frames_per_passage_(frames_per_passage) {
  record_.name = unworn.name;
  record_.part_thickness = part_thickness;
  for (const auto& edge : unworn.edges) {
    if (edge.name.empty()) continue;
    SectionEdge shown;
    shown.feature = edge.name;
    shown.x = unworn.line(edge);
    shown.metal = edge.metal;
    shown.burr = std::visit([](const auto& burr) { return std::string(burr.name); }, edge.burr);
    shown.burr_root = edge.stretch * models::footprint_of(edge.burr);
    shown.burr_height = models::height_of(edge.burr);
    record_.edges.push_back(shown);
  }
  for (const std::size_t cell : points_)
    record_.x.push_back(unworn.x(cell));
  for (std::size_t cell = 0; cell < unworn.size(); ++cell)
    face_.push_back(nearest_edge(unworn, cell) > face_beyond ? 1 : 0);
  record_.before = sample(unworn, unworn.height, true);
  record_.before_coating = sample(unworn, unworn.coating, true);
  record_.before_underside = underside(unworn);
}

std::vector<double> Recorder::sample(const Strip& strip, const std::vector<double>& values,
                                     bool only_metal) const {
  std::vector<double> shown;
  shown.reserve(points_.size());
  for (const std::size_t cell : points_) {
    shown.push_back(only_metal && strip.metal[cell] == 0 ? std::numeric_limits<double>::quiet_NaN()
                                                         : values[cell]);
  }
  return shown;
}

std::vector<double> Recorder::underside(const Strip& strip) const {
  if (std::find(strip.lip.begin(), strip.lip.end(), 1) == strip.lip.end()) return {};
  std::vector<double> shown;
  shown.reserve(points_.size());
  for (const std::size_t cell : points_) {
    shown.push_back(strip.lip[cell] != 0 ? strip.height[cell] - strip.burr[cell]
                                         : std::numeric_limits<double>::quiet_NaN());
  }
  return shown;
}

void Recorder::begin(int pass, int station, double travel) {
  pass_ = pass;
  station_ = station;
  frame_every_ = travel / frames_per_passage_;
  next_frame_ = std::numeric_limits<double>::infinity();
}

Frame Recorder::frame(const Strip& strip, const StepView& view) const {
  Frame frame;
  frame.pass = pass_;
  frame.station = station_;
  frame.step = view.step;
  frame.drum_x = view.axis;
  frame.line_load = view.line_load;
  frame.surface = sample(strip, strip.height, true);
  frame.coating = sample(strip, strip.coating, true);
  frame.underside = underside(strip);
  frame.burr = sample(strip, strip.burr, true);
  frame.pressure.reserve(points_.size());
  frame.belt.reserve(points_.size());
  for (const std::size_t cell : points_) {
    const bool inside = cell >= view.first && cell < view.first + view.pressure.size();
    frame.pressure.push_back(inside ? view.pressure[cell - view.first] : 0.0);
    frame.belt.push_back(inside ? view.belt[cell - view.first]
                                : std::numeric_limits<double>::quiet_NaN());
  }
  return frame;
}

void Recorder::step(const Strip& strip, const StepView& view) {
  const double edge_pressure = view.edge_pressure;
  double face_pressure = 0.0;
  for (std::size_t i = 0; i < view.pressure.size(); ++i) {
    if (face_[view.first + i] != 0) face_pressure = std::max(face_pressure, view.pressure[i]);
  }
  record_.history.push_back({pass_, station_, view.axis, view.line_load, face_pressure,
                             edge_pressure, view.report.newton_steps, view.report.applications,
                             view.report.residual});
  if (view.axis <= next_frame_) {
    record_.frames.push_back(frame(strip, view));
    next_frame_ = view.axis - frame_every_;
  }
  if (edge_pressure > telling_pressure_) {
    telling_pressure_ = edge_pressure;
    telling_ = frame(strip, view);
  }
}

SectionRecord Recorder::finish(const Strip& worn, double face_removal) {
  record_.after = sample(worn, worn.height, true);
  record_.after_coating = sample(worn, worn.coating, true);
  record_.after_underside = underside(worn);
  record_.face_removal = face_removal;
  if (!telling_.surface.empty()) {
    const auto order = [](const Frame& f) { return std::tuple(f.pass, f.station, f.step); };
    const auto place =
        std::lower_bound(record_.frames.begin(), record_.frames.end(), telling_,
                         [&](const Frame& a, const Frame& b) { return order(a) < order(b); });
    record_.telling_frame = static_cast<int>(place - record_.frames.begin());
    if (place == record_.frames.end() || order(*place) != order(telling_)) {
      record_.frames.insert(place, telling_);
    }
  }
  return std::move(record_);
}

}  // namespace drumlin::sim::line
