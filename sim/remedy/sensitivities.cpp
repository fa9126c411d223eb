#include "sim/remedy/sensitivities.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include <fmt/format.h>

namespace drumlin::sim {
namespace {

/// Step in the logarithm of a knob: one per cent, far above what the fast model's own iterations
/// leave open (1e-6 and less), small enough for a second-order error of 1e-4.
constexpr double step = 0.01;
/// Differences by more than this part of the larger are said.
constexpr double smooth_within = 0.1;
/// Elasticities below this are taken as nothing: rounding and iterations.
constexpr double nothing = 1e-5;

/// One value of a trial, with its name.
struct Value {
  std::string name, unit;
  std::optional<double> value;
};

std::vector<Value> values_of(const Trial& trial, const Verdict& verdict) {
  std::vector<Value> list;
  for (std::size_t i = 0; i < trial.limits.size(); ++i)
    list.push_back({verdict.items[i].name, verdict.items[i].unit, trial.limits[i].value});
  for (const MainQuantity& main : trial.main)
    list.push_back({main.name, main.unit, main.value});
  return list;
}

std::optional<double> value_named(const std::vector<Value>& list, std::size_t i,
                                  const std::string& name) {
  if (i < list.size() && list[i].name == name) return list[i].value;
  for (const Value& value : list)
    if (value.name == name) return value.value;
  return std::nullopt;
}

/// d value / d ln knob, and d ln value / d ln knob where both ends are positive.
struct Slope {
  double per_log = 0;
  std::optional<double> elasticity;
};

class Steps {
 public:
  Steps(Trials& trials, const Axis& axis) : trials_(trials), axis_(axis) {}

  void add(std::vector<Sensitivity>& list);

 private:
  void add_number(std::vector<Sensitivity>& list);
  void add_steps(std::vector<Sensitivity>& list, int way);
  /// Ends of a difference over so much either way; the case itself where one side is refused.
  struct Ends {
    std::vector<Value> low, high;
    double width = 0;
  };
  [[nodiscard]] std::optional<Ends> ends(double half);
  [[nodiscard]] static std::optional<Slope> slope(const Ends& ends, std::size_t i,
                                                  const std::string& name);

  Trials& trials_;
  const Axis& axis_;
};

std::optional<Steps::Ends> Steps::ends(double half) {
  const double now = axis_.knob().now;
  const auto at = [&](double place) -> const Trial& {
    return trials_.at({{axis_.index(), now * std::exp(place)}});
  };
  Ends ends;
  const Trial* low = &at(-half);
  const Trial* high = &at(half);
  ends.width = 2.0 * half;
  if (!low->refused.empty()) {
    low = &trials_.base();
    ends.width -= half;
  }
  if (!high->refused.empty()) {
    high = &trials_.base();
    ends.width -= half;
  }
  if (ends.width <= 0.0) return std::nullopt;
  ends.low = values_of(*low, trials_.verdict());
  ends.high = values_of(*high, trials_.verdict());
  return ends;
}

std::optional<Slope> Steps::slope(const Ends& ends, std::size_t i, const std::string& name) {
  const auto low = value_named(ends.low, i, name);
  const auto high = value_named(ends.high, i, name);
  if (!low || !high) return std::nullopt;
  Slope slope;
  slope.per_log = (*high - *low) / ends.width;
  if (*low > 0.0 && *high > 0.0) slope.elasticity = std::log(*high / *low) / ends.width;
  return slope;
}

void Steps::add_number(std::vector<Sensitivity>& list) {
  const auto whole = ends(step);
  const auto half = ends(0.5 * step);
  if (!whole || !half) return;
  const auto base = values_of(trials_.base(), trials_.verdict());
  for (std::size_t i = 0; i < base.size(); ++i) {
    const auto coarse = slope(*whole, i, base[i].name);
    const auto fine = slope(*half, i, base[i].name);
    if (!coarse || !fine) continue;
    Sensitivity entry;
    entry.knob = axis_.index();
    entry.quantity = base[i].name;
    entry.unit = base[i].unit;
    entry.step = "+1 %";
    entry.change = fine->per_log * std::log1p(step);
    entry.elasticity = fine->elasticity;
    const double size = std::max(std::abs(coarse->per_log), std::abs(fine->per_log));
    const double scale = std::abs(base[i].value.value_or(0.0));
    entry.smooth = size <= nothing * scale ||
                   std::abs(coarse->per_log - fine->per_log) <= smooth_within * size;
    list.push_back(std::move(entry));
  }
}

void Steps::add_steps(std::vector<Sensitivity>& list, int way) {
  if (axis_.reach(way) < 1.0) return;
  const Trial& trial = trials_.at(axis_.settings(way));
  if (!trial.refused.empty()) return;
  const auto base = values_of(trials_.base(), trials_.verdict());
  const auto there = values_of(trial, trials_.verdict());
  for (std::size_t i = 0; i < base.size(); ++i) {
    const auto value = value_named(there, i, base[i].name);
    if (!value || !base[i].value) continue;
    Sensitivity entry;
    entry.knob = axis_.index();
    entry.quantity = base[i].name;
    entry.unit = base[i].unit;
    entry.step = axis_.knob().kind == cases::Knob::Kind::whole
                     ? std::string(way > 0 ? "one more" : "one less")
                     : "to " + axis_.text(axis_.value(way));
    entry.change = *value - *base[i].value;
    list.push_back(std::move(entry));
  }
}

void Steps::add(std::vector<Sensitivity>& list) {
  if (!axis_.knob().not_sought.empty()) return;
  if (!axis_.in_steps()) {
    add_number(list);
    return;
  }
  add_steps(list, -1);
  add_steps(list, +1);
}

}  // namespace

std::vector<Sensitivity> sensitivities(Trials& trials, const std::vector<Axis>& axes) {
  std::vector<Sensitivity> list;
  for (const Axis& axis : axes)
    Steps(trials, axis).add(list);
  return list;
}

}  // namespace drumlin::sim
