#include "sim/remedy/axis.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/format.h>

namespace drumlin::sim {
namespace {

/// Places from the case's own value to either end of a range: a fifth of the value or nearer.
constexpr int scan_steps = 10;
/// Bits to which a root is found: 2^-27 is 7e-9, a hundredth of what 1e-6 would ask.
constexpr int root_bits = 28;
constexpr std::uintmax_t most_root_steps = 40;

}  // namespace

double Axis::reach(int way) const {
  if (!knob_.not_sought.empty()) return 0;
  if (in_steps()) return std::max(way > 0 ? knob_.high - knob_.now : knob_.now - knob_.low, 0.0);
  const double end = way > 0 ? knob_.high : knob_.low;
  if (!(end > 0) || !(knob_.now > 0)) return 0;
  return std::max(way * std::log(end / knob_.now), 0.0);
}

double Axis::value(double place) const {
  if (in_steps()) return knob_.now + place;
  // The ends themselves are exact: a legal range is closed.
  return std::clamp(knob_.now * std::exp(place), std::min(knob_.low, knob_.now),
                    std::max(knob_.high, knob_.now));
}

std::vector<double> Axis::places(int way) const {
  const double end = reach(way);
  std::vector<double> list;
  if (in_steps()) {
    for (int i = 1; i <= static_cast<int>(end); ++i)
      list.push_back(way * i);
  } else if (end > 0) {
    for (int i = 1; i <= scan_steps; ++i)
      list.push_back(way * end * i / scan_steps);
  }
  return list;
}

double Axis::change(double place) const {
  if (knob_.kind == cases::Knob::Kind::whole) return std::abs(std::log(value(place) / knob_.now));
  return std::abs(place);
}

double Axis::share(double place) const {
  const double below = reach(-1);
  const double all = below + reach(+1);
  return all > 0 ? std::clamp((place + below) / all, 0.0, 1.0) : 0.5;
}

double Axis::place(double value) const {
  return in_steps() ? value - knob_.now : std::log(value / knob_.now);
}

Settings Axis::settings(double place) const {
  if (place == 0.0) return {};
  return {{index_, value(place)}};
}

std::string Axis::text(double value) const {
  if (knob_.kind == cases::Knob::Kind::choice)
    return knob_.words.at(static_cast<std::size_t>(value));
  const double shown = value / knob_.factor;
  std::string number =
      std::abs(shown) >= 1000.0 ? fmt::format("{:.0f}", shown) : fmt::format("{:.3g}", shown);
  if (knob_.key.find('*') != std::string::npos && shown == 1.0) return "as in the case";
  if (knob_.paths.size() > 1 || (knob_.kind == cases::Knob::Kind::number && knob_.unit.empty()))
    return number + " times the case's";
  return knob_.unit.empty() ? number : number + ' ' + knob_.unit;
}

Turned Axis::turned(double place) const {
  Turned turned;
  turned.knob = index_;
  if (knob_.kind != cases::Knob::Kind::choice) turned.to = value(place) / knob_.factor;
  if (knob_.kind == cases::Knob::Kind::whole) turned.setting = turned.to;
  turned.share = share(place);
  turned.text = text(value(place));
  return turned;
}

std::optional<double> Target::margin(const Trial& trial) const {
  if (!trial.refused.empty()) return std::nullopt;
  if (limit < 0) return trial.worst();
  return trial.limits[static_cast<std::size_t>(limit)].margin;
}

Crossing look_along(Trials& trials, const Axis& axis, int way, const Target& target) {
  Crossing crossing;
  const auto at = [&](double place) -> const Trial& { return trials.at(axis.settings(place)); };
  const auto as_set = target.margin(trials.base());
  if (!as_set) return crossing;
  const bool met = *as_set >= 0;
  double before = 0;
  double margin_before = *as_set;
  crossing.margin = as_set;
  for (const double place : axis.places(way)) {
    const Trial& trial = at(place);
    const auto margin = target.margin(trial);
    if (!margin) {
      crossing.place = before;
      crossing.ended_by = trial.refused.empty() ? "the fast model gives no value" : trial.refused;
      return crossing;
    }
    if ((*margin >= 0) == met) {
      before = crossing.place = place;
      margin_before = *margin;
      crossing.margin = margin;
      continue;
    }
    crossing.found = true;
    crossing.margin.reset();
    if (axis.in_steps()) {
      crossing.place = met ? before : place;
      return crossing;
    }
    double in = met ? before : place;  // the nearest place known on the side where it is met
    const auto distance = [&](double x) {
      const double m = target.margin(at(x)).value_or(-1.0);
      if (m >= 0 && (met ? way * x > way * in : way * x < way * in)) in = x;
      return m;
    };
    const bool up = before < place;
    std::uintmax_t steps = most_root_steps;
    static_cast<void>(boost::math::tools::toms748_solve(
        distance, std::min(before, place), std::max(before, place), up ? margin_before : *margin,
        up ? *margin : margin_before, boost::math::tools::eps_tolerance<double>(root_bits), steps));
    crossing.place = in;
    return crossing;
  }
  const cases::Knob& knob = axis.knob();
  crossing.ended_by = way > 0 ? knob.high_by : knob.low_by;
  return crossing;
}

Turned rounded_away(const Axis& axis, Turned turned, double hit) {
  const cases::Knob& knob = axis.knob();
  if (axis.in_steps() || !turned.to) return turned;
  const double to = *turned.to;
  constexpr int digits = 3;
  const double step =
      knob.step > 0 ? knob.step : std::pow(10.0, std::floor(std::log10(to)) - (digits - 1));
  const double steps =
      to * knob.factor > knob.now ? std::ceil(to / step - hit) : std::floor(to / step + hit);
  // By division where the step is a fraction, so that 2.7 is the number that a person writes.
  const double round = step < 1 ? steps / std::round(1 / step) : steps * step;
  if (round * knob.factor < knob.low || round * knob.factor > knob.high) return turned;
  turned.setting = round;
  turned.share = axis.share(axis.place(round * knob.factor));
  turned.text = axis.text(round * knob.factor);
  return turned;
}

void round_to_settable(Trials& trials, const Axis& axis, const Target& target, Turned& turned) {
  if (axis.in_steps()) return;
  // A round number that the root hits but for rounding is taken as hit.
  for (const double hit : {1e-6, 0.0}) {
    const Turned rounded = rounded_away(axis, turned, hit);
    if (!rounded.setting) continue;
    const double inner = *rounded.setting * axis.knob().factor;
    const auto margin = target.margin(trials.at({{axis.index(), inner}}));
    if (!margin || *margin < 0) continue;
    turned = rounded;
    return;
  }
}

std::vector<RemedyKnob> shown_knobs(const std::vector<Axis>& axes) {
  std::vector<RemedyKnob> list;
  for (const Axis& axis : axes) {
    const cases::Knob& knob = axis.knob();
    RemedyKnob shown;
    shown.key = knob.key;
    shown.name =
        knob.station < 0 ? knob.name : fmt::format("station {} {}", knob.station + 1, knob.name);
    const bool words = knob.kind == cases::Knob::Kind::choice;
    shown.unit = words ? "text" : knob.unit.empty() ? "1" : knob.unit;
    shown.setting = knob.setting;
    shown.now_text = axis.text(knob.now);
    if (!words) shown.now = knob.now / knob.factor;
    if (!words && knob.not_sought.empty()) {
      shown.low = knob.low / knob.factor;
      shown.high = knob.high / knob.factor;
    }
    shown.now_share = axis.share(0.0);
    shown.low_by = knob.low_by;
    shown.high_by = knob.high_by;
    shown.not_sought = knob.not_sought;
    list.push_back(std::move(shown));
  }
  return list;
}

}  // namespace drumlin::sim
