#include "viz/moment_view.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "viz/moment_facts.hpp"
#include "viz/section_view.hpp"

namespace drumlin::viz {
namespace {

constexpr double least_pressure = 1e-6;  // [MPa] a scale needs a width even where nothing touches

Range both(const Range& a, const Range& b) {
  return {std::min(a.low, b.low), std::max(a.high, b.high)};
}

/// Heights of which a share lies below z = 0.
Range around_face(double height, double share_below) {
  return {-share_below * height, (1 - share_below) * height};
}

/// The stretch that shows the whole contact and, beside it, the belt running off.
Range whole_range(const Moment& moment) {
  const double around = moment.frame.drum_x;
  const Range pressed = contact(moment.section, moment.frame);
  const double geometric =
      std::sqrt(2 * moment.drum.radius * std::max(0.0, moment.drum.interference));
  const double half =
      1.45 * std::max({pressed.high - around, around - pressed.low, 0.95 * geometric, 1.0});
  return {std::max(moment.section.x.front(), around - half),
          std::min(moment.section.x.back(), around + half)};
}

double whole_height(const Moment& moment, const Range& x, double share_below) {
  const double around = moment.frame.drum_x;
  const double rise =
      std::max(0.1, drum_circle(moment.drum, around, around + x.width() / 2).value_or(1));
  return std::max({1.6 * rise, 1.3 * moment.drum.interference / share_below, 0.3});
}

/// The stretch of a close-up: a few roots of the burr into the metal, less beyond the edge.
Range close_range(const sim::SectionEdge& edge) {
  const double inside = std::clamp(7 * std::max(edge.burr_root, 0.1), 0.8, 3.0);
  const double outside = 0.45 * inside;
  return {edge.x - (edge.metal > 0 ? outside : inside),
          edge.x + (edge.metal > 0 ? inside : outside)};
}

double close_height(const Moment& moment, const sim::SectionEdge& edge, const Range& x) {
  const std::vector<double> outline = drum_outline(moment.section.x, moment.frame, moment.drum);
  const Range belt = extent(moment.section.x, outline, x).value_or(Range{0, 0.1});
  const Range surface = extent(moment.section.x, moment.frame.surface, x).value_or(Range{-0.05, 0});
  const double up = std::max({belt.high, surface.high, 1.35 * edge.burr_height, 0.05});
  return 2.6 * (up + 0.05);
}

}  // namespace

std::optional<Moment> telling_moment(const sim::Result& result, const sim::SectionRecord& section) {
  const auto index = static_cast<std::size_t>(std::max(0, section.telling_frame));
  if (index >= section.frames.size()) return std::nullopt;
  const sim::DrumShape* drum = drum_of(result, section.frames[index].station);
  if (drum == nullptr) return std::nullopt;
  return Moment{result, section, section.frames[index], *drum};
}

MomentView shared_view(std::span<const Moment> moments) {
  constexpr double share_below = 0.42;
  std::optional<Range> x;
  double height = 0;
  double face = 0;
  double highest = least_pressure;
  for (const Moment& moment : moments) {
    const Range own = whole_range(moment);
    x = x ? both(*x, own) : own;
    height = std::max(height, whole_height(moment, own, share_below));
    face = std::max(face, face_pressure(moment.section, moment.frame).value);
    highest = std::max(highest, highest_pressure(moment.frame));
  }
  // A face that hardly touches gives no scale of its own.
  const bool cut = face > 0.01 * highest && highest > 2.5 * face;
  return {x.value_or(Range{}),
          around_face(std::max(height, 0.3), share_below),
          {0, cut ? 1.9 * face : 1.25 * highest},
          {}};
}

std::optional<MomentView> shared_close_view(std::span<const Moment> moments) {
  const sim::SectionEdge* busiest = nullptr;
  double most = -1;
  for (const Moment& moment : moments) {
    const double pressure = highest_pressure(moment.frame);
    if (const auto* edge = busiest_edge(moment.section, moment.frame);
        edge != nullptr && pressure > most) {
      busiest = edge;
      most = pressure;
    }
  }
  return busiest == nullptr ? std::nullopt : shared_close_view(moments, busiest->feature);
}

std::optional<MomentView> shared_close_view(std::span<const Moment> moments,
                                            const std::string& name) {
  std::optional<MomentView> view;
  double height = 0;
  double highest = least_pressure;
  for (const Moment& moment : moments) {
    const sim::SectionEdge* edge = edge_named(moment.section, name);
    if (edge == nullptr) continue;
    const Range own = close_range(*edge);
    if (!view) view = MomentView{own, {}, {}, name};
    view->x = both(view->x, own);
    height = std::max(height, close_height(moment, *edge, own));
    highest = std::max(highest, highest_pressure(moment.section, moment.frame, own));
  }
  if (!view) return view;
  view->z = around_face(height, 0.5);
  view->pressure = {0, 1.25 * highest};
  return view;
}

}  // namespace drumlin::viz
