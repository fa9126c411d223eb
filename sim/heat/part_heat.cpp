#include "sim/heat/part_heat.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <variant>

#include "models/heat/convection.hpp"
#include "models/heat/partition.hpp"
#include "models/heat/slab.hpp"
#include "sim/contact_length.hpp"
#include "sim/heat/edge_heat.hpp"

namespace drumlin::sim {
namespace {

/// Conductivity of alumina grain, 35 W/(m K), and radius of a grain's worn flat, 15 um (Rowe, from
/// memory). Other grain, sharp or dull, stays within the share's band.
constexpr double grain_conductivity = 35.0;
constexpr double grain_flat = 0.015;
/// Of the heat that would melt a chip it carries half away (common practice, no source; all of it
/// is the most that it can).
constexpr double chip_fraction = 0.5;
/// Chips that carry more than half of the power are not seen: most of it is rubbing.
constexpr double most_to_chips = 0.5;

/// A tool on the plain face as far as heat goes.
struct Rubbing {
  double power = 0;       ///< [mW/mm]
  double half_width = 0;  ///< [mm]
  double speed = 0;       ///< v [mm/s]
  double feed = 0;        ///< [mm/s]
  double energy = 0;      ///< u [MPa] of what is met first; 0: nothing is cut
};

double value_of(const Quantity& quantity) {
  return quantity ? quantity->value : 0.0;
}

double coefficient_of(const models::AnyRemovalLaw& law) {
  return std::visit([](const auto& l) { return l.coefficient; }, law);
}

/// u = mu / K: what a removed volume takes, whoever said K.
double energy_of(double friction, double coefficient) {
  return coefficient > 0.0 ? friction / coefficient : 0.0;
}

std::optional<Rubbing> rubbing(const StationSetup& station, const StationResult& stated) {
  Rubbing tool{.power = value_of(stated.power), .half_width = half_length_of(station, stated)};
  if (const auto* belt = std::get_if<BeltSetup>(&station)) {
    tool.speed = belt->sliding_speed;
    tool.feed = belt->feed;
    tool.energy = energy_of(belt->friction, coefficient_of(belt->top.law));
    return tool;
  }
  if (const auto* brush = std::get_if<BrushSetup>(&station)) {
    tool.speed = brush->speed;
    tool.feed = brush->feed;
    const double load = value_of(stated.line_load);
    if (load > 0.0) tool.energy = energy_of(value_of(stated.drag) / load, brush->top.coefficient);
    return tool;
  }
  return std::nullopt;
}

struct Shares {
  double part = 0;
  double chips = 0;
  double rest = 0;
};

Shares shares_of(const HeatSetup& heat, const Rubbing& tool) {
  const WarmMetal& skin = heat.skin.value();
  Shares shares;
  if (tool.energy > 0.0 && skin.melting_point)
    shares.chips = std::min(most_to_chips,
                            models::share_to_chips(skin.thermal, chip_fraction,
                                                   *skin.melting_point - heat.room, tool.energy));
  shares.part = (1.0 - shares.chips) *
                models::share_to_work(skin.thermal, grain_conductivity, grain_flat, tool.speed);
  if (heat.contact_film > 0.0 && tool.half_width > 0.0) {
    const models::HeatedBand unit{.half_width = tool.half_width, .feed = tool.feed, .flux = 1.0};
    const auto& metal = heat.part->thermal;
    const double warming =
        models::band_scale(unit, metal) * models::band_mean(models::band_speed_number(unit, metal));
    shares.part = models::share_under_fluid(shares.part, 1.0 / warming, heat.contact_film);
  }
  shares.part = heat.share.value_or(std::clamp(shares.part, heat.share_low, heat.share_high));
  shares.chips = std::min(shares.chips, 1.0 - shares.part);
  shares.rest = 1.0 - shares.part - shares.chips;
  return shares;
}

/// Follows the sheet along the line.
class Sheet {
 public:
  Sheet(const Setup& setup, StatedAnswer& answer)
      : setup_(setup),
        answer_(answer),
        heat_(setup.heat),
        mean_(heat_.room),
        highest_{heat_.room, heat_.room},
        edges_(answer.stations.front().after.features.size(), heat_.room),
        burrs_up_(setup.scenario.part.burr_side == cases::BurrSide::up) {}

  void run();

 private:
  void pass_station(std::size_t index, bool last);
  void rub(std::size_t index, const Rubbing& tool, bool last);
  void heat_burrs(std::size_t index, const Rubbing& tool, StationHeat& heat, double face);
  void state(PartState& after) const;
  void cool(double time) {
    mean_ = heat_.room +
            (mean_ - heat_.room) * models::warming_kept(heat_.film,
                                                        models::heat_capacity(heat_.part->thermal),
                                                        setup_.scenario.part.thickness, time);
  }

  const Setup& setup_;
  StatedAnswer& answer_;
  const HeatSetup& heat_;
  double mean_;                    // [K] of the sheet
  std::array<double, 2> highest_;  // [K] so far: face with burrs, other face
  std::vector<double> edges_;      // [K] so far: burrs
  bool burrs_up_;
  std::optional<std::size_t> hardest_;  // station that pressed burrs most so far
};

void Sheet::heat_burrs(std::size_t index, const Rubbing& tool, StationHeat& heat, double face) {
  const auto& belt = setup_.belt(index);
  const StationResult& stated = answer_.stations[index];
  const double load = value_of(stated.working_line_load);
  const double most = hardest_ ? value_of(answer_.stations[*hardest_].working_line_load) : load;
  if (!hardest_ || load > most) hardest_ = index;
  const BurrContact contact{.friction = belt.friction,
                            .sliding_speed = belt.sliding_speed,
                            .share = heat.share_to_part->value,
                            .dwell = 2.0 * tool.half_width / tool.feed,
                            .energy = energy_of(belt.friction, coefficient_of(belt.substrate.law)),
                            .base_energy = belt.specific_energy,
                            .face = face,
                            .line_load_ratio = most > 0.0 ? load / most : 1.0};
  const FaceState* before = index > 0 ? &answer_.stations[index - 1].after : nullptr;
  heat.edges = edge_heat(setup_, contact, before, stated.after);
  for (std::size_t i = 0; i < edges_.size(); ++i)
    edges_[i] = std::max(edges_[i], value_of(heat.edges[i].burr));
}

void Sheet::rub(std::size_t index, const Rubbing& tool, bool last) {
  const auto& metal = heat_.part->thermal;
  const double thickness = setup_.scenario.part.thickness;
  const Shares shares = shares_of(heat_, tool);
  const double arrival = mean_;
  double flash = 0.0;
  double mean = 0.0;
  if (tool.power > 0.0 && tool.half_width > 0.0) {
    const models::HeatedBand band{.half_width = tool.half_width,
                                  .feed = tool.feed,
                                  .flux = shares.part * tool.power / (2.0 * tool.half_width)};
    flash = models::peak_rise(band, metal, thickness);
    mean = models::mean_rise(band, metal, thickness);
  }
  mean_ += mean;
  const double melting =
      heat_.part->melting_point.value_or(std::numeric_limits<double>::infinity());
  const double face = std::min(arrival + flash, melting);
  highest_[burrs_up_ ? 0 : 1] = std::max(highest_[burrs_up_ ? 0 : 1], face);
  // The face beneath is as warm as the sheet at the most.
  highest_[burrs_up_ ? 1 : 0] = std::max(highest_[burrs_up_ ? 1 : 0], mean_);
  if (!last) return;
  StationHeat heat{.power_in = known(tool.power),
                   .share_to_part = known(shares.part),
                   .share_to_chips = known(shares.chips),
                   .share_to_rest = known(shares.rest),
                   .into_part = known(shares.part * tool.power),
                   .into_chips = known(shares.chips * tool.power),
                   .into_rest = known(shares.rest * tool.power),
                   .arrival = known(arrival),
                   .flash_rise = known(flash),
                   .mean_rise = known(mean),
                   .leaving = known(mean_),
                   .contact_time = known(2.0 * tool.half_width / tool.feed),
                   .edges = {}};
  if (burrs_up_ && std::holds_alternative<BeltSetup>(setup_.stations[index]))
    heat_burrs(index, tool, heat, face);
  answer_.stations[index].heat = std::move(heat);
}

void Sheet::state(PartState& after) const {
  const auto face = [&](FaceState& state, double highest) {
    state.face.temperature = known(highest);
    for (auto& edge : state.features)
      edge.temperature = known(highest);
  };
  face(after, highest_[0]);
  for (std::size_t i = 0; i < edges_.size(); ++i)
    after.features[i].temperature = known(std::max(highest_[0], edges_[i]));
  if (after.reverse) face(*after.reverse, highest_[1]);
}

void Sheet::pass_station(std::size_t index, bool last) {
  const auto tool = rubbing(setup_.stations[index], answer_.stations[index]);
  if (tool) rub(index, *tool, last);
  if (std::holds_alternative<FlipSetup>(setup_.stations[index])) burrs_up_ = !burrs_up_;
  if (last) state(answer_.stations[index].after);
}

void Sheet::run() {
  const int passes = setup_.scenario.conveyor.passes;
  const double feed = setup_.scenario.conveyor.speed;
  for (int pass = 0; pass < passes; ++pass) {
    if (pass > 0) cool(heat_.pass_interval);
    for (std::size_t i = 0; i < setup_.stations.size(); ++i) {
      if (i > 0) cool(heat_.station_spacing / feed);
      pass_station(i, pass + 1 == passes);
    }
  }
}

}  // namespace

void add_heat(const Setup& setup, StatedAnswer& answer) {
  if (!setup.heat.part || answer.stations.empty()) return;
  Sheet(setup, answer).run();
}

std::vector<Quantity*> banded_heat(StationResult& station) {
  if (!station.heat) return {};
  StationHeat& heat = *station.heat;
  std::vector<Quantity*> list{&heat.power_in,      &heat.share_to_part, &heat.share_to_chips,
                              &heat.share_to_rest, &heat.into_part,     &heat.into_chips,
                              &heat.into_rest,     &heat.arrival,       &heat.flash_rise,
                              &heat.mean_rise,     &heat.leaving,       &heat.contact_time};
  for (EdgeHeat& edge : heat.edges)
    for (Quantity* q : {&edge.burr, &edge.beside, &edge.contact_time})
      list.push_back(q);
  return list;
}

void cap_heat(const Setup& setup, StatedAnswer& answer) {
  if (!setup.heat.part) return;
  const double melting =
      setup.heat.part->melting_point.value_or(std::numeric_limits<double>::infinity());
  const auto between = [](Quantity& q, double least, double most) {
    if (!q) return;
    if (q->low) q->low = std::max(*q->low, std::min(least, q->value));
    if (q->high) q->high = std::min(*q->high, std::max(most, q->value));
  };
  const auto cap_face = [&](FaceState& state) {
    between(state.face.temperature, setup.heat.room, melting);
    for (auto& edge : state.features)
      between(edge.temperature, setup.heat.room, melting);
  };
  const auto cap_part = [&](PartState& part) {
    cap_face(part);
    if (part.reverse) cap_face(*part.reverse);
  };
  for (auto& station : answer.stations) {
    cap_part(station.after);
    if (!station.heat) continue;
    for (Quantity* q : {&station.heat->arrival, &station.heat->leaving})
      between(*q, setup.heat.room, melting);
    between(station.heat->share_to_part, setup.heat.share_low, setup.heat.share_high);
    for (Quantity* q : {&station.heat->share_to_chips, &station.heat->share_to_rest})
      between(*q, 0.0, 1.0);
    for (auto& edge : station.heat->edges)
      for (Quantity* q : {&edge.burr, &edge.beside})
        between(*q, setup.heat.room, melting);
  }
  cap_part(answer.part);
}

}  // namespace drumlin::sim
