#include "sim/remedy/trials.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/belt_life.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/line_economy.hpp"
#include "sim/numerics/error.hpp"
#include "sim/quantities_result.hpp"
#include "sim/verdict.hpp"

namespace drumlin::sim {
namespace {

/// Drums kept per station: a search comes back to the same few settings.
constexpr std::size_t kept_drums = 8;
constexpr double seconds_per_hour = 3600.0;

bool any_age(const cases::Case& scenario) {
  return std::any_of(scenario.stations.begin(), scenario.stations.end(), [](const auto& station) {
    const auto* belt = std::get_if<cases::BeltStation>(&station);
    return belt != nullptr && belt->belt_age;
  });
}

/// Running time of the line's belts, as far as the verdict judges it.
LifeStudy life_of(const Setup& fresh, const BeltLives& lives) {
  LifeStudy study;
  for (std::size_t i = 0; i < fresh.stations.size(); ++i) {
    if (!lives.wears(i)) continue;
    BeltLife belt;
    belt.station = static_cast<int>(i);
    belt.parts = Banded{.value = lives.parts_at(i, 1.0), .low = {}, .high = {}};
    belt.time = Banded{.value = lives.time_of(belt.parts->value), .low = {}, .high = {}};
    study.belts.push_back(belt);
  }
  return study;
}

/// The main quantities, as far as the model and the case give them.
std::vector<MainQuantity> main_of(const StatedAnswer& answer, const LineEconomy& line,
                                  const LifeStudy* life) {
  std::vector<MainQuantity> list;
  const auto add = [&](const char* name, const char* unit, const Quantity& q, const Scale& scale) {
    if (q && std::isfinite(q->value)) list.push_back({name, unit, scale(q->value)});
  };
  const FaceResult& face = answer.part.face;
  add("face removal", "um", face.removal, mm_to_um);
  add("coating left on the face", "um", face.coating_left, mm_to_um);
  add("Ra of the face", "um", face.roughness, mm_to_um);
  add("highest temperature of the face", "degC", face.temperature, kelvin_to_celsius);
  add("power of all tools", "W", line.power, mw_to_w);
  Quantity grip;
  for (const StationEconomy& station : line.stations)
    if (station.grip_margin && (!grip || station.grip_margin->value < grip->value))
      grip = station.grip_margin;
  add("least grip margin", "1", grip, as_is);
  list.push_back({"throughput", "parts/h", line.throughput * seconds_per_hour});
  if (line.cost && line.cost->sum && line.missing.empty())
    list.push_back({"cost per part", line.cost->currency, line.cost->sum->value});
  if (life != nullptr) {
    double least = std::numeric_limits<double>::infinity();
    for (const BeltLife& belt : life->belts)
      least = std::min(least, belt.time->value);
    if (std::isfinite(least))
      list.push_back({"running time of the first belt done", "h", s_to_h(least)});
  }
  return list;
}

}  // namespace

std::optional<double> Trial::worst() const {
  std::optional<double> least;
  for (const TriedLimit& limit : limits)
    if (limit.margin)
      least = std::min(least.value_or(*limit.margin / limit.size), *limit.margin / limit.size);
  return least;
}

Trials::Trials(const cases::OpenCase& open, const std::vector<cases::Knob>& knobs,
               const Verdict& verdict, int most, std::stop_token stop)
    : open_(open),
      knobs_(knobs),
      verdict_(verdict),
      most_(most),
      stop_(std::move(stop)),
      drums_(kept_drums),
      shift_(verdict.items.size(), 0.0) {
  const Trial& as_set = at({});
  for (std::size_t i = 0; i < shift_.size() && i < as_set.limits.size(); ++i)
    if (verdict.items[i].value && as_set.limits[i].value)
      shift_[i] = verdict.items[i].value->value - *as_set.limits[i].value;
  // Only now can a trial be told in the case's own terms.
  seen_.clear();
  evaluations_ = 0;
}

std::optional<double> Trials::unmoved(std::size_t limit) {
  const auto value = base().limits[limit].value;
  return value ? std::optional(*value - shift_[limit]) : std::nullopt;
}

std::vector<MainQuantity> Trials::effects(const Settings& settings) {
  const auto known = effects_.find(settings);
  if (known != effects_.end()) return known->second;
  ++evaluations_;
  return effects_.emplace(settings, run(settings, true).main).first->second;
}

cases::Case Trials::changed(const Settings& settings) const {
  cases::Node document = open_.document();
  for (const auto& [knob, value] : settings)
    cases::turn(document, knobs_[static_cast<std::size_t>(knob)], value);
  return open_.read(document);
}

const Trial& Trials::at(const Settings& settings) {
  const auto known = seen_.find(settings);
  if (known != seen_.end()) return known->second;
  if (spent()) {
    static const Trial no_more{.refused = "no evaluations are left", .limits = {}, .main = {}};
    return no_more;
  }
  ++evaluations_;
  return seen_.emplace(settings, run(settings)).first->second;
}

Trial Trials::run(const Settings& settings, bool with_life) {
  Trial trial;
  try {
    cases::Case scenario = changed(settings);
    scenario.numerics.model = "fast";
    const Setup fresh = set_up(scenario);
    const bool judged_life = scenario.accept.limits.contains("belt_life");
    std::optional<BeltLives> lives;
    if (judged_life || with_life || any_age(scenario)) lives.emplace(fresh, stop_);
    const Setup setup = any_age(scenario) ? with_belt_ages(fresh, *lives) : fresh;
    const StatedAnswer answer =
        fast::state(setup, fast::simulate(setup, drums_, stop_), /*waves=*/false);
    std::optional<LifeStudy> life;
    if (judged_life || with_life) life = life_of(fresh, *lives);
    PredictedLife parts(setup.stations.size());
    if (life)
      for (const BeltLife& belt : life->belts)
        parts[static_cast<std::size_t>(belt.station)] = belt.parts->value;
    const LineEconomy line = line_economy(setup, answer.stations, parts);
    const Verdict judged = judge(scenario.accept, answer.part, life);
    trial.main = main_of(answer, line, life ? &*life : nullptr);
    for (std::size_t i = 0; i < verdict_.items.size(); ++i) {
      const VerdictItem& of_case = verdict_.items[i];
      TriedLimit limit;
      limit.size = std::max(
          {std::abs(of_case.high.value_or(0.0)), std::abs(of_case.low.value_or(0.0)), 1e-12});
      const bool same = i < judged.items.size() && judged.items[i].name == of_case.name;
      if (same && judged.items[i].value && of_case.value) {
        const double value = judged.items[i].value->value + shift_[i];
        double margin = std::numeric_limits<double>::infinity();
        if (of_case.low) margin = std::min(margin, value - *of_case.low);
        if (of_case.high) margin = std::min(margin, *of_case.high - value);
        limit.value = value;
        limit.margin = margin;
      }
      trial.limits.push_back(limit);
    }
  } catch (const cases::CaseError& error) {
    trial.refused =
        error.problems().empty() ? "the case is refused" : error.problems().front().text;
  } catch (const NumericsError&) {
    trial.refused = "the fast model finds no answer there";
  }
  return trial;
}

}  // namespace drumlin::sim
