#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/remedy/trials.hpp"
#include "sim/remedy_result.hpp"

namespace drumlin::sim {

/// A knob as a line to look along, with the case's own value at 0: numbers by the logarithm of
/// value over own value, whole numbers and choices by steps.
class Axis {
 public:
  Axis(const cases::Knob& knob, int index) : knob_(knob), index_(index) {}

  [[nodiscard]] const cases::Knob& knob() const noexcept { return knob_; }
  [[nodiscard]] int index() const noexcept { return index_; }
  [[nodiscard]] bool in_steps() const noexcept { return knob_.kind != cases::Knob::Kind::number; }
  /// End of the range that way, its distance from the case [>= 0]; 0: nothing lies that way.
  [[nodiscard]] double reach(int way) const;
  [[nodiscard]] double value(double place) const;
  /// Places that are looked at first, outwards, the last at the end of the range.
  [[nodiscard]] std::vector<double> places(int way) const;
  /// Size of a change, to compare knobs by [-].
  [[nodiscard]] double change(double place) const;
  /// Where in the range a place lies [0..1].
  [[nodiscard]] double share(double place) const;
  /// Place of a value [inner unit].
  [[nodiscard]] double place(double value) const;
  [[nodiscard]] Settings settings(double place) const;
  /// The change as results have it.
  [[nodiscard]] Turned turned(double place) const;
  /// A value of the knob as a person reads it.
  [[nodiscard]] std::string text(double value) const;

 private:
  const cases::Knob& knob_;
  int index_;
};

/// What of a trial is held against zero: the margin of one limit, or the worst of all.
struct Target {
  int limit = -1;  ///< index; -1: all limits
  [[nodiscard]] std::optional<double> margin(const Trial& trial) const;
};

/// Where looking along an axis ended.
struct Crossing {
  bool found = false;
  double place = 0;  ///< the last place, seen from the case, on the side where the limit is met
  std::optional<double> margin;  ///< where looking ended without finding
  std::string ended_by;
};

/// The nearest place along an axis at which a target turns from not met to met, or the other way
/// where it is met as set. Looks at `Axis::places` in turn, and between two of different sign finds
/// the root by Alefeld, Potra and Shi (1995), algorithm 748, to 1e-8.
[[nodiscard]] Crossing look_along(Trials& trials, const Axis& axis, int way, const Target& target);

/// The same change with a number rounded away from the case's own value to three digits, not tried.
[[nodiscard]] Turned rounded_away(const Axis& axis, Turned turned, double hit = 0.0);

/// Turns an end that a person could set: rounded away from the case's own value to three digits,
/// and tried.
void round_to_settable(Trials& trials, const Axis& axis, const Target& target, Turned& turned);

/// The knobs as the result lists them, in the axes' order.
[[nodiscard]] std::vector<RemedyKnob> shown_knobs(const std::vector<Axis>& axes);

}  // namespace drumlin::sim
