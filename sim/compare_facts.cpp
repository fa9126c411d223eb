#include <algorithm>
#include <cmath>
#include <variant>

#include <fmt/format.h>

#include "sim/compare.hpp"

namespace drumlin::sim {
namespace {

std::optional<std::size_t> first_belt(const Setup& setup) {
  for (std::size_t i = 0; i < setup.stations.size(); ++i)
    if (std::holds_alternative<BeltSetup>(setup.stations[i])) return i;
  return std::nullopt;
}

void fill_belt(const Setup& setup, const Result& result, std::size_t index, CaseFacts& facts) {
  const BeltSetup& belt = setup.belt(index);
  const StationResult& station = result.stations[index];
  const auto& drum = std::get<cases::BeltStation>(setup.scenario.stations[index]).drum;
  facts.cover = drum.hardness ? fmt::format("{:.3g} Shore A", *drum.hardness)
                              : fmt::format("{:.3g} MPa", belt.cover.modulus);
  facts.modulus = belt.cover.modulus;
  facts.set_by_load = std::holds_alternative<cases::LineLoadSetting>(belt.setting);
  facts.interference = without_band(station.interference);
  facts.line_load = without_band(station.line_load);
  facts.working_line_load = without_band(station.working_line_load);
  facts.slope = without_band(station.line_load_slope);
  facts.speed_ratio = without_band(station.speed_ratio);
  facts.face_pressure = without_band(station.peak_pressure);
  facts.belt_speed = belt.belt_speed;
  facts.coefficient = belt.coating.coefficient;
  facts.proportional = removes_in_proportion(belt);
}

void fill_burr(const Result& result, CaseFacts& facts) {
  for (const FeatureResult& feature : result.part.features) {
    if (feature.burr == "none" || !feature.peak_pressure) continue;
    if (facts.burr_pressure && *facts.burr_pressure >= feature.peak_pressure->value) continue;
    facts.burr_pressure = feature.peak_pressure->value;
    facts.burr_name = feature.name;
    facts.edge_drop = feature.edge_drop;
  }
}

}  // namespace

CaseFacts facts_of(const Setup& setup, const Result& result, char letter) {
  CaseFacts facts;
  facts.letter = std::string(1, letter);
  facts.title = result.title;
  facts.feed = setup.scenario.conveyor.speed;
  facts.passes = setup.scenario.conveyor.passes;
  facts.stations = static_cast<int>(result.stations.size());
  facts.removal = result.part.face.removal;
  facts.coating_left = result.part.face.coating_left;
  facts.tolerance = setup.scenario.part.thickness_tolerance;
  facts.state = result.verdict.state;
  facts.decided_by = result.verdict.decided_by;
  if (result.interference_study) facts.removal_per_mm = result.interference_study->removal_per_mm;
  if (const auto belt = first_belt(setup); belt && *belt < result.stations.size())
    fill_belt(setup, result, *belt, facts);
  fill_burr(result, facts);
  return facts;
}

}  // namespace drumlin::sim
