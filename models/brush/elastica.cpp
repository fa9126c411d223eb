#include "models/brush/elastica.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include <Eigen/LU>
#include <boost/math/tools/roots.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

namespace drumlin::models {
namespace {

using std::numbers::pi;

/// angle, curvature, x, z, force x, force z, energy of bending and of centrifugal load.
using March = std::array<double, 7>;

struct Elastica {
  double stiffness;
  double pull;  ///< rho A W^2
  double axis_x;
  double axis_z;

  [[nodiscard]] double squared_radius(double x, double z) const {
    return (x - axis_x) * (x - axis_x) + (z - axis_z) * (z - axis_z);
  }

  void operator()(const March& y, March& slope, double /*way*/) const {
    const double s = std::sin(y[0]);
    const double c = std::cos(y[0]);
    slope = {-y[1],
             (y[4] * c + y[5] * s) / stiffness,
             -s,
             c,
             pull * (y[2] - axis_x),
             pull * (y[3] - axis_z),
             0.5 * stiffness * y[1] * y[1] - 0.5 * pull * squared_radius(y[2], y[3])};
  }
};

/// Centrifugal load per length and per distance from the axis.
double pull_of(const Rod& rod) {
  return rod.line_density * rod.angular_speed * rod.angular_speed;
}

March march(const Rod& rod, const March& free_end, double length, int steps) {
  const Elastica law{rod.bending_stiffness, pull_of(rod), rod.axis_x, rod.axis_z};
  boost::numeric::odeint::runge_kutta_dopri5<March> stepper;
  March y = free_end;
  const double step = length / steps;
  for (int i = 0; i < steps; ++i)
    stepper.do_step(law, y, i * step, step);
  return y;
}

/// Three unknowns of a rod that touches, and what the held end then looks like.
using Three = Eigen::Vector3d;

/// Lying or hanging part of a rod beyond the place where it touches, straight, under its own
/// centrifugal load.
struct Beyond {
  double force_x;
  double force_z;
  double energy;
};

Beyond beyond(const Rod& rod, double length, double x, double z, double angle) {
  const double load = pull_of(rod) * length;
  const double half_x = 0.5 * length * std::sin(angle);
  const double half_z = -0.5 * length * std::cos(angle);
  const double dx = x + half_x - rod.axis_x;
  const double dz = z + half_z - rod.axis_z;
  return {load * dx, load * dz, -0.5 * load * (dx * dx + dz * dz + length * length / 12.0)};
}

/// How the march along a rod that touches has to be done: a limp one bends in a short stretch near
/// its holder, and what is assumed at its end comes out enlarged there by exp(limpness).
struct MarchPlan {
  int steps;     ///< 8 give 1e-5 of the force at the loads of a brush
  double nudge;  ///< of an unknown that stays small at the holder
};

MarchPlan plan(const Rod& rod, const Hold& hold) {
  const double held_at = std::hypot(hold.x - rod.axis_x, hold.z - rod.axis_z);
  const double limp = std::min(30.0, limpness(rod, held_at));
  return {8 + static_cast<int>(2.0 * limp), 1e-6 * std::exp(-0.8 * limp)};
}

/// The three unknowns, each counted in units that make them of order one: a difference quotient
/// for the slope at the guess, then Broyden's updates of it.
///
/// @param held  March at the held end for given unknowns.
template <class HeldEnd>
std::optional<Three> solve(Three unknown, const Three& unit, const Hold& hold, double length,
                           const MarchPlan& way, HeldEnd&& held) {
  const auto miss = [&](const Three& u) -> Three {
    const March y = held(u);
    return {y[0] - hold.angle, (y[2] - hold.x) / length, (y[3] - hold.z) / length};
  };
  constexpr double tolerance = 1e-8;  // of an angle and of the length: far below the march's error
  constexpr int most = 12;
  constexpr int stiff_steps = 14;  // from here on updates go astray: a fresh slope every time
  const auto inverse_slope = [&](const Three& u, const Three& m) -> Eigen::Matrix3d {
    Eigen::Matrix3d slope;
    for (int k = 0; k < 3; ++k) {
      Three nudged = u;
      nudged(k) += way.nudge * unit(k);
      slope.col(k) = (miss(nudged) - m) / way.nudge;
    }
    return slope.inverse();
  };
  Three m = miss(unknown);
  Eigen::Matrix3d inverse = inverse_slope(unknown, m);
  for (int i = 0; i < most; ++i) {
    if (!m.allFinite()) return std::nullopt;
    if (m.cwiseAbs().maxCoeff() < tolerance) return unknown;
    Three step = -inverse * m;
    if (!step.allFinite()) return std::nullopt;
    // A wilder step would leave the branch.
    const double size = step.cwiseAbs().maxCoeff();
    if (size > 0.3) step *= 0.3 / size;
    Three next = miss(unknown + step.cwiseProduct(unit));
    for (int halving = 0; halving < 5 && !(next.norm() < 2.0 * m.norm()); ++halving) {
      step *= 0.25;
      next = miss(unknown + step.cwiseProduct(unit));
    }
    unknown += step.cwiseProduct(unit);
    if (way.steps > stiff_steps) {
      inverse = inverse_slope(unknown, next);
    } else {
      const Three felt = inverse * (next - m);
      inverse += (step - felt) * (step.transpose() * inverse) / step.dot(felt);
    }
    m = next;
  }
  return std::nullopt;
}

Touch seen(const Rod& rod, const Hold& hold, const March& held) {
  Touch touch;
  // Counted from the straight rod, so that it is what the rod gives back when it springs free.
  const double straight = beyond(rod, rod.length, hold.x, hold.z, hold.angle).energy;
  touch.energy = held[6] - straight;
  // What the rod does to its holder: its force, and its bending moment there.
  touch.moment = (held[2] - rod.axis_x) * held[5] - (held[3] - rod.axis_z) * held[4] +
                 rod.bending_stiffness * held[1];
  return touch;
}

std::optional<Touch> on_tip(const Rod& rod, const Hold& hold, double mu, const Touch& guess) {
  const double L = rod.length;
  const double force = rod.bending_stiffness / (L * L);
  const MarchPlan way = plan(rod, hold);
  const auto held = [&](const Three& u) {
    return march(rod, {u(0), 0.0, u(2), 0.0, -mu * u(1), u(1), 0.0}, L, way.steps);
  };
  const auto u =
      solve({guess.angle, guess.normal_force, guess.x}, {1.0, force, L}, hold, L, way, held);
  if (!u || (*u)(1) < -1e-6 * force) return std::nullopt;
  Touch touch = seen(rod, hold, held(*u));
  touch.angle = (*u)(0);
  touch.normal_force = (*u)(1);
  touch.drag = mu * touch.normal_force;
  touch.x = (*u)(2);
  touch.length = L;
  return touch;
}

std::optional<Touch> on_flank(const Rod& rod, const Hold& hold, double mu, const Touch& guess) {
  const double L = rod.length;
  const double force = rod.bending_stiffness / (L * L);
  const MarchPlan way = plan(rod, hold);
  const auto lying = [&](const Three& u) {
    const double length = L - u(0);
    return beyond(rod, length, u(2), 0.0, -0.5 * pi);
  };
  const auto held = [&](const Three& u) {
    const Beyond rest = lying(u);
    // The face carries the lying part's own weight; its drag runs on into the rod.
    return march(
        rod,
        {-0.5 * pi, 0.0, u(2), 0.0, -mu * (u(1) - rest.force_z) + rest.force_x, u(1), rest.energy},
        u(0), way.steps);
  };
  const double bearing = guess.normal_force;
  const auto u = solve({guess.length, bearing, guess.x}, {L, force, L}, hold, L, way, held);
  if (!u || (*u)(1) < 0.0 || (*u)(0) <= 0.0) return std::nullopt;
  Touch touch = seen(rod, hold, held(*u));
  touch.angle = -0.5 * pi;
  touch.normal_force = (*u)(1) - lying(*u).force_z;
  touch.drag = mu * touch.normal_force;
  touch.x = (*u)(2);
  touch.length = (*u)(0);
  touch.flank_length = L - touch.length;
  return touch;
}

}  // namespace

double limpness(const Rod& rod, double hub_radius) noexcept {
  const double tension = pull_of(rod) * rod.length * (hub_radius + 0.5 * rod.length);
  return rod.length * std::sqrt(tension / rod.bending_stiffness);
}

RodState held_end(const Rod& rod, const RodState& free_end, double length, int steps) {
  const March y = march(rod,
                        {free_end.angle, free_end.curvature, free_end.x, free_end.z,
                         free_end.force_x, free_end.force_z, 0.0},
                        length, steps);
  return {y[0], y[1], y[2], y[3], y[4], y[5]};
}

BentRod bent_by_tip_load(const Rod& rod, double load, double direction, int steps) {
  if (load <= 0.0) return {};
  const auto held = [&](double slope) {
    RodState tip{};
    tip.angle = slope;
    tip.force_x = load * std::sin(direction);
    tip.force_z = -load * std::cos(direction);
    return held_end(rod, tip, rod.length, steps);
  };
  const auto miss = [&](double slope) { return held(slope).angle; };
  // Straight on if even a slight bow springs back.
  const double slight = direction < pi ? 0.0 : 1e-6;
  const double low = miss(slight);
  if (low >= 0.0) return {};
  std::uintmax_t iterations = 100;
  const auto [a, b] =
      boost::math::tools::toms748_solve(miss, slight, direction, low, miss(direction),
                                        boost::math::tools::eps_tolerance<double>(48), iterations);
  const double slope = 0.5 * (a + b);
  const RodState root = held(slope);
  return {slope, -root.x, rod.length - root.z};
}

std::optional<Touch> touch_on_face(const Rod& rod, const Hold& hold, double friction,
                                   const Touch& guess) {
  constexpr double level = -0.5 * pi;
  if (guess.flank_length <= 0.0) {
    auto touch = on_tip(rod, hold, friction, guess);
    if (touch && touch->angle >= level) return touch;
    if (!touch) return std::nullopt;
    Touch start = *touch;
    start.length = rod.length * (1.0 - 1e-3);
    return on_flank(rod, hold, friction, start);
  }
  auto touch = on_flank(rod, hold, friction, guess);
  if (touch && touch->length <= rod.length) return touch;
  Touch start = touch.value_or(guess);
  start.angle = level + 1e-3;
  start.flank_length = 0.0;
  touch = on_tip(rod, hold, friction, start);
  if (touch && touch->angle < level - 1e-6) return std::nullopt;
  return touch;
}

std::optional<Touch> touch_on_corner(const Rod& rod, const Hold& hold, double friction,
                                     double corner_x, const Touch& guess) {
  const double L = rod.length;
  const double force = rod.bending_stiffness / (L * L);
  const MarchPlan way = plan(rod, hold);
  const auto held = [&](const Three& u) {
    const double s = std::sin(u(0));
    const double c = std::cos(u(0));
    const Beyond rest = beyond(rod, L - u(2), corner_x, 0.0, u(0));
    return march(rod,
                 {u(0), 0.0, corner_x, 0.0, u(1) * (-c + friction * s) + rest.force_x,
                  u(1) * (-s - friction * c) + rest.force_z, rest.energy},
                 u(2), way.steps);
  };
  const auto u =
      solve({guess.angle, guess.normal_force, guess.length}, {1.0, force, L}, hold, L, way, held);
  if (!u || (*u)(1) < -1e-6 * force || (*u)(2) <= 0.0) return std::nullopt;
  Touch touch = seen(rod, hold, held(*u));
  touch.angle = (*u)(0);
  touch.normal_force = (*u)(1);
  touch.drag = friction * touch.normal_force;
  touch.x = corner_x;
  touch.length = (*u)(2);
  return touch;
}

}  // namespace drumlin::models
