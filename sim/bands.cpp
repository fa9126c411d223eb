#include "sim/bands.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/heat/part_heat.hpp"

namespace drumlin::sim {
namespace {

/// A value that may carry a band, and whether it may be negative.
struct Slot {
  Quantity* quantity;
  bool may_be_negative;
};

void add_slots(std::vector<Slot>& slots, FaceState& part) {
  for (Quantity* q : {&part.face.removal, &part.face.coating_left, &part.face.coating_left_fraction,
                      &part.face.top_left, &part.face.roughness, &part.face.roughness_along,
                      &part.face.lay_covered, &part.face.temperature}) {
    slots.push_back({q, false});
  }
  for (auto& f : part.features) {
    for (Quantity* q : {&f.burr_height, &f.edge_drop, &f.edge_size, &f.fold_stop})
      slots.push_back({q, true});
    for (Quantity* q :
         {&f.edge_radius, &f.peak_pressure, &f.peak_line_force, &f.coating_left, &f.bare_length,
          &f.secondary_burr, &f.lip_thickness, &f.fold_start, &f.face_extent, &f.flank_extent,
          &f.minimum_radius, &f.oxide_left, &f.flank_reach, &f.root_life_used, &f.temperature}) {
      slots.push_back({q, false});
    }
    for (auto& beyond : f.coating_beyond)
      slots.push_back({&beyond.left, false});
  }
}

void add_slots(std::vector<Slot>& slots, PartState& part) {
  add_slots(slots, static_cast<FaceState&>(part));
  if (part.reverse) add_slots(slots, *part.reverse);
}

/// Every value of an answer that gets a band, always in the same order.
std::vector<Slot> slots_of(StatedAnswer& answer) {
  std::vector<Slot> slots;
  for (auto& s : answer.stations) {
    for (Quantity* q : {&s.line_load,
                        &s.interference,
                        &s.half_width,
                        &s.peak_pressure,
                        &s.line_load_slope,
                        &s.working_line_load,
                        &s.power,
                        &s.speed_ratio,
                        &s.rolling_loss,
                        &s.cover_heating_rate,
                        &s.cover_heating,
                        &s.critical_speed,
                        &s.dynamic_stiffening,
                        &s.cover_growth,
                        &s.belt_tension_at_speed,
                        &s.land_pressure,
                        &s.ripple_height,
                        &s.penetration,
                        &s.drag,
                        &s.tip_force,
                        &s.tip_reach,
                        &s.make_up_rate}) {
      slots.push_back({q, false});
    }
    for (Quantity* q : banded_heat(s))
      slots.push_back({q, false});
    slots.push_back({&s.lean, true});
    slots.push_back({&s.effective_interference, true});
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
    // A value that is an estimate brings a band of its own.
    const double below = value.value - value.low.value_or(value.value);
    const double above = value.high.value_or(value.value) - value.value;
    const double low = value.value - std::hypot(std::sqrt(down[i]), below);
    value.low = slots[i].may_be_negative ? low : std::max(low, 0.0);
    value.high = value.value + std::hypot(std::sqrt(up[i]), above);
  }
}

/// No band reaches past what there is: coating left cannot exceed the coating applied, nor a bare
/// length what is read of an edge.
void cap_coating(FaceState& part, double thickness) {
  const auto cap = [](Quantity& q, double most) {
    if (q && q->high) q->high = std::min(*q->high, std::max(most, q->value));
  };
  cap(part.face.coating_left, thickness);
  cap(part.face.coating_left_fraction, 1.0);
  for (auto& f : part.features)
    cap(f.coating_left, thickness);
}
void cap_coating(PartState& part, const cases::Part& given) {
  for (auto& f : part.features) {
    if (f.oxide_left && f.oxide_left->high) f.oxide_left->high = std::min(*f.oxide_left->high, 1.0);
  }
  for (FaceResult* face : {&part.face, part.reverse ? &part.reverse->face : nullptr})
    if (face != nullptr && face->lay_covered && face->lay_covered->high)
      face->lay_covered->high = std::min(*face->lay_covered->high, 1.0);
  if (!given.coating) return;
  cap_coating(part, given.coating->thickness);
  if (part.reverse) cap_coating(*part.reverse, given.coating->reverse_thickness);
}

struct Output {
  std::string name;
  double value;
};

/// What influences are stated for: the face and the tallest burr left.
std::vector<Output> outputs_of(const StatedAnswer& answer, std::string_view burr) {
  std::vector<Output> outputs;
  outputs.push_back({"face removal", answer.part.face.removal->value});
  for (const auto& f : answer.part.features) {
    if (f.name == burr && f.burr_height) {
      outputs.push_back({fmt::format("burr left, {}", f.name), f.burr_height->value});
    }
  }
  return outputs;
}

std::string tallest_burr(const StatedAnswer& answer) {
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

std::vector<Influence> add_bands(const Setup& setup, StatedAnswer& answer, const Rerun& rerun,
                                 const std::function<void(double)>& work) {
  StatedAnswer base = rerun(setup);
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
      if (list[k].nominal_end == to_high) {
        outputs.push_back(base_outputs);
        continue;
      }
      Setup moved = setup;
      list[k].apply(moved, to_high);
      StatedAnswer there = rerun(moved);
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
  cap_heat(setup, answer);
  std::stable_sort(influences.begin(), influences.end(), [](const auto& a, const auto& b) {
    return a.output != b.output ? a.output > b.output : reach(a) > reach(b);
  });
  return influences;
}

}  // namespace drumlin::sim
