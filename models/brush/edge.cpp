#include "models/brush/edge.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/tools/roots.hpp>

namespace drumlin::models {
namespace {

using std::numbers::pi;

EdgeContact coming_on(const FilamentBrush& brush, const FilamentOnDrum& on) {
  const double R = brush.radius;
  const double half = std::sqrt(on.penetration * (2.0 * R - on.penetration));
  const double d = brush.filament.diameter;
  EdgeContact result;
  result.zone = 2.0 * half;
  result.flank_reach = on.penetration;
  double force = 0.0;
  double sweep = 0.0;
  // All four rise from nothing at the ends of the zone, smooth between: seven points give 1e-3.
  const auto gather = [&](double place, double weight) {
    const Sweep at = sweep_edge(on, place * half);
    if (at.points.size() < 2) return;
    const Touch& end = at.points.back().touch;
    const double share = weight * half;
    result.slide += share * at.normal_path;
    result.crossing += share * end.normal_force;
    force += 0.5 * weight * (at.normal_impulse + end.normal_force * d / R);
    sweep += 0.5 * weight * (end.length - at.points.front().touch.length);
    result.peak_force = std::max(result.peak_force, at.peak_normal);
  };
  using Rule = boost::math::quadrature::gauss<double, 7>;
  for (std::size_t i = 0; i < Rule::abscissa().size(); ++i) {
    const double place = Rule::abscissa()[i];
    gather(place, Rule::weights()[i]);
    if (place > 0.0) gather(-place, Rule::weights()[i]);
  }
  result.line_force = filaments_per_angle(brush) * force;
  result.sweep = sweep;
  return result;
}

EdgeContact going_off(const FilamentBrush& brush, const FilamentOnDrum& on) {
  EdgeContact result;
  const Sweep sweep = sweep_face(on);
  if (sweep.points.size() < 2) return result;
  result.zone = sweep.points.back().touch.x - sweep.points.front().touch.x;
  result.crossing = sweep.normal_path;
  result.sweep = brush.filament.diameter;
  result.peak_force = sweep.peak_normal;
  result.line_force = filaments_per_angle(brush) * result.crossing / result.zone *
                      brush.filament.diameter / brush.radius;
  return result;
}

/// A tip that has come off a rim: where it was let go, and how it straightens.
struct Released {
  double hub_angle;
  double back;      ///< behind the straight filament's tip [mm]
  double drawn_in;  ///< short of the straight filament's reach [mm]
};

Released let_go(const FilamentOnDrum& on, const SweepPoint& at) {
  const double s = std::sin(at.hub_angle);
  const double c = std::cos(at.hub_angle);
  const double R = tip_radius(on);
  const double dx = R * s - at.touch.x;
  const double dz = (R - on.penetration) - R * c;  // the tip stands at z = 0
  return {at.hub_angle, dx * c + dz * s, dx * s - dz * c};
}

struct Place {
  double x;
  double depth;
};

Place tip_of(const FilamentOnDrum& on, const Released& tip, double hub_angle, double bend) {
  const double s = std::sin(hub_angle);
  const double c = std::cos(hub_angle);
  const double out = tip_radius(on) - tip.drawn_in * bend * bend;
  const double back = tip.back * bend;
  return {out * s - back * c, out * c + back * s - (tip_radius(on) - on.penetration)};
}

/// Follows a tip from the rim it left to the far rim, or until it has risen out of the opening.
Dip crossing(const FilamentOnDrum& on, const Released& tip, double from, double width,
             double swing) {
  constexpr int strides = 400;  // of an arc that takes any tip out of the face again
  const double first = -std::acos(1.0 - on.penetration / tip_radius(on));
  const double stride = -4.0 * first / strides;
  Dip result;
  Place before{from, 0.0};
  for (int i = 1; i <= strides; ++i) {
    const double turned = i * stride;
    const double phase = std::min(0.5 * pi, swing * turned / on.angular_speed);
    const Place now = tip_of(on, tip, tip.hub_angle + turned, std::cos(phase));
    if (now.x >= from + width) {
      const double t = (from + width - before.x) / (now.x - before.x);
      result.far_flank = std::max(0.0, before.depth + t * (now.depth - before.depth));
      result.deepest = std::max(result.deepest, result.far_flank);
      return result;
    }
    result.deepest = std::max(result.deepest, now.depth);
    before = now;
  }
  return result;
}

}  // namespace

EdgeContact edge_contact(const FilamentBrush& brush, double penetration, double speed,
                         EdgeSide side) {
  if (penetration <= 0.0) return {};
  const FilamentOnDrum on = filament_on(brush, penetration, speed);
  return side == EdgeSide::onto_metal ? coming_on(brush, on) : going_off(brush, on);
}

Dip dip(const FilamentBrush& brush, double penetration, double speed, double width) {
  if (penetration <= 0.0 || width <= 0.0) return {};
  const FilamentOnDrum on = filament_on(brush, penetration, speed);
  const double R = brush.radius;
  const double half = std::sqrt(penetration * (2.0 * R - penetration));
  // Tips that miss the first rim come straight: the far one may then stand up to width - half.
  const double far = std::min(0.0, width - half);
  const double straight = far > -half ? std::sqrt(R * R - far * far) - (R - penetration) : 0.0;
  Dip result{straight, straight};
  if (speed <= 0.0) return {penetration, penetration};
  const Sweep sweep = sweep_face(on);
  const double swing = swing_frequency(brush.filament, on.hub_radius, on.angular_speed);
  for (const SweepPoint& at : sweep.points) {
    if (at.touch.flank_length > 0.0) continue;
    const Dip here = crossing(on, let_go(on, at), at.touch.x, width, swing);
    result.deepest = std::max(result.deepest, here.deepest);
    result.far_flank = std::max(result.far_flank, here.far_flank);
  }
  return result;
}

EdgeWork edge_work(const FilamentBrush& brush, const EdgeContact& contact, double speed,
                   double feed, double removal_coefficient, double radius) {
  const double passing = filaments_per_angle(brush) * speed / brush.radius / feed;
  EdgeWork result{.radius = radius, .area = 0.0, .strikes = passing * contact.zone};
  const double fixed =
      removal_coefficient * passing * (contact.slide + contact.crossing * brush.filament.diameter);
  if (fixed <= 0.0) return result;
  // r dr = (a + b r) dn, n from 0 to 1 over the pass: n = (r - (a/b) ln(a + b r)) / b.
  const double cost = 2.0 - 0.5 * pi;
  const double a = fixed / cost;
  const double b = removal_coefficient * passing * contact.crossing * 0.5 * pi / cost;
  const auto done = [&](double r) {
    const double step = r - radius;
    const double x = b * step / (a + b * radius);
    // Near x = 0 both terms cancel; this is what remains to the second order.
    const double all = a + b * radius;
    if (std::abs(x) < 1e-5) return step * (radius + 0.5 * step * a / all) / all;
    return (step - a / b * std::log1p(x)) / b;
  };
  const double least = std::sqrt(radius * radius + 2.0 * a);
  double most = least + 1e-12;
  while (done(most) < 1.0)
    most *= 2.0;
  std::uintmax_t iterations = 200;
  const auto [low, high] =
      boost::math::tools::bisect([&](double r) { return done(r) - 1.0; }, radius, most,
                                 boost::math::tools::eps_tolerance<double>(44), iterations);
  result.radius = 0.5 * (low + high);
  result.area = 0.5 * cost * (result.radius * result.radius - radius * radius);
  return result;
}

}  // namespace drumlin::models
