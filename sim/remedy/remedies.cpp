#include "sim/remedy/remedies.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/overspeed.hpp"
#include "sim/remedy/axis.hpp"
#include "sim/remedy/breaks.hpp"
#include "sim/remedy/conflict.hpp"
#include "sim/remedy/line_check.hpp"
#include "sim/remedy/pairs.hpp"
#include "sim/remedy/sensitivities.hpp"

namespace drumlin::sim {
namespace {

/// Evaluations of the fast model for single knobs: some 300 ms of a panel's.
constexpr int single_evaluations = 500;
/// And for sensitivities: four per knob, of at most so many knobs.
constexpr int sensitivity_evaluations = 120;
/// Limits that fail and are sought one by one; panels have as many edges as they like.
constexpr std::size_t most_limits = 4;
/// A margin below this part of its limit is narrow (our choice).
constexpr double narrow = 0.1;
/// Remedies of a limit with side effects looked up, and of the whole study asked of the line model.
constexpr std::size_t with_effects = 3;
constexpr std::size_t with_line = 3;

constexpr const char* rule =
    "least side effect first: fewest other limits not met, then least loss of another limit's "
    "margin "
    "over that limit, then least change of the knob (logarithm of the factor; a change of tool "
    "counts 1 a step)";

class Study {
 public:
  Study(const cases::OpenCase& open, const Result& result, std::stop_token stop)
      : open_(open),
        result_(result),
        stop_(std::move(stop)),
        knobs_(cases::knobs_of(open)),
        trials_(open, knobs_, result.verdict, single_evaluations, stop_) {
    for (std::size_t i = 0; i < knobs_.size(); ++i)
      axes_.emplace_back(knobs_[i], static_cast<int>(i));
  }

  RemedyStudy all();

 private:
  void seek_limits();
  void seek(SoughtLimit sought, const Target& target);
  void seek_pairs();
  void round_pair(Remedy& pair);
  void ask_line();
  [[nodiscard]] Remedy remedy(std::vector<Turned> changes, const Settings& settings, double change,
                              int limit);
  void rank(std::vector<Remedy>& list) const;
  void add_effects(Remedy& remedy);
  [[nodiscard]] Settings settings_of(const Remedy& remedy) const;
  [[nodiscard]] int index_of(const std::string& name) const;
  [[nodiscard]] bool accepted_alone() const;

  const cases::OpenCase& open_;
  const Result& result_;
  std::stop_token stop_;
  std::vector<cases::Knob> knobs_;
  Trials trials_;
  std::vector<Axis> axes_;
  RemedyStudy study_;
  bool all_given_ = true;  // whether the fast model gives every limit that fails
};

int Study::index_of(const std::string& name) const {
  const auto& items = result_.verdict.items;
  for (std::size_t i = 0; i < items.size(); ++i)
    if (items[i].name == name) return static_cast<int>(i);
  return -1;
}

/// A change with all that it does to the limits.
/// @param limit  index of the one that it is for; -1: all.
Remedy Study::remedy(std::vector<Turned> changes, const Settings& settings, double change,
                     int limit) {
  const Trial& then = trials_.at(settings);
  const Trial& now = trials_.base();
  Remedy remedy;
  remedy.changes = std::move(changes);
  remedy.relative_change = change;
  if (limit >= 0)
    remedy.value = then.limits[static_cast<std::size_t>(limit)].value.value_or(0.0);
  else
    remedy.value = then.worst().value_or(0.0);
  for (std::size_t i = 0; i < then.limits.size(); ++i) {
    const TriedLimit& there = then.limits[i];
    if (static_cast<int>(i) == limit || !there.margin || !now.limits[i].margin) continue;
    const std::string& name = result_.verdict.items[i].name;
    if (*there.margin < 0) remedy.failing.push_back(name);
    const double loss = (*now.limits[i].margin - *there.margin) / there.size;
    if (loss <= remedy.largest_loss) continue;
    remedy.largest_loss = loss;
    remedy.largest_loss_of = name;
  }
  return remedy;
}

void Study::rank(std::vector<Remedy>& list) const {
  const auto upstream = [&](const Remedy& r) {
    return !study_.knobs[static_cast<std::size_t>(r.changes.front().knob)].setting;
  };
  std::stable_sort(list.begin(), list.end(), [&](const Remedy& a, const Remedy& b) {
    if (upstream(a) != upstream(b)) return upstream(b);
    if (a.failing.size() != b.failing.size()) return a.failing.size() < b.failing.size();
    if (a.largest_loss != b.largest_loss) return a.largest_loss < b.largest_loss;
    return a.relative_change < b.relative_change;
  });
}

Settings Study::settings_of(const Remedy& remedy) const {
  Settings settings;
  for (const Turned& turned : remedy.changes) {
    const cases::Knob& knob = knobs_[static_cast<std::size_t>(turned.knob)];
    if (turned.to) {
      settings.emplace_back(turned.knob, turned.setting.value_or(*turned.to) * knob.factor);
      continue;
    }
    const auto word = std::find(knob.words.begin(), knob.words.end(), turned.text);
    settings.emplace_back(turned.knob, static_cast<double>(word - knob.words.begin()));
  }
  return settings;
}

void Study::add_effects(Remedy& remedy) {
  const auto then = trials_.effects(settings_of(remedy));
  const auto now = trials_.effects({});
  for (const MainQuantity& before : now)
    for (const MainQuantity& after : then)
      if (after.name == before.name)
        remedy.effects.push_back({before.name, before.unit, before.value, after.value});
}

/// Looks along every knob for one limit.
void Study::seek(SoughtLimit sought, const Target& target) {
  const auto margin = target.margin(trials_.base());
  if (!margin) {
    sought.not_sought = "the fast model, in which changes are sought, does not give it";
    study_.limits.push_back(std::move(sought));
    return;
  }
  for (const Axis& axis : axes_) {
    for (const int way : {-1, +1}) {
      if (axis.reach(way) <= 0) continue;
      const Crossing crossing = look_along(trials_, axis, way, target);
      Looked looked;
      looked.knob = axis.index();
      looked.way = way;
      looked.found = crossing.found;
      looked.margin = crossing.margin;
      looked.ended_by = crossing.ended_by;
      looked.share = axis.share(crossing.place);
      looked.text = axis.text(axis.value(crossing.place));
      if (!axis.knob().words.size()) looked.to = axis.value(crossing.place) / axis.knob().factor;
      sought.looked.push_back(looked);
      if (!crossing.found || !sought.failed) continue;
      Turned turned = axis.turned(crossing.place);
      round_to_settable(trials_, axis, target, turned);
      Remedy found;
      found.changes = {turned};
      sought.remedies.push_back(
          remedy({turned}, settings_of(found), axis.change(crossing.place), target.limit));
    }
  }
  rank(sought.remedies);
  for (std::size_t i = 0; i < std::min(with_effects, sought.remedies.size()); ++i)
    add_effects(sought.remedies[i]);
  study_.limits.push_back(std::move(sought));
}

void Study::seek_limits() {
  const auto& items = result_.verdict.items;
  const Trial& base = trials_.base();
  std::vector<std::size_t> failed;
  std::vector<std::size_t> met_narrowly;
  std::size_t judged = 0;
  const auto relative = [&](std::size_t i) {
    const double size = i < base.limits.size() ? base.limits[i].size : 1.0;
    return items[i].margin.value_or(0.0) / size;
  };
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (!items[i].accepted) continue;
    ++judged;
    if (!*items[i].accepted)
      failed.push_back(i);
    else if (relative(i) < narrow)
      met_narrowly.push_back(i);
  }
  const auto not_given = [&](std::size_t i) { return !base.limits[i].margin; };
  all_given_ = std::none_of(failed.begin(), failed.end(), not_given);
  for (auto* list : {&failed, &met_narrowly}) {
    std::stable_sort(list->begin(), list->end(),
                     [&](std::size_t a, std::size_t b) { return relative(a) < relative(b); });
    if (list->size() > most_limits) list->resize(most_limits);
  }
  if (all_given_ && !failed.empty() && judged > 1) {
    SoughtLimit all;
    all.name = all_limits;
    all.unit = "1";
    all.limit = "every margin over its limit >= 0";
    all.value = base.worst().value_or(0.0);
    all.fast_value = all.value;
    seek(std::move(all), {-1});
  }
  for (const bool fails : {true, false}) {
    for (const std::size_t i : fails ? failed : met_narrowly) {
      SoughtLimit one;
      one.name = items[i].name;
      one.limit = items[i].limit;
      one.unit = items[i].unit;
      one.failed = fails;
      one.value = items[i].value->value;
      one.fast_value = trials_.unmoved(i);
      seek(std::move(one), {static_cast<int>(i)});
    }
  }
}

/// Whether one knob of the line meets every limit.
bool Study::accepted_alone() const {
  for (const SoughtLimit& sought : study_.limits)
    for (const Remedy& remedy : sought.remedies)
      if (sought.failed && remedy.failing.empty() &&
          study_.knobs[static_cast<std::size_t>(remedy.changes.front().knob)].setting)
        return true;
  return false;
}

/// Both knobs rounded away from the case to three digits, if all limits are met there.
void Study::round_pair(Remedy& pair) {
  std::vector<Turned> rounded;
  Settings settings;
  for (const Turned& turned : pair.changes) {
    rounded.push_back(rounded_away(axes_[static_cast<std::size_t>(turned.knob)], turned));
    Remedy one;
    one.changes = {rounded.back()};
    settings.push_back(settings_of(one).front());
  }
  const Trial& there = trials_.at(settings);
  if (there.refused.empty() && there.worst().value_or(-1.0) >= 0) pair.changes = rounded;
}

void Study::seek_pairs() {
  study_.pairs_tried = true;
  trials_.allow(pair_evaluations);
  const PairSearch search = search_pairs(trials_, axes_);
  const auto as_remedy = [&](const PairPlace& place) {
    std::vector<Turned> changes{axes_[place.one].turned(place.at),
                                axes_[place.other].turned(place.other_at)};
    return remedy(std::move(changes), place.settings(axes_), place.change, -1);
  };
  for (const PairPlace& place : search.found) {
    study_.pairs.push_back(as_remedy(place));
    round_pair(study_.pairs.back());
    if (study_.pairs.size() <= with_effects) add_effects(study_.pairs.back());
  }
  if (!search.nearest) return;
  study_.nearest = as_remedy(*search.nearest);
  study_.nearest_margin = search.nearest->worst;
  const Trial& there = trials_.at(search.nearest->settings(axes_));
  for (std::size_t i = 0; i < there.limits.size(); ++i)
    if (there.limits[i].margin &&
        *there.limits[i].margin / there.limits[i].size <= search.nearest->worst)
      study_.nearest_limit = result_.verdict.items[i].name;
}

/// Asks the case's own model of the first remedies: those for all limits, pairs, then the others.
void Study::ask_line() {
  std::size_t asked = 0;
  const auto ask = [&](Remedy& remedy, int limit) {
    if (asked++ < with_line)
      remedy.line = line_check(trials_.changed(settings_of(remedy)), limit, stop_);
  };
  for (SoughtLimit& sought : study_.limits)
    if (sought.name == all_limits)
      for (Remedy& remedy : sought.remedies)
        ask(remedy, -1);
  for (Remedy& pair : study_.pairs)
    ask(pair, -1);
  for (SoughtLimit& sought : study_.limits)
    if (sought.name != all_limits && sought.failed)
      for (Remedy& remedy : sought.remedies)
        ask(remedy, index_of(sought.name));
}

RemedyStudy Study::all() {
  study_.rule = rule;
  study_.knobs = shown_knobs(axes_);
  if (!overspeed_warnings(open_.as_read()).empty()) {
    study_.forced =
        "the case runs a tool above the speed that it is marked with: bring that down first; "
        "nothing "
        "else is proposed";
    return std::move(study_);
  }
  if (!trials_.base().refused.empty()) {
    study_.forced = "the fast model, in which changes are sought: " + trials_.base().refused;
    return std::move(study_);
  }
  seek_limits();
  study_.cut_short = trials_.spent();
  const bool any_failed =
      std::any_of(study_.limits.begin(), study_.limits.end(),
                  [](const auto& s) { return s.failed && s.not_sought.empty(); });
  if (any_failed) study_.breaks = first_breaks(trials_, axes_, result_.verdict);
  if (any_failed && all_given_ && !accepted_alone()) {
    seek_pairs();
    study_.conflict = conflict_of(study_);
  }
  if (result_.model != "fast") ask_line();
  trials_.allow(sensitivity_evaluations);
  study_.sensitivities = sensitivities(trials_, axes_);
  study_.evaluations = trials_.evaluations();
  return std::move(study_);
}

}  // namespace

RemedyStudy seek_remedies(const cases::OpenCase& open, const Result& result,
                          const std::stop_token& stop) {
  return Study(open, result, stop).all();
}

}  // namespace drumlin::sim
