#include "sim/hold_down.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <numeric>

#include "models/line/hold_down.hpp"
#include "sim/lanes.hpp"
#include "sim/quantity_sums.hpp"

namespace drumlin::sim {
namespace {

/// A number and its ends; both equal it where it has no band.
struct Ends {
  double value = 0;
  double low = 0;
  double high = 0;
};

Ends ends_of(const Quantity& quantity) {
  return {quantity->value, quantity->low.value_or(quantity->value),
          quantity->high.value_or(quantity->value)};
}
Ends ends_of(const cases::Sourced& sourced) {
  return {sourced.value, sourced.low, sourced.high};
}

/// A tool's load on the part, its friction, that of the conveyor: what every margin follows from.
struct Inputs {
  Ends load;      ///< P' [N/mm]
  Ends friction;  ///< of tool on part [-]
  Ends grip;      ///< of part on conveyor [-]
};

/// Grip over friction; they spread independently, so their bands add in quadrature of logarithms.
Ends ratio_of(const Ends& grip, const Ends& friction) {
  if (grip.value <= 0.0 || friction.value <= 0.0) return {};
  const auto spread = [](double over, double under) {
    return over > 0.0 && under > 0.0 ? std::log(over / under)
                                     : std::numeric_limits<double>::infinity();
  };
  const double up = std::hypot(spread(grip.high, grip.value), spread(friction.value, friction.low));
  const double down =
      std::hypot(spread(grip.value, grip.low), spread(friction.high, friction.value));
  const double ratio = grip.value / friction.value;
  return {ratio, ratio * std::exp(-down), ratio * std::exp(up)};
}

/// A number that follows from a tool's load and a ratio of grip to friction; absent where nothing
/// is large enough.
using Law = std::function<std::optional<double>(double load, double ratio)>;

/// The law's value with its band: each input moved to its ends alone, effects added in quadrature.
Quantity banded(const Ends& load, const Ends& ratio, const Law& law) {
  constexpr double none = std::numeric_limits<double>::infinity();
  const auto value = law(load.value, ratio.value);
  if (!value) return std::nullopt;
  const std::array moved{law(load.low, ratio.value), law(load.high, ratio.value),
                         law(load.value, ratio.low), law(load.value, ratio.high)};
  double up = 0.0;
  double down = 0.0;
  for (const auto& there : moved) {
    const double change = there.value_or(none) - *value;
    (change > 0.0 ? up : down) += change * change;
  }
  Banded result{*value, std::max(*value - std::sqrt(down), 0.0), {}};
  // Where an end of an input leaves nothing that holds there is no upper end.
  if (std::isfinite(up)) result.high = *value + std::sqrt(up);
  return result;
}

/// Load and friction of a tool on the plain face; absent where it does not press.
std::optional<Inputs> inputs_of(const Setup& setup, std::size_t station,
                                const StationResult& stated) {
  if (!stated.working_line_load || stated.working_line_load->value <= 0.0) return std::nullopt;
  Inputs in{ends_of(stated.working_line_load), {}, ends_of(grip_friction(setup.scenario))};
  if (const auto* belt = std::get_if<cases::BeltStation>(&setup.scenario.stations[station])) {
    const cases::Abrasive& abrasive = belt->belt.abrasive;
    in.friction = ends_of(setup.scenario.cooling == cases::Cooling::wet ? abrasive.friction_wet
                                                                        : abrasive.friction);
    return in;
  }
  if (!stated.drag) return std::nullopt;
  const double friction = stated.drag->value / stated.working_line_load->value;
  in.friction = {friction, friction, friction};
  return in;
}

/// Drag per width, load times friction; both spread independently.
Quantity drag_of(const Inputs& in) {
  const double drag = in.load.value * in.friction.value;
  const auto end = [&](double load, double friction) {
    return std::hypot((load - in.load.value) * in.friction.value,
                      (friction - in.friction.value) * in.load.value);
  };
  return Banded{drag, std::max(drag - end(in.load.low, in.friction.low), 0.0),
                drag + end(in.load.high, in.friction.high)};
}

bool runs_with_feed(const StationSetup& station) {
  if (const auto* belt = std::get_if<BeltSetup>(&station)) return belt->with_feed;
  if (const auto* brush = std::get_if<BrushSetup>(&station)) return brush->with_feed;
  return true;
}

double weight_and_suction(const cases::Case& scenario) {
  return models::bed_pressure(scenario.part.material.density.value, scenario.part.thickness,
                              scenario.conveyor.grip.suction);
}

/// Suction that is missing for a grip margin of 1.
Quantity missing_suction(const Setup& setup, const Inputs& in, double length) {
  const cases::Part& part = setup.scenario.part;
  const double weight = models::bed_pressure(part.material.density.value, part.thickness, 0.0);
  const auto needed = models::holding_pressure({in.load.value, in.load.value * in.friction.value},
                                               in.grip.value, length);
  if (!needed) return std::nullopt;
  return Banded{std::max(*needed - weight, 0.0), {}, {}};
}

}  // namespace

const cases::Sourced& grip_friction(const cases::Case& scenario) {
  const cases::Grip& grip = scenario.conveyor.grip;
  return scenario.cooling == cases::Cooling::wet ? grip.friction_wet : grip.friction_dry;
}

void state_hold_down(const Setup& setup, std::size_t station, const StationResult& stated,
                     StationEconomy& economy) {
  const auto in = inputs_of(setup, station, stated);
  if (!in) return;
  const cases::Part& part = setup.scenario.part;
  const double width = widest_chord(part, part.angle);
  const double length = part.width * part.length / width;
  const double pressure = weight_and_suction(setup.scenario);
  economy.drag = scaled(stated.drag ? stated.drag : drag_of(*in), width);
  if (in->friction.value <= 0.0) return;
  const double friction = in->friction.value;
  const Ends ratio = ratio_of(in->grip, in->friction);
  const auto tool = [&](double load) {
    return models::ToolOnPart{.line_load = load, .drag = load * friction};
  };
  const auto bed = [&](double r) {
    return models::Bed{.friction = r * friction, .pressure = pressure};
  };
  economy.grip_margin = banded(in->load, ratio, [&](double load, double r) {
    return models::grip_margin(tool(load), bed(r), length);
  });
  economy.turning_margin = banded(in->load, ratio, [&](double load, double r) {
    return models::turning_margin(tool(load), bed(r), width, length);
  });
  economy.smallest_length = banded(in->load, ratio, [&](double load, double r) {
    return models::smallest_length(tool(load), bed(r));
  });
  if (economy.grip_margin && economy.grip_margin->value < 1.0)
    economy.holding_suction = missing_suction(setup, *in, length);
}

Quantity margin_under_all(const Setup& setup, const std::vector<StationResult>& stations) {
  std::vector<Inputs> tools;
  models::ToolOnPart all;
  Ends ratio{1.0, 1.0, 1.0};
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    const auto in = inputs_of(setup, i, stations[i]);
    if (!in) continue;
    tools.push_back(*in);
    const double drag = in->load.value * in->friction.value;
    all.line_load += in->load.value;
    all.drag += runs_with_feed(setup.stations[i]) ? drag : -drag;
    const Ends own = ratio_of(in->grip, in->friction);
    if (own.value <= 0.0) continue;
    ratio.low = std::min(ratio.low, own.low / own.value);
    ratio.high = std::max(ratio.high, own.high / own.value);
  }
  if (tools.size() < 2) return std::nullopt;
  const cases::Part& part = setup.scenario.part;
  const double length = part.width * part.length / widest_chord(part, part.angle);
  const double pressure = weight_and_suction(setup.scenario);
  const double grip = tools.front().grip.value;
  // Only the widest spread of grip over friction: what the loads do is small beside it.
  return banded({1.0, 1.0, 1.0}, ratio, [&](double, double r) {
    return models::grip_margin(all, {r * grip, pressure}, length);
  });
}

}  // namespace drumlin::sim
