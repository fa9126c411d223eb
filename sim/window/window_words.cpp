#include "sim/window/window_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <fmt/format.h>

namespace drumlin::sim {
namespace {

/// Share of the map below which a limit is not worth a word.
constexpr double least_share = 0.005;
/// Draws of which none fails before 0.99 can be told from certainty's absence: with n of n kept the
/// exact interval reaches down to about 1 - 3.7/n.
constexpr std::size_t draws_for_99 = 368;

std::string with_unit(const WindowAxis& axis, double value, int decimals) {
  std::string number = fmt::format("{:.{}f}", value, decimals);
  if (number.find_first_not_of("-0.") == std::string::npos && number[0] == '-') number.erase(0, 1);
  return axis.unit.empty() ? number : fmt::format("{} {}", number, axis.unit);
}

/// Decimals that a step of that size needs, with one digit to spare.
int decimals_for(double step) {
  if (!(step > 0)) return 0;
  return std::clamp(static_cast<int>(std::ceil(1 - std::log10(step) - 1e-9)), 0, 9);
}

/// Underscores as spaces.
std::string spoken(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

class Words {
 public:
  explicit Words(Window& window) : window_(window) {}

  void shares();
  void box();
  void own();
  void probability();
  void model();
  void sharpness();
  void left_out(const cases::Accept& accept);

 private:
  void say(std::string text) { window_.words.push_back(std::move(text)); }
  void note(std::string text) { window_.notes.push_back(std::move(text)); }
  [[nodiscard]] std::string way(std::size_t axis, std::size_t side) const {
    return fmt::format("towards {} {}", side == 0 ? "lower" : "higher", window_.axes[axis].name);
  }
  [[nodiscard]] std::string fails(int kind) const {
    return kind < 0 ? "it is " + window_.kind_name(kind) : window_.kind_name(kind) + " fails first";
  }

  Window& window_;
};

void Words::shares() {
  std::vector<const WindowLimit*> failing;
  for (const WindowLimit& limit : window_.limits)
    if (limit.share >= least_share) failing.push_back(&limit);
  std::stable_sort(failing.begin(), failing.end(),
                   [](const WindowLimit* a, const WindowLimit* b) { return a->share > b->share; });
  std::string text = fmt::format("Accepted: {:.0f} % of the map.", 100 * window_.accepted_share);
  if (!failing.empty()) {
    text += " Fails first:";
    for (std::size_t k = 0; k < failing.size(); ++k)
      text += fmt::format("{} {} in {:.0f} %", k == 0 ? "" : ",", spoken(failing[k]->name),
                          100 * failing[k]->share);
    text += ".";
  }
  if (window_.not_known_share > 0)
    text += fmt::format(" Not known: {:.1f} %.", 100 * window_.not_known_share);
  if (window_.not_computed_share > 0)
    text += fmt::format(" Cannot be computed: {:.1f} %.", 100 * window_.not_computed_share);
  say(std::move(text));
}

void Words::box() {
  if (!window_.robust) {
    say(window_.accepted_share > 0 ? "No box of accepted settings is wider than the map's finest "
                                     "cells: there is no setting "
                                     "with room on all sides."
                                   : "Nothing in the map is accepted.");
    return;
  }
  const RobustBox& box = *window_.robust;
  std::array<std::string, 2> settings;
  for (std::size_t k = 0; k < 2; ++k) {
    const WindowAxis& axis = window_.axes[k];
    settings[k] = axis.name + " " +
                  plus_minus(axis, axis.at(box.middle[k]), box.reach * (axis.to - axis.from));
  }
  std::string text = fmt::format(
      "Most robust: {} with {}: all is accepted so far, {:.0f} % of each range either way.",
      settings[0], settings[1], 100 * box.reach);
  if (box.at_rim) text += " The map's end holds the box: a wider range may give a wider one.";
  say(std::move(text));
  std::vector<std::string> sides;
  for (std::size_t axis = 0; axis < 2; ++axis)
    for (std::size_t side = 0; side < 2; ++side) {
      const BorderDistance& distance = box.distances[axis][side];
      const WindowAxis& of = window_.axes[axis];
      if (distance.share)
        sides.push_back(fmt::format("{} {} after {}", way(axis, side), fails(distance.beyond),
                                    with_unit(of, *distance.share * (of.to - of.from),
                                              decimals_for(*distance.share * (of.to - of.from)))));
      else
        sides.push_back(way(axis, side) + " no limit fails before the map ends");
    }
  std::string all = fmt::format("From there {}.", fmt::join(sides, "; "));
  say(std::move(all));
}

void Words::own() {
  const OwnPoint& own = window_.own;
  if (!own.place) {
    say("The case's own setting does not lie on this map" +
        std::string(own.values[0] && own.values[1] ? "." : ": it leaves one of the two open."));
    return;
  }
  std::string text = fmt::format(
      "The case itself, {}, is {}", place_text(window_, *own.place),
      own.kind <= 0 ? window_.kind_name(own.kind)
                    : "not accepted: " + spoken(window_.kind_name(own.kind)) + " fails");
  std::vector<std::string> ways;
  for (std::size_t axis = 0; axis < 2; ++axis)
    for (std::size_t side = 0; side < 2; ++side) {
      const BorderDistance& distance = (*own.distances)[axis][side];
      if (!distance.share) continue;
      const WindowAxis& of = window_.axes[axis];
      const double away = *distance.share * (of.to - of.from);
      ways.push_back(
          fmt::format("{} {}", with_unit(of, away, decimals_for(away)), way(axis, side)));
    }
  if (!ways.empty()) text += fmt::format("; the border is {} away", fmt::join(ways, ", "));
  say(text + ".");
}

std::string share_text(const Proportion& share, std::size_t draws) {
  return fmt::format("{:.0f} of {} draws ({:.3f} to {:.3f} with 95 % confidence)",
                     share.value * static_cast<double>(draws), draws, share.low, share.high);
}

void Words::probability() {
  if (!window_.probability) return;
  const WindowProbability& p = *window_.probability;
  if (p.best.met.value <= 0) {
    say(fmt::format("With what scatters, nowhere in the map one of {} draws keeps all limits.",
                    p.draws));
  } else {
    say(fmt::format("With what scatters, all limits are kept most often near {}: {}.",
                    place_text(window_, p.best_place), share_text(p.best.met, p.draws)));
  }
  if (p.at_robust)
    say(fmt::format("At the most robust setting: {}.", share_text(*p.at_robust, p.draws)));
  if (p.at_own) say(fmt::format("At the case itself: {}.", share_text(*p.at_own, p.draws)));
  note(
      "The probability counts what scatters as the study states it, and no error of the model "
      "itself; the map is drawn with the case's own values.");
  if (p.draws < draws_for_99)
    note(fmt::format(
        "With {0} draws even {0} of {0} kept says no more than {1:.3f}: the contour of 0.99 shows "
        "where 99 % of these draws keep the limits. Give [window] more draws for more.",
        p.draws, proportion(p.draws, p.draws).low));
  if (p.stopped_early)
    note("The nodes of the probability did not suffice to follow every contour finely.");
}

void Words::model() {
  note(fmt::format(
      "Nominal values of the {} model{}", window_.model,
      window_.calibrated ? "." : ", uncalibrated: no measured sample of this line has been used."));
  std::vector<std::string> open;
  for (const VerdictItem& item : window_.own.verdict.items) {
    if (!item.value || !item.value->low || !item.value->high) continue;
    const auto inside = [&](const std::optional<double>& limit) {
      return limit && *limit > *item.value->low && *limit < *item.value->high;
    };
    if (inside(item.low) || inside(item.high))
      open.push_back(fmt::format("{} {:.3g} to {:.3g} {} (limit {})", spoken(item.name),
                                 *item.value->low, *item.value->high, item.unit, item.limit));
  }
  if (!open.empty())
    note(fmt::format(
        "At the case itself these bands reach over their limits: {}. The true border may run on "
        "either side of it; samples near the border place it.",
        fmt::join(open, "; ")));
}

void Words::sharpness() {
  const auto n = static_cast<double>(window_.map.cells);
  std::array<std::string, 2> cell;
  for (std::size_t k = 0; k < 2; ++k) {
    const WindowAxis& axis = window_.axes[k];
    const double size = (axis.to - axis.from) / n;
    cell[k] = with_unit(axis, size, decimals_for(size));
  }
  note(fmt::format(
      "The finest cells are {} by {}; within them the border lies where a limit's margin is zero "
      "on the straight line between two evaluated points. What is smaller than a cell of the first "
      "grid can be missed.",
      cell[0], cell[1]));
  std::vector<std::string> leaping;
  for (const WindowLimit& limit : window_.limits)
    if (limit.leaps) leaping.push_back(spoken(limit.name));
  if (!leaping.empty())
    note(fmt::format("Leaps at its border, which is known to within a finest cell only: {}.",
                     fmt::join(leaping, ", ")));
  if (window_.map.stopped_early)
    note(fmt::format(
        "The {} evaluations did not suffice for the finest level everywhere; [window] evaluations "
        "allows more.",
        window_.evaluations.map));
  if (window_.robust && window_.robust->shrunk > 0)
    note(
        "The box was made smaller by a few quarters of a finest cell, until its middle, corners "
        "and "
        "sides were all accepted.");
}

void Words::left_out(const cases::Accept& accept) {
  if (accept.limits.contains("belt_life"))
    note("The limit on belt_life is not looked at in a window; drumlin run judges it.");
  for (const NotComputed& of : window_.not_computed)
    note(fmt::format("Cannot be computed at {} of {} points, such as {}: {}", of.points,
                     window_.points.size(), place_text(window_, of.example), of.reason));
  if (window_.model != "line")
    note("Run the setting that you choose by the line model before a trial (numerics.model).");
}

}  // namespace

std::string spoken_setting(std::string_view key, std::size_t stations) {
  std::vector<std::string> steps(1);
  for (const char c : key) {
    if (c == '.')
      steps.emplace_back();
    else
      steps.back() += c == '_' ? ' ' : c;
  }
  std::string station;
  if (steps.front().starts_with("station[")) {
    station = steps.front();
    steps.erase(steps.begin());
    if (!steps.empty() && steps.front() == "setting") steps.erase(steps.begin());
    // A speed alone would be anybody's.
    if (steps.size() == 1 && (steps[0] == "speed" || steps[0] == "direction"))
      steps.insert(steps.begin(), "tool");
  }
  std::string text = fmt::format("{}", fmt::join(steps, " "));
  if (!station.empty() && stations > 1) text += " of " + station;
  return text;
}

std::string axis_text(const WindowAxis& axis, double value) {
  const int decimals = std::max(0, decimals_for((axis.to - axis.from) / 100) - 1);
  return with_unit(axis, value, decimals);
}

std::string plus_minus(const WindowAxis& axis, double value, double reach) {
  const int decimals = decimals_for(reach);
  return fmt::format("{:.{}f} \u00b1 {}", value, decimals, with_unit(axis, reach, decimals));
}

std::string place_text(const Window& window, const MapPlace& place) {
  const auto& [a, b] = window.axes;
  return fmt::format("{} {} and {} {}", a.name, axis_text(a, a.at(place[0])), b.name,
                     axis_text(b, b.at(place[1])));
}

void add_words(const cases::Accept& accept, Window& window) {
  Words words(window);
  words.shares();
  words.box();
  words.own();
  words.model();
  words.sharpness();
  words.probability();
  words.left_out(accept);
}

}  // namespace drumlin::sim
