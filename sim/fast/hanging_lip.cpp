#include "sim/fast/hanging_lip.hpp"

#include <algorithm>
#include <cmath>

namespace drumlin::sim::fast {
namespace {

/// A lip thinner than this at its foot no longer holds [-], as in `line::Hinge`.
constexpr double holds_from = 0.05;
/// Parts of a step.
constexpr double most_parts = 40;
/// Turns are told apart to this [rad]: a tenth of a micrometre at the tip of a usual burr.
constexpr double least_turn = 1e-3;

/// What presses on a lip that has turned so far.
struct Pressed {
  double force = 0;              // [N/mm]
  double moment = 0;             // about the edge line, grains counted [N]
  std::vector<double> pressure;  // per stretch [MPa]
};

/// A lip with what wear has left of it, and the belt over it.
class HangingLip {
 public:
  HangingLip(const SectionRim& rim, double base, const LipPress& press)
      : rim_(rim), base_(base), press_(press), bounds_(lip_bounds(*rim.lip)) {}

  [[nodiscard]] Pressed at(double turn) const {
    models::Lip lip = *rim_.lip;
    lip.turn = turn;
    Pressed pressed;
    double even = 0.0;
    double arms = 0.0;
    double width = 0.0;
    for (std::size_t k = 0; k < rim_.lip_worn.size(); ++k) {
      const double over = 0.5 * (bounds_[k] + bounds_[k + 1]);
      const double up = models::top(lip, 0.5 * lip.thickness + over) - rim_.lip_worn[k];
      const double belt = press_.belt - press_.slope * over;
      const double p = std::max((base_ + up - belt) / (press_.give + press_.wear), 0.0);
      pressed.pressure.push_back(p);
      if (p <= 0.0) continue;
      const double across = bounds_[k + 1] - bounds_[k];
      const double high = std::max(up, 0.0);
      pressed.force += p * across;
      even += p * across * (press_.friction * high + over);
      arms += p * across * std::hypot(high, over);
      width += across;
    }
    if (pressed.force > 0.0)
      pressed.moment =
          even * models::grain_concentration(press_.grain_spacing, arms / pressed.force, width,
                                             models::hinge_thickness(lip));
    return pressed;
  }

  /// Least turn at which the hinge bears it [rad].
  [[nodiscard]] double rest(double limit) const {
    double low = rim_.lip->turn;
    if (low >= models::farthest_turn || at(low).moment <= limit) return low;
    double high = models::farthest_turn;
    while (high - low > least_turn) {
      const double middle = 0.5 * (low + high);
      (at(middle).moment <= limit ? high : low) = middle;
    }
    return high;
  }

 private:
  const SectionRim& rim_;
  double base_;
  const LipPress& press_;
  std::vector<double> bounds_;
};

/// Thickness of a stretch of a lip before wear, measured upright [mm].
double whole(const models::Lip& lip, const std::vector<double>& bounds, std::size_t k) {
  return models::upright_thickness(lip, 0.5 * lip.thickness + 0.5 * (bounds[k] + bounds[k + 1]));
}

/// Shares of its thickness that wear has left of a lip, per stretch [-]. All its metal hangs beyond
/// the edge line, also what its plate would have inwards of it.
std::vector<double> shares_left(const SectionRim& rim) {
  const models::Lip& lip = *rim.lip;
  const std::vector<double> bounds = lip_bounds(lip);
  double outside = 0.0;
  for (std::size_t k = 0; k < rim.lip_worn.size(); ++k)
    outside += whole(lip, bounds, k) * (bounds[k + 1] - bounds[k]);
  const double thicker = outside > 0.0 ? std::max(lip.length * lip.thickness / outside, 1.0) : 1.0;
  std::vector<double> left;
  for (std::size_t k = 0; k < rim.lip_worn.size(); ++k) {
    const double thickness = thicker * whole(lip, bounds, k);
    const double worn = thickness > 0.0 ? rim.lip_worn[k] / thickness : 0.0;
    left.push_back(std::max(1.0 - worn, 0.0));
  }
  return left;
}

double foot_share(const SectionRim& rim) {
  return rim.lip_worn.empty() ? 1.0 : shares_left(rim).front();
}

/// What stands over the root goes down with the lip, as far as wear has left it.
void sink_bend(Section& section, SectionRim& rim, double removed) {
  double highest = 0.0;
  for (std::size_t i = 0; i < rim.reach; ++i) {
    const std::size_t cell = Section::inwards(rim, i);
    const double in = rim.across * std::abs(section.x(cell) - rim.x);
    const double top = models::top(*rim.lip, 0.5 * rim.lip->thickness - in);
    const double sunk = std::max(section.burr[cell] - std::max(top, 0.0), 0.0);
    section.burr[cell] -= sunk;
    section.height[cell] -= sunk;
    highest = std::max(highest, section.burr[cell]);
  }
  rim.fold_stop = section.height[rim.cell] - section.burr[rim.cell] + highest + removed;
}

}  // namespace

std::vector<double> lip_bounds(const models::Lip& lip) {
  std::vector<double> bounds{0.0};
  for (double width = 0.125 * lip.thickness; bounds.back() < lip.length; width *= 4.0 / 3.0)
    bounds.push_back(std::min(bounds.back() + width, lip.length));
  return bounds;
}

double press_lip(Section& section, SectionRim& rim, const LipPress& press, double removed) {
  if (press.give + press.wear <= 0.0) return 0.0;
  // A lip turns out of the way while the step wears it: in parts that wear less than grains give.
  const double parts =
      std::clamp(std::ceil(2.0 * press.wear / std::max(press.give, 1e-9)), 1.0, most_parts);
  const double burr = section.burr[rim.cell];
  const double base = section.height[rim.cell] - burr;
  const double before = rim.lip->turn;
  double force = 0.0;
  LipPress part = press;
  part.wear = press.wear / parts;
  for (double done = 1.0; done <= parts; done += 1.0) {
    const double share = foot_share(rim);
    if (share < holds_from) {
      rim.lip.reset();
      rim.beyond = false;
      return force;
    }
    const double sunk = press.sinks * done / parts;
    part.belt = press.belt - sunk;
    const HangingLip hanging(rim, base - std::max(sunk - burr, 0.0), part);
    rim.lip->turn = hanging.rest(models::plastic_moment(models::flow_stress_of(rim.burr),
                                                        share * models::hinge_thickness(*rim.lip)));
    const Pressed pressed = hanging.at(rim.lip->turn);
    for (std::size_t k = 0; k < rim.lip_worn.size(); ++k)
      rim.lip_worn[k] += part.wear * pressed.pressure[k];
    force = std::max(force, pressed.force);
  }
  if (rim.lip->turn > before) sink_bend(section, rim, removed);
  return force;
}

double overhang(const SectionRim& rim) {
  if (!rim.lip || !rim.beyond) return 0.0;
  // Ground through somewhere, the rest of it falls.
  const std::vector<double> left = shares_left(rim);
  const auto gone = std::find(left.begin(), left.end(), 0.0) - left.begin();
  const double whole_one = models::overhang(*rim.lip);
  return std::min(whole_one, lip_bounds(*rim.lip)[static_cast<std::size_t>(gone)] +
                                 (static_cast<std::size_t>(gone) == left.size() ? whole_one : 0.0));
}

double lip_thickness(const SectionRim& rim) {
  return rim.beyond ? foot_share(rim) * rim.lip->thickness : rim.lip->thickness;
}

}  // namespace drumlin::sim::fast
