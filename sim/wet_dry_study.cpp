#include "sim/wet_dry_study.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "sim/belt_life.hpp"
#include "sim/fast/fast_model.hpp"
#include "sim/line_economy.hpp"
#include "sim/verdict.hpp"

namespace drumlin::sim {
namespace {

std::optional<double> highest_burr(const PartState& part) {
  std::optional<double> highest;
  for (const FeatureResult& feature : part.features)
    if (feature.burr != "none" && feature.burr_height)
      highest = std::max(highest.value_or(feature.burr_height->value), feature.burr_height->value);
  return highest;
}

void state_hold(const LineEconomy& line, CoolingColumn& column) {
  bool holds = true;
  for (const StationEconomy& station : line.stations) {
    if (!station.grip_margin) continue;
    const double margin = station.grip_margin->value;
    column.grip_margin = std::min(column.grip_margin.value_or(margin), margin);
    holds = holds && station.smallest_length;
    if (station.smallest_length)
      column.smallest_length =
          std::max(column.smallest_length.value_or(0.0), station.smallest_length->value);
  }
  if (!holds) column.smallest_length.reset();
}

/// Parts that each station's belt lasts; how long the line runs until the first is done.
PredictedLife life_of_belts(const BeltLives& lives, std::size_t stations, CoolingColumn& column) {
  PredictedLife life(stations);
  for (std::size_t i = 0; i < life.size(); ++i) {
    if (!lives.wears(i)) continue;
    life[i] = lives.parts_at(i, 1.0);
    const double time = lives.time_of(*life[i]);
    column.belt_life = std::min(column.belt_life.value_or(time), time);
  }
  return life;
}

CoolingColumn column_of(const Setup& setup, cases::Cooling cooling, fast::Drums& drums,
                        const std::stop_token& stop) {
  cases::Case scenario = setup.scenario;
  scenario.cooling = cooling;
  const Setup fresh = set_up(std::move(scenario));
  const BeltLives lives(fresh, stop);
  const Setup other = with_belt_ages(fresh, lives);
  const StatedAnswer answer =
      fast::state(other, fast::simulate(other, drums, stop), /*waves=*/false);
  CoolingColumn column;
  column.cooling = cooling == cases::Cooling::wet ? "wet" : "dry";
  for (const StationSetup& station : other.stations)
    if (const auto* belt = std::get_if<BeltSetup>(&station); belt != nullptr && !column.friction)
      column.friction = belt->friction;
  column.removal = without_band(answer.part.face.removal);
  column.coating_left = without_band(answer.part.face.coating_left);
  column.burr_height = highest_burr(answer.part);
  const Verdict verdict = judge(other.scenario.accept, answer.part);
  for (const VerdictItem& item : verdict.items)
    if (item.accepted) column.accepted = column.accepted.value_or(true) && *item.accepted;
  column.roughness = without_band(answer.part.face.roughness);
  column.temperature = without_band(answer.part.face.temperature);
  const PredictedLife life = life_of_belts(lives, fresh.stations.size(), column);
  const LineEconomy line = line_economy(other, answer.stations, life);
  column.grip_friction = line.grip_friction;
  column.power = without_band(line.power);
  if (line.cost) column.cost = without_band(line.cost->sum);
  state_hold(line, column);
  return column;
}

/// Belts that must stay dry, and coefficients that cooling does not move.
void note_stations(const cases::Case& scenario, WetDryStudy& study, bool& wet) {
  for (std::size_t i = 0; i < scenario.stations.size(); ++i) {
    const auto* belt = std::get_if<cases::BeltStation>(&scenario.stations[i]);
    if (belt == nullptr) continue;
    if (!belt->belt.wet) {
      wet = false;
      study.notes.push_back(
          fmt::format("no wet column: the belt of station[{}] must stay dry (backing {})", i,
                      belt->belt.backing.name));
    }
    if (belt->belt.removal_coefficient || !belt->belt.removal_coefficients.empty())
      study.notes.push_back(fmt::format(
          "station[{}]: the case gives the removal coefficient; cooling does not move it", i));
  }
}

}  // namespace

std::optional<WetDryStudy> study_wet_dry(const Setup& setup, const std::stop_token& stop) {
  if (std::none_of(setup.stations.begin(), setup.stations.end(), is_tool)) return std::nullopt;
  WetDryStudy study;
  study.model = "fast";
  if (setup.scenario.cost) study.currency = setup.scenario.cost->currency;
  bool wet = true;
  note_stations(setup.scenario, study, wet);
  fast::Drums drums;
  study.columns.push_back(column_of(setup, cases::Cooling::dry, drums, stop));
  if (wet) study.columns.push_back(column_of(setup, cases::Cooling::wet, drums, stop));
  study.notes.emplace_back(
      "wet moves frictions and removal with them, the heat that stays in the part, Ra and belt "
      "life; brushes are taken alike; drying and filters are not in these numbers");
  study.notes.emplace_back(
      "dry: airborne dust that burns, hotter thin parts; wet: fluid care, sludge, mist and germs, "
      "slippery floors; qualified people decide");
  return study;
}

}  // namespace drumlin::sim
