#include "models/brush/dragged.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include <boost/math/tools/roots.hpp>

#include "models/brush/elastica.hpp"
#include "models/brush/follow.hpp"

namespace drumlin::models {
namespace {

using std::numbers::pi;

Rod upright(const Filament& filament) {
  return {.length = filament.free_length, .bending_stiffness = bending_stiffness(filament)};
}

void refuse(const Filament& filament, double penetration) {
  if (penetration > deepest_dragged * filament.free_length)
    throw std::domain_error("penetration too deep for the length of the filaments");
}

}  // namespace

DraggedFilament dragged_over_face(const Filament& filament, double penetration) {
  if (penetration <= 0.0) return {};
  refuse(filament, penetration);
  // Scaled: length 1, stiffness 1; load in EI / L^2.
  const Rod rod{.length = 1.0, .bending_stiffness = 1.0};
  const double wanted = penetration / filament.free_length;
  const double off_axis = std::atan(filament.friction);
  constexpr int steps = 16;  // 1e-7 of the slope
  const auto bent = [&](double load) { return bent_by_tip_load(rod, load, pi - off_axis, steps); };
  const auto miss = [&](double load) { return bent(load).shortening - wanted; };
  constexpr double euler = 0.25 * pi * pi;
  const double low = off_axis > 0.0 ? 0.0 : euler;
  double high = 2.0 * euler;
  while (miss(high) < 0.0)
    high *= 2.0;
  std::uintmax_t iterations = 100;
  const auto [a, b] =
      boost::math::tools::toms748_solve(miss, low, high, -wanted, miss(high),
                                        boost::math::tools::eps_tolerance<double>(30), iterations);
  const double load = 0.5 * (a + b);
  const BentRod shape = bent(load);
  if (shape.slope >= 0.5 * pi)
    throw std::domain_error("filaments would lie down on their flanks at this friction");
  const double unit = bending_stiffness(filament) / std::pow(filament.free_length, 2);
  DraggedFilament result;
  result.normal_force = load * std::cos(off_axis) * unit;
  result.drag = load * std::sin(off_axis) * unit;
  result.slope = shape.slope;
  result.deflection = shape.deflection * filament.free_length;
  return result;
}

double splay(const Filament& filament, double acceleration) noexcept {
  return filament.density * section_area(filament) * acceleration *
         std::pow(filament.free_length, 4) / (8.0 * bending_stiffness(filament));
}

double LeanOnEdge::rubbing(double cos_psi) const noexcept {
  const double cc = cos_psi * cos_psi;
  double sum = 0.0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const Lean& from = points[i - 1];
    const Lean& to = points[i];
    const double drawn = to.length - from.length;
    const double gone = to.travel - from.travel;
    sum += 0.5 * (from.force + to.force) * std::sqrt(cc * drawn * drawn + (1.0 - cc) * gone * gone);
  }
  return sum;
}

double LeanOnEdge::crossing() const noexcept {
  return points.empty() ? 0.0 : points.back().force;
}

LeanOnEdge lean_on_edge(const Filament& filament, double depth, int steps) {
  LeanOnEdge result;
  if (depth <= 0.0) return result;
  refuse(filament, depth);
  const Rod rod = upright(filament);
  const double L = filament.free_length;
  SweepPoint start;
  start.touch.length = L - depth;
  std::vector<SweepPoint> points{start};
  // The tip trails by about the deflection that draws it up by the depth.
  const double way = std::sqrt(depth * L / 0.6);
  follow(
      points, way / steps, 8.0 * way,
      [&](double travel, const Touch& guess) {
        return touch_on_corner(rod, Hold{travel, L - depth, 0.0}, filament.friction, 0.0, guess);
      },
      [L](const Touch& touch) { return touch.length >= L; });
  if (points.back().touch.length < L)
    throw std::domain_error("filaments bend too far at this penetration to be followed");
  // The tip is over where the length is L: between the last two points.
  Touch& last = points.back().touch;
  const SweepPoint& before = *(points.end() - 2);
  const double share = (L - before.touch.length) / (last.length - before.touch.length);
  points.back().hub_angle = std::lerp(before.hub_angle, points.back().hub_angle, share);
  last.normal_force = std::lerp(before.touch.normal_force, last.normal_force, share);
  last.length = L;
  for (const SweepPoint& point : points) {
    result.points.push_back({point.hub_angle, point.touch.length, point.touch.normal_force});
    result.peak_force = std::max(result.peak_force, point.touch.normal_force);
  }
  return result;
}

double dip_of_dragged(const Filament& filament, double penetration, double speed, double width) {
  if (penetration <= 0.0 || width <= 0.0) return 0.0;
  if (speed <= 0.0) return penetration;
  const double trailing = dragged_over_face(filament, penetration).deflection;
  const double per_phase = speed / swing_frequency(filament, 0.0, 0.0);  // way per radian of swing
  const auto gone = [&](double phase) {
    return per_phase * phase + trailing * (1.0 - std::cos(phase)) - width;
  };
  constexpr double straight = 0.5 * pi;
  if (gone(straight) <= 0.0) return penetration;
  std::uintmax_t iterations = 100;
  const auto [a, b] = boost::math::tools::toms748_solve(
      gone, 0.0, straight, boost::math::tools::eps_tolerance<double>(40), iterations);
  const double s = std::sin(0.5 * (a + b));
  return penetration * s * s;
}

}  // namespace drumlin::models
