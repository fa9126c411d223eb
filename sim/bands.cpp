#include "sim/bands.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include <fmt/format.h>

namespace drumlin::sim {
namespace {

/// Line load of a real cover over that of this version's flat, slipping, linear one at the same
/// interference. Low end: the true drum carries up to 16 % less than a flat layer (finite elements,
/// R 100 mm, cover 10 to 20 mm, interference 0.25 to 2 mm). High end: a belt that grips the cover
/// adds up to 61 % (thin, nearly incompressible covers). At a set interference line load is in
/// proportion to the modulus, so the modulus carries the band.
constexpr double idealised_low = 0.84;
constexpr double idealised_high = 1.61;

/// Coarse passes for differences: five cells on a burr's root and some twenty steps while a nip
/// goes by; a difference of two such runs is good to a tenth of itself.
constexpr line::Fineness coarse{.resolution = 0.04, .root_cells = 5, .steps = 64};

void scale_removal(LayerLaw& layer, double factor) {
  std::visit([&](auto& law) { law.coefficient *= factor; }, layer.law);
  layer.coefficient *= factor;
}

void add_station(std::vector<Variation>& list, const Setup& setup, std::size_t index) {
  const BeltSetup& station = setup.stations[index];
  const std::string prefix = fmt::format("station[{}].", index);
  const bool by_hardness =
      std::get<cases::BeltStation>(setup.scenario.stations[index]).drum.hardness.has_value();
  // Everything that is one number of one station.
  const auto number = [&](const std::string& key, const char* meaning, const char* unit, double low,
                          double high, auto set) {
    if (low == high) return;
    list.push_back({prefix + key, meaning, unit, low, high,
                    [=](Setup& s, bool to_high) { set(s.stations[index], to_high ? high : low); }});
  };
  number(by_hardness ? "drum.hardness" : "drum.modulus", "modulus of the cover", "MPa",
         station.modulus_low, station.modulus_high,
         [](BeltSetup& s, double value) { s.cover.modulus = value; });
  number("drum.poisson", "how little the cover gives up volume", "-", station.poisson_low,
         station.poisson_high, [](BeltSetup& s, double value) { s.cover.poisson_ratio = value; });
  number("cover idealised", "flat, slipping, linear cover against a real one", "x line load",
         idealised_low, idealised_high,
         [](BeltSetup& s, double value) { s.cover.modulus *= value; });
  number("belt.bending_stiffness", "how stiff the belt bends", "N mm", station.bending_low,
         station.bending_high,
         [](BeltSetup& s, double value) { s.belt.bending_stiffness = value; });
  number("belt.grain_compliance", "how far grains give", "mm/MPa", station.grain_low,
         station.grain_high, [](BeltSetup& s, double value) { s.belt.grain_compliance = value; });
  number("belt.threshold_pressure", "pressure below which grains only rub", "MPa",
         station.threshold_low, station.threshold_high, [](BeltSetup& s, double value) {
           for (LayerLaw* layer : {&s.substrate, &s.coating}) {
             std::visit([&](auto& law) { law.threshold = value; }, layer->law);
           }
         });
  const double base = station.substrate.coefficient;
  number("belt.removal_coefficient", "removal per pressure and path, all layers together", "1/MPa",
         station.substrate.coefficient_low, station.substrate.coefficient_high,
         [base](BeltSetup& s, double value) {
           scale_removal(s.substrate, value / base);
           scale_removal(s.coating, value / base);
         });
}

/// A value that may carry a band, and whether it may be negative.
struct Slot {
  Quantity* quantity;
  bool may_be_negative;
};

void add_slots(std::vector<Slot>& slots, PartState& part) {
  for (Quantity* q :
       {&part.face.removal, &part.face.coating_left, &part.face.coating_left_fraction}) {
    slots.push_back({q, false});
  }
  for (auto& f : part.features) {
    slots.push_back({&f.burr_height, true});
    slots.push_back({&f.edge_drop, true});
    for (Quantity* q :
         {&f.edge_radius, &f.peak_pressure, &f.peak_line_force, &f.coating_left, &f.bare_length}) {
      slots.push_back({q, false});
    }
    for (auto& beyond : f.coating_beyond)
      slots.push_back({&beyond.left, false});
  }
}

/// Every value of an answer that gets a band, always in the same order.
std::vector<Slot> slots_of(line::StatedAnswer& answer) {
  std::vector<Slot> slots;
  for (auto& s : answer.stations) {
    for (Quantity* q : {&s.line_load, &s.interference, &s.half_width, &s.peak_pressure,
                        &s.line_load_slope, &s.working_line_load, &s.power, &s.speed_ratio}) {
      slots.push_back({q, false});
    }
    add_slots(slots, s.after);
  }
  add_slots(slots, answer.part);
  return slots;
}

/// Adds one input's effect to the squares that the bands are made of.
void add_effect(const std::vector<Slot>& base, const std::vector<Slot>& moved,
                std::vector<double>& up, std::vector<double>& down) {
  for (std::size_t i = 0; i < base.size(); ++i) {
    if (!*base[i].quantity || !*moved[i].quantity) continue;
    const double change = (*moved[i].quantity)->value - (*base[i].quantity)->value;
    (change > 0.0 ? up : down)[i] += change * change;
  }
}

void set_bands(const std::vector<Slot>& slots, const std::vector<double>& up,
               const std::vector<double>& down) {
  for (std::size_t i = 0; i < slots.size(); ++i) {
    if (!*slots[i].quantity) continue;
    Banded& value = **slots[i].quantity;
    const double low = value.value - std::sqrt(down[i]);
    value.low = slots[i].may_be_negative ? low : std::max(low, 0.0);
    value.high = value.value + std::sqrt(up[i]);
  }
}

/// No band reaches past what there is: coating left cannot exceed the coating applied, nor a bare
/// length what is read of an edge.
void cap_coating(PartState& part, const cases::Part& given) {
  if (!given.coating) return;
  const auto cap = [](Quantity& q, double most) {
    if (q && q->high) q->high = std::min(*q->high, std::max(most, q->value));
  };
  cap(part.face.coating_left, given.coating->thickness);
  cap(part.face.coating_left_fraction, 1.0);
  for (auto& f : part.features)
    cap(f.coating_left, given.coating->thickness);
}

struct Output {
  std::string name;
  double value;
};

/// What influences are stated for: the face and the tallest burr left.
std::vector<Output> outputs_of(const line::StatedAnswer& answer, std::string_view burr) {
  std::vector<Output> outputs;
  outputs.push_back({"face removal", answer.part.face.removal->value});
  for (const auto& f : answer.part.features) {
    if (f.name == burr && f.burr_height) {
      outputs.push_back({fmt::format("burr left, {}", f.name), f.burr_height->value});
    }
  }
  return outputs;
}

std::string tallest_burr(const line::StatedAnswer& answer) {
  std::string name;
  double tallest = 0.0;
  for (const auto& f : answer.part.features) {
    if (!f.burr_height || (!name.empty() && f.burr_height->value <= tallest)) continue;
    name = f.name;
    tallest = f.burr_height->value;
  }
  return name;
}

double reach(const Influence& influence) {
  return std::abs(influence.output_high - influence.output_low);
}

}  // namespace

std::vector<Variation> variations(const Setup& setup) {
  std::vector<Variation> list;
  for (std::size_t i = 0; i < setup.stations.size(); ++i)
    add_station(list, setup, i);
  const double tolerance = setup.scenario.part.thickness_tolerance;
  if (tolerance > 0.0) {
    list.push_back({"part.thickness_tolerance", "thickness of the sheet, felt as interference",
                    "mm", -tolerance, tolerance, [tolerance](Setup& s, bool to_high) {
                      for (auto& station : s.stations) {
                        station.interference_offset += to_high ? tolerance : -tolerance;
                      }
                    }});
  }
  return list;
}

std::vector<Influence> add_bands(const Setup& setup, line::StatedAnswer& answer,
                                 const std::function<void(double)>& work,
                                 const std::stop_token& stop) {
  const auto run = [&](const Setup& s) {
    const line::LineOptions options{.fineness = coarse, .frames = 0, .progress = {}, .stop = stop};
    return line::state(s, line::simulate(s, options));
  };
  line::StatedAnswer base = run(setup);
  const auto base_slots = slots_of(base);
  std::vector<double> up(base_slots.size(), 0.0);
  std::vector<double> down(base_slots.size(), 0.0);
  const std::string burr = tallest_burr(answer);
  const auto fine_outputs = outputs_of(answer, burr);
  const auto base_outputs = outputs_of(base, burr);
  std::vector<Influence> influences;
  const auto list = variations(setup);
  for (std::size_t k = 0; k < list.size(); ++k) {
    std::vector<std::vector<Output>> outputs;
    for (const bool to_high : {false, true}) {
      Setup moved = setup;
      list[k].apply(moved, to_high);
      line::StatedAnswer there = run(moved);
      add_effect(base_slots, slots_of(there), up, down);
      outputs.push_back(outputs_of(there, burr));
    }
    for (std::size_t o = 0; o < fine_outputs.size(); ++o) {
      const double shift = fine_outputs[o].value - base_outputs[o].value;
      influences.push_back({list[k].input, list[k].meaning, list[k].low, list[k].high, list[k].unit,
                            fine_outputs[o].name, outputs[0][o].value + shift,
                            outputs[1][o].value + shift});
    }
    work(static_cast<double>(k + 1) / static_cast<double>(list.size()));
  }
  set_bands(slots_of(answer), up, down);
  cap_coating(answer.part, setup.scenario.part);
  for (auto& station : answer.stations)
    cap_coating(station.after, setup.scenario.part);
  std::stable_sort(influences.begin(), influences.end(), [](const auto& a, const auto& b) {
    return a.output != b.output ? a.output > b.output : reach(a) > reach(b);
  });
  return influences;
}

}  // namespace drumlin::sim
