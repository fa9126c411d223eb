#include <algorithm>

#include "sim/line/passage.hpp"

/// The part of a step of a passage in which burrs give way.
namespace drumlin::sim::line {
namespace {

/// A lip that the hinge holds with this share of its moment need not be turned back. From 0.7 its
/// turn is up to 0.03 rad more, a thirtieth of its overhang.
constexpr double held_well = 0.95;
/// Turns are told apart to this [rad]: a tenth of a micrometre at the tip of a usual burr.
constexpr double least_turn = 1e-3;
constexpr int most_turns = 12;

}  // namespace

/// Turns a burr that its hinge no longer holds until it does; `solve` presses the strip anew.
void Passage::turn(Strip& strip, Hinge& hinge, const std::function<void()>& solve) {
  const Strip before = strip;
  const std::vector<double> guess = pressure_;
  const auto over = [&](double angle) {
    strip = before;
    hinge.turn_to(angle);
    solve();
    const BurrLoad load = hinge.load(first_, pressure_);
    return load.moment / load.limit;
  };
  // The arm grows while the burr goes down and the force falls as it gets out of the belt's way:
  // somewhere on the way down the hinge holds again.
  double low = hinge.turn();
  double high = low;
  double at_high = 0.0;
  for (const double step : {0.06, 0.3, 0.6, 1.2, 1.2}) {
    high = std::min(high + step, models::farthest_turn);
    at_high = over(high);
    if (at_high <= 1.0 || high >= models::farthest_turn) break;
    low = high;
  }
  for (int k = 0; k < most_turns && at_high < held_well && high - low > least_turn; ++k) {
    const double middle = 0.5 * (low + high);
    const double at_middle = over(middle);
    (at_middle > 1.0 ? low : high) = middle;
    if (at_middle <= 1.0) at_high = at_middle;
  }
  pressure_ = guess;
  over(high);
}

/// Lets burrs fold and beads break off under the pressure of this step; true if any did.
bool Passage::yield(Strip& strip, std::vector<Hinge>& hinges, const std::function<void()>& solve) {
  bool any = false;
  for (std::size_t e = 0; e < hinges.size(); ++e) {
    StripEdge& edge = strip.edges[e];
    if (const auto* bead = std::get_if<models::Bead>(&edge.burr)) {
      if (!break_off(strip, edge, *bead)) continue;
    } else {
      Hinge& hinge = hinges[e];
      if (!hinge.bends()) continue;
      const BurrLoad load = hinge.load(first_, pressure_);
      if (load.normal <= 0.0 || load.moment <= load.limit) continue;
      // The force rises until the hinge gives, somewhere within the step.
      if (!edge.fold_start)
        edge.peak_force = std::max(edge.peak_force, load.normal * load.limit / load.moment);
      if (hinge.falls_outward()) {
        turn(strip, hinge, solve);
        any = true;
        continue;
      }
      hinge.lay_on_face();
    }
    solve();
    any = true;
  }
  return any;
}

/// Takes a bead off the face if its bond no longer holds it; true if it went.
bool Passage::break_off(Strip& strip, StripEdge& edge, const models::Bead& bead) const {
  if (edge.broken_off) return false;
  double force = 0.0;
  double height = 0.0;
  for (std::size_t i = 0; i < edge.reach; ++i) {
    const std::size_t cell = Strip::inward(edge, i);
    height = std::max(height, strip.burr[cell]);
    if (cell < first_ || cell >= first_ + count_ || strip.burr[cell] <= 0.0) continue;
    force += pressure_[cell - first_] * strip.width(cell) / edge.stretch;
  }
  if (height <= 0.0) return false;
  const double bears =
      models::breaking_force(bead, height, drum_.station().friction / edge.stretch);
  if (force < bears) return false;
  edge.peak_force = std::max(edge.peak_force, bears);
  shed_burr(strip, edge);
  return true;
}

}  // namespace drumlin::sim::line
