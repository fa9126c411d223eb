#include "sim/line_economy.hpp"

#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "models/line/cost_per_part.hpp"
#include "models/line/hold_down.hpp"
#include "sim/hold_down.hpp"
#include "sim/lanes.hpp"
#include "sim/names.hpp"
#include "sim/overspeed.hpp"
#include "sim/quantity_sums.hpp"

namespace drumlin::sim {
namespace {

/// T1 / T2 where the drag is added to what tension is left at speed.
Quantity tension_ratio(const BeltSetup& station, const StationResult& stated) {
  const double tension =
      stated.belt_tension_at_speed ? stated.belt_tension_at_speed->value : station.belt.tension;
  if (tension <= 0.0 || !stated.working_line_load) return std::nullopt;
  const auto ratio = [&](double load) { return 1.0 + station.friction * load / tension; };
  const Banded& load = *stated.working_line_load;
  Banded result{ratio(load.value), {}, {}};
  if (load.low) result.low = ratio(*load.low);
  if (load.high) result.high = ratio(*load.high);
  return result;
}

void state_belt(const BeltSetup& station, const cases::Belt& belt, const StationResult& stated,
                StationEconomy& economy) {
  if (belt.width) economy.covered_width = std::min(economy.covered_width, *belt.width);
  economy.direction = station.with_feed ? "with-feed" : "against-feed";
  economy.rolling_power = scaled(stated.rolling_loss, economy.covered_width);
  economy.tension_ratio = tension_ratio(station, stated);
  if (belt.width)
    economy.full_width_power = scaled(sum_of(stated.power, stated.rolling_loss), *belt.width);
  if (belt.width) economy.belt_area = *belt.width * belt.length;
}

StationEconomy station_economy(const Setup& setup, std::size_t i, const StationResult& stated,
                               double covered) {
  StationEconomy economy;
  economy.station = static_cast<int>(i);
  economy.kind = stated.kind;
  economy.covered_width = covered;
  if (const auto* belt = std::get_if<BeltSetup>(&setup.stations[i]))
    state_belt(*belt, std::get<cases::BeltStation>(setup.scenario.stations[i]).belt, stated,
               economy);
  else
    economy.direction =
        std::get<BrushSetup>(setup.stations[i]).with_feed ? "with-feed" : "against-feed";
  economy.cutting_power = scaled(stated.power, economy.covered_width);
  economy.power = sum_of(economy.cutting_power, economy.rolling_power);
  state_hold_down(setup, i, stated, economy);
  return economy;
}

void note_assumptions(const Setup& setup, LineEconomy& line) {
  const cases::Conveyor& conveyor = setup.scenario.conveyor;
  if (conveyor.lanes == 0)
    line.notes.emplace_back("one lane: conveyor.lanes says how many parts go side by side");
  line.notes.emplace_back(
      "power is what the tools put into parts and covers while parts are under them; the belts' "
      "own "
      "bending, losses of motors, idle running and extraction are not in it");
  line.notes.push_back(fmt::format(
      "hold-down: a rigid flat part under one tool at a time, friction {:.3g} on the conveyor, "
      "weight and suction over its whole area (openings not taken off), the tool's own load "
      "pressing it down{}",
      line.grip_friction,
      line.grip_margin_all
          ? fmt::format("; a part that reaches from tool to tool feels several at once, all of "
                        "them together leave a grip margin of {:.2f}",
                        line.grip_margin_all->value)
          : std::string()));
  const bool struck = std::any_of(setup.stations.begin(), setup.stations.end(), [](const auto& s) {
    return std::holds_alternative<KnockOffSetup>(s);
  });
  if (struck)
    line.notes.emplace_back("what a knock-off station pushes with is not counted in the hold-down");
}

}  // namespace

bool is_tool(const StationSetup& station) noexcept {
  return std::holds_alternative<BeltSetup>(station) || std::holds_alternative<BrushSetup>(station);
}

LineEconomy line_economy(const Setup& setup, const std::vector<StationResult>& stations,
                         const PredictedLife& life) {
  const cases::Part& part = setup.scenario.part;
  const cases::Conveyor& conveyor = setup.scenario.conveyor;
  LineEconomy line;
  line.lanes = std::max(conveyor.lanes, 1);
  line.throughput = throughput(part, conveyor, part.angle);
  line.part_speed = line.throughput * along(part, part.angle);
  line.grip_friction = grip_friction(setup.scenario).value;
  line.bed_pressure =
      models::bed_pressure(part.material.density.value, part.thickness, conveyor.grip.suction);
  const double chord = widest_chord(part, part.angle);
  line.part_length = part.width * part.length / chord;
  const double area = part.width * part.length * conveyor.passes;
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    if (!is_tool(setup.stations[i])) continue;
    line.stations.push_back(station_economy(setup, i, stations[i], line.lanes * chord));
    line.power = sum_of(line.power, line.stations.back().power);
    const Quantity per_width = sum_of(stations[i].power, stations[i].rolling_loss);
    line.energy =
        sum_of(line.energy, scaled(per_width, models::energy_per_part(1.0, area, conveyor.speed)));
  }
  line.mean_power = scaled(line.energy, line.throughput);
  line.grip_margin_all = margin_under_all(setup, stations);
  line.forced = overspeed_warnings(setup.scenario);
  note_assumptions(setup, line);
  state_cost(setup, life, line);
  return line;
}

}  // namespace drumlin::sim
