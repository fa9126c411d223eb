#include "models/brush/sweep.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "models/brush/follow.hpp"

namespace drumlin::models {
namespace {

double axis_height(const FilamentOnDrum& on) {
  return tip_radius(on) - on.penetration;
}

void refuse(const FilamentOnDrum& on, double deepest) {
  if (limpness(on) > limpest) {
    throw std::domain_error(
        "filament too limp at this speed: centrifugal tension holds it, not its stiffness");
  }
  if (on.penetration > deepest * on.filament.free_length) {
    throw std::domain_error("penetration too deep for the length of the filaments");
  }
}

/// A sweep that breaks off early was not followed: the numbers would be too small without a sign.
void refuse_if_lost(bool lost) {
  if (lost) {
    throw std::domain_error("filaments bend too far at this penetration and speed to be followed");
  }
}

/// @param way  of the rubbing place, from a touch.
template <class Way>
void integrate(Sweep& sweep, Way&& way) {
  for (std::size_t i = 1; i < sweep.points.size(); ++i) {
    const SweepPoint& a = sweep.points[i - 1];
    const SweepPoint& b = sweep.points[i];
    const double turn = 0.5 * (b.hub_angle - a.hub_angle);
    sweep.normal_impulse += turn * (a.touch.normal_force + b.touch.normal_force);
    sweep.drag_impulse += turn * (a.touch.drag + b.touch.drag);
    sweep.torque_work -= turn * (a.touch.moment + b.touch.moment);
    const double path = 0.5 * (way(b.touch) - way(a.touch));
    sweep.rubbing += path * (a.touch.drag + b.touch.drag);
    sweep.normal_path += path * (a.touch.normal_force + b.touch.normal_force);
    sweep.peak_normal = std::max(sweep.peak_normal, b.touch.normal_force);
    sweep.peak_flank = std::max(sweep.peak_flank, b.touch.flank_length);
  }
  if (!sweep.points.empty()) sweep.released = sweep.points.back().touch.energy;
}

}  // namespace

double tip_radius(const FilamentOnDrum& on) noexcept {
  return on.hub_radius + on.filament.free_length;
}

double tip_depth(const FilamentOnDrum& on, double hub_angle) noexcept {
  return tip_radius(on) * std::cos(hub_angle) - axis_height(on);
}

Rod rod_of(const FilamentOnDrum& on) noexcept {
  return {.length = on.filament.free_length,
          .bending_stiffness = bending_stiffness(on.filament),
          .line_density = on.filament.density * section_area(on.filament),
          .angular_speed = on.angular_speed,
          .axis_x = 0.0,
          .axis_z = axis_height(on)};
}

double limpness(const FilamentOnDrum& on) noexcept {
  return limpness(rod_of(on), on.hub_radius);
}

Hold hold_of(const FilamentOnDrum& on, double hub_angle) noexcept {
  return {on.hub_radius * std::sin(hub_angle),
          axis_height(on) - on.hub_radius * std::cos(hub_angle), hub_angle};
}

Sweep sweep_face(const FilamentOnDrum& on, int steps) {
  Sweep sweep;
  if (on.penetration <= 0.0) return sweep;
  refuse(on, deepest_on_face);
  const double R = tip_radius(on);
  const double first = -std::acos(axis_height(on) / R);
  SweepPoint start{.hub_angle = first, .touch = {}};
  start.touch.angle = first;
  start.touch.x = R * std::sin(first);
  start.touch.length = on.filament.free_length;
  sweep.points.push_back(start);
  const Rod rod = rod_of(on);
  const double stride = -2.0 * first / steps;
  follow(
      sweep.points, stride, first + 8.0 * stride * steps,
      [&](double angle, const Touch& guess) {
        return touch_on_face(rod, hold_of(on, angle), on.filament.friction, guess);
      },
      [](const Touch& /*touch*/) { return false; });
  refuse_if_lost(sweep.points.back().hub_angle < -0.8 * first);
  // A flank that lies on the face moves as the tip at its end.
  integrate(sweep, [](const Touch& touch) { return touch.x - touch.flank_length; });
  return sweep;
}

Sweep sweep_edge(const FilamentOnDrum& on, double edge_x, int steps) {
  Sweep sweep;
  const double H = axis_height(on);
  const double reach = std::hypot(edge_x, H);
  if (reach >= tip_radius(on)) return sweep;
  refuse(on, deepest_on_edge);
  SweepPoint start{.hub_angle = std::atan2(edge_x, H), .touch = {}};
  start.touch.angle = start.hub_angle;
  start.touch.x = edge_x;
  start.touch.length = reach - on.hub_radius;
  sweep.points.push_back(start);
  const Rod rod = rod_of(on);
  // The hub runs ahead of the tip by about the deflection that draws it up by its overlap.
  const double L = on.filament.free_length;
  const double overlap = tip_radius(on) - reach;
  const double stride = std::sqrt(overlap * L / 0.6) / tip_radius(on) / steps;
  follow(
      sweep.points, stride, start.hub_angle + 8.0 * stride * steps,
      [&](double angle, const Touch& guess) {
        return touch_on_corner(rod, hold_of(on, angle), on.filament.friction, edge_x, guess);
      },
      [L](const Touch& touch) { return touch.length >= L; });
  refuse_if_lost(sweep.points.back().touch.length < L);
  integrate(sweep, [](const Touch& touch) { return touch.length; });
  return sweep;
}

SweepPoint at_place(const Sweep& sweep, double x) noexcept {
  if (sweep.points.empty()) return {};
  const auto& points = sweep.points;
  const auto after = std::find_if(points.begin(), points.end(),
                                  [x](const SweepPoint& p) { return p.touch.x >= x; });
  if (after == points.begin() || after == points.end()) return {};
  const SweepPoint& a = *(after - 1);
  const double t = (x - a.touch.x) / (after->touch.x - a.touch.x);
  const auto on = [t](double from, double to) { return from + t * (to - from); };
  SweepPoint between{.hub_angle = on(a.hub_angle, after->hub_angle), .touch = a.touch};
  between.touch.normal_force = on(a.touch.normal_force, after->touch.normal_force);
  between.touch.drag = on(a.touch.drag, after->touch.drag);
  between.touch.angle = on(a.touch.angle, after->touch.angle);
  between.touch.x = x;
  return between;
}

}  // namespace drumlin::models
