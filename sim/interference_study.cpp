#include "sim/interference_study.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "models/elastomer/growth.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/verdict.hpp"

namespace drumlin::sim {
namespace {

// Amounts that are shown where the case gives none.

/// Of a sheet's thickness: 0.07 to 0.08 mm on sheets of 1.2 to 1.5 mm are allowed.
constexpr double usual_tolerance = 0.05;
/// Arch that a hold-down leaves [mm] (common practice, no source).
constexpr double usual_bow = 0.1;
/// Cover worn off between two settings [mm] (common practice, no source).
constexpr double usual_wear = 0.2;
/// Between a belt and the next, and between a new one and a worn one [mm] (common practice, no
/// source).
constexpr double usual_belt = 0.1;
/// Warmth of a drum at work over the one that was set [K] (common practice, no source).
constexpr double usual_rise = 20.0;

/// Step for the slope [mm]: a fiftieth of an ordinary interference, far above rounding.
constexpr double slope_step = 0.01;
/// How closely the end of what the limits allow is found [mm].
constexpr double closeness = 0.01;
/// First step of the search for it [mm], doubled from step to step.
constexpr double first_step = 0.05;
/// Interference below which a drum does no more than touch: no sheet lies flatter than that under a
/// hold-down, and edges there are not asked for [mm] (common practice, no source).
constexpr double least_depth = 0.03;
/// How deep into a cover the search goes [-]: finite strain was fitted so far.
constexpr double deepest = 0.2;

/// What the fast model says of one change.
struct Outcome {
  double removal = 0;
  std::optional<double> coating;
  std::optional<bool> accepted;  ///< none where no limit can be judged
  std::string refused_by;        ///< item that is not accepted, the worst of them
};

/// Stations of one kind.
template <class Station>
std::size_t count_of(const Setup& setup) {
  return static_cast<std::size_t>(
      std::count_if(setup.stations.begin(), setup.stations.end(),
                    [](const auto& s) { return std::holds_alternative<Station>(s); }));
}

/// The line with its drums deeper in the part or less deep, asked of the fast model and remembered.
class Line {
 public:
  Line(const Setup& setup, const cases::Accept& accept, std::stop_token stop)
      : setup_(setup),
        accept_(accept),
        stop_(std::move(stop)),
        one_tool_(count_of<BeltSetup>(setup) == 1 && count_of<BrushSetup>(setup) == 0) {
    Setup plain = setup;
    plain.scenario.part.features.clear();
    for (const auto& station : state_of(plain).stations)
      depths_.push_back(station.effective_interference ? station.effective_interference->value
                                                       : 0.0);
  }

  /// @param offset   [mm] added to the interference.
  /// @param station  the belt station that feels it; without, each tool that is set by depth.
  const Outcome& at(double offset, std::optional<std::size_t> station = {}) {
    if (one_tool_ || offset == 0.0) station.reset();
    const auto key = std::pair(station, offset);
    const auto known = seen_.find(key);
    if (known != seen_.end()) return known->second;
    Setup moved = setup_;
    bool clear = false;
    for (std::size_t i = 0; i < moved.stations.size(); ++i) {
      if (station && *station != i) continue;
      deepen(moved.stations[i], offset);
      if (std::holds_alternative<BeltSetup>(moved.stations[i]))
        clear = clear || depths_[i] + offset < least_depth;
    }
    return seen_[key] = ask(std::move(moved), clear);
  }

  /// @param clear  whether a drum all but leaves the face: then edges are not asked for.
  Outcome ask(Setup setup, bool clear = false) {
    if (clear) setup.scenario.part.features.clear();
    const StatedAnswer answer = state_of(setup);
    Outcome outcome;
    const FaceResult& face = answer.part.face;
    if (face.removal) outcome.removal = face.removal->value;
    if (face.coating_left) outcome.coating = face.coating_left->value;
    const Verdict verdict = judge(accept_, answer.part);
    for (const auto& item : verdict.items) {
      if (item.accepted) outcome.accepted = outcome.accepted.value_or(true) && *item.accepted;
    }
    if (outcome.accepted == false) outcome.refused_by = verdict.decided_by;
    // What holds on the face says nothing of burrs that a drum no longer reaches.
    if (clear && outcome.accepted == true) outcome.accepted.reset();
    return outcome;
  }

  /// Interference of the shallowest and of the deepest drum of the line [mm].
  [[nodiscard]] std::pair<double, double> depths() const {
    std::pair<double, double> ends{std::numeric_limits<double>::infinity(), 0.0};
    for (std::size_t i = 0; i < depths_.size(); ++i) {
      if (!std::holds_alternative<BeltSetup>(setup_.stations[i])) continue;
      ends = {std::min(ends.first, depths_[i]), std::max(ends.second, depths_[i])};
    }
    return ends;
  }

 private:
  StatedAnswer state_of(const Setup& setup) {
    return fast::state(setup, fast::simulate(setup, drums_, stop_), /*waves=*/false);
  }

  const Setup& setup_;
  const cases::Accept& accept_;
  std::stop_token stop_;
  bool one_tool_;  // set by depth
  fast::Drums drums_;
  std::vector<double> depths_;  // interference of every station's drum as set [mm]
  std::map<std::pair<std::optional<std::size_t>, double>, Outcome> seen_;
};

Disturbance cause_of(std::string name, std::string key, bool given, double low, double high) {
  Disturbance cause;
  cause.name = std::move(name);
  cause.key = std::move(key);
  cause.given = given;
  cause.low = low;
  cause.high = high;
  return cause;
}

void set_ends(Disturbance& cause, const Outcome& low, const Outcome& high) {
  cause.removal_low = low.removal;
  cause.removal_high = high.removal;
  cause.coating_low = low.coating;
  cause.coating_high = high.coating;
  if (low.accepted == false || high.accepted == false)
    cause.accepted = false;
  else if (low.accepted && high.accepted)
    cause.accepted = true;
}

/// @param now  [mm] what of the cause the set-up has in it already.
Disturbance shifted(Line& line, Disturbance cause, double now,
                    std::optional<std::size_t> station = {}) {
  const Outcome& low = line.at(cause.low - now, station);
  set_ends(cause, low, line.at(cause.high - now, station));
  return cause;
}

/// Of the part: felt by every belt of the line alike.
void add_part(Line& line, const cases::Part& part, std::vector<Disturbance>& causes) {
  const auto both_ways = [&](const char* name, const char* key, double given, double usual) {
    const double amount = given > 0.0 ? given : usual;
    causes.push_back(shifted(line, cause_of(name, key, given > 0.0, -amount, amount), 0.0));
  };
  both_ways("sheet thickness", "part.thickness_tolerance", part.thickness_tolerance,
            usual_tolerance * part.thickness);
  both_ways("bow", "part.bow", part.bow, usual_bow);
}

Disturbance warm_up(Line& line, const Setup& setup, std::size_t index) {
  const BeltSetup& station = setup.belt(index);
  const double rise = station.temperature_given ? station.temperature_rise : usual_rise;
  const auto growth = [&](double kelvin) {
    return models::thermal_growth(station.cover, station.thermal_expansion, kelvin);
  };
  const double coldest = std::min(rise, 0.0);
  const double warmest = std::max(rise, 0.0);
  Disturbance cause = cause_of(fmt::format("warmth of the cover, {:.3g} K", warmest - coldest),
                               fmt::format("station[{}].drum.temperature", index),
                               station.temperature_given, growth(coldest), growth(warmest));
  if (std::holds_alternative<cases::LineLoadSetting>(station.setting))
    return shifted(line, std::move(cause), growth(station.temperature_rise), index);
  const auto at_rise = [&](double kelvin) {
    if (kelvin == station.temperature_rise) return line.at(0.0);
    Setup moved = setup;
    set_temperature_rise(moved.belt(index), kelvin);
    return line.ask(moved);
  };
  const Outcome low = at_rise(coldest);
  set_ends(cause, low, at_rise(warmest));
  return cause;
}

/// Of one station: its cover and its belt.
void add_station(Line& line, const Setup& setup, std::size_t index,
                 std::vector<Disturbance>& causes) {
  const auto& station = std::get<cases::BeltStation>(setup.scenario.stations[index]);
  const double wear = station.drum.wear;
  causes.push_back(shifted(line,
                           cause_of("cover wear", fmt::format("station[{}].drum.wear", index),
                                    wear > 0.0, wear > 0.0 ? -wear : -usual_wear, 0.0),
                           -wear, index));
  const double change = station.belt.thickness_change;
  causes.push_back(
      shifted(line,
              cause_of("belt thickness", fmt::format("station[{}].belt.thickness_change", index),
                       change != 0.0, change != 0.0 ? std::min(change, 0.0) : -usual_belt,
                       change != 0.0 ? std::max(change, 0.0) : usual_belt),
              change, index));
  causes.push_back(warm_up(line, setup, index));
}

/// How far interference may go one way before a limit breaks.
struct Allowed {
  double change = 0;
  std::string ended_by;
};

/// @param way   +1: more, -1: less.
/// @param end   [mm] how far to look.
/// @param open  what to say where nothing breaks up to there.
Allowed allowed(Line& line, double way, double end, std::string_view open) {
  const auto holds = [&](double reach) { return line.at(way * reach).accepted.value_or(true); };
  double good = 0.0;
  double bad = std::min(first_step, end);
  while (holds(bad)) {
    good = bad;
    if (good >= end) return {way * end, std::string(open)};
    bad = std::min(2.0 * bad, end);
  }
  while (bad - good > closeness) {
    const double middle = 0.5 * (good + bad);
    (holds(middle) ? good : bad) = middle;
  }
  return {way * good, line.at(way * bad).refused_by};
}

double thinnest_cover(const Setup& setup) {
  double thinnest = std::numeric_limits<double>::infinity();
  for (const auto& station : setup.stations) {
    if (const auto* belt = std::get_if<BeltSetup>(&station))
      thinnest = std::min(thinnest, belt->cover.thickness);
  }
  return thinnest;
}

}  // namespace

std::optional<InterferenceStudy> study_interference(const Setup& setup, const cases::Accept& accept,
                                                    const std::stop_token& stop) {
  if (count_of<BeltSetup>(setup) == 0) return std::nullopt;
  Line line(setup, accept, stop);
  const auto [shallowest, deepest_drum] = line.depths();
  InterferenceStudy study;
  study.model = "fast";
  const Outcome& as_set = line.at(0.0);
  study.removal = as_set.removal;
  const double above = line.at(slope_step).removal;
  study.removal_per_mm = (above - line.at(-slope_step).removal) / (2.0 * slope_step);
  add_part(line, setup.scenario.part, study.disturbances);
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    if (std::holds_alternative<BeltSetup>(setup.stations[i]))
      add_station(line, setup, i, study.disturbances);
  }
  if (as_set.accepted != true) return study;
  const double up = std::max(deepest * thinnest_cover(setup) - deepest_drum, first_step);
  Allowed more = allowed(line, +1.0, up, "no limit, up to a fifth of the cover");
  study.most_more = more.change;
  study.limited_more = std::move(more.ended_by);
  const double down = std::max(shallowest - least_depth, 0.0);
  if (down <= 0.0) return study;
  Allowed less = allowed(line, -1.0, down, "no limit, down to where a drum leaves the face");
  study.most_less = less.change;
  study.limited_less = std::move(less.ended_by);
  return study;
}

}  // namespace drumlin::sim
