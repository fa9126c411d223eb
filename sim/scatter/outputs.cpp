#include "sim/scatter/outputs.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "sim/quantities_result.hpp"

namespace drumlin::sim {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

const FaceState* face_of(const PartState& part, bool reverse) {
  if (!reverse) return &part;
  return part.reverse ? &*part.reverse : nullptr;
}

std::size_t place_of(const std::string& name, const std::vector<ScatterOutput>& list,
                     std::size_t limits, std::size_t guess) {
  // Items come in the same order draw by draw, but for those that come and go.
  if (guess < limits && list[guess].name == name) return guess;
  const auto end = list.begin() + static_cast<std::ptrdiff_t>(limits);
  return static_cast<std::size_t>(
      std::find_if(list.begin(), end, [&](const auto& output) { return output.name == name; }) -
      list.begin());
}

}  // namespace

Outputs::Outputs(const PartState& part, const Verdict& verdict) {
  for (const VerdictItem& item : verdict.items) {
    ScatterOutput output;
    output.name = item.name;
    output.quantity = item.quantity;
    output.unit = item.unit;
    output.limit = item.limit;
    output.low = item.low;
    output.high = item.high;
    list_.push_back(std::move(output));
  }
  limits_ = list_.size();
  for (const bool reverse : {false, true})
    if (const FaceState* state = face_of(part, reverse)) add_face(*state, reverse);
}

/// Adds a number of the part unless a limit on it is there already.
template <class Owner, class Keys, class Find>
void Outputs::add(const Keys& keys, std::string_view key, std::string_view accept_key,
                  const std::string& owner, const Find& find) {
  const auto known = std::find_if(keys.begin(), keys.end(),
                                  [&](const QuantityKey<Owner>& k) { return k.key == key; });
  const std::string name = fmt::format("{} {}", owner, accept_key);
  if (place_of(name, list_, limits_, 0) < limits_) return;
  ScatterOutput output;
  // "face removal", where a limit is called "face face_removal" after its key.
  output.name = accept_key == "face_removal" ? owner + " removal" : name;
  output.quantity = std::string(accept_key);
  output.unit = std::string(known->unit);
  list_.push_back(std::move(output));
  reads_.emplace_back(
      [find, member = known->member, scale = known->scale](const PartState& part) -> Quantity {
        const Owner* of = find(part);
        if (of == nullptr || !(of->*member)) return std::nullopt;
        return Banded{.value = scale((of->*member)->value), .low = {}, .high = {}};
      });
}

void Outputs::add_face(const FaceState& state, bool reverse) {
  const std::string prefix = reverse ? "reverse " : "";
  const auto face = [reverse](const PartState& part) -> const FaceResult* {
    const FaceState* at = face_of(part, reverse);
    return at == nullptr ? nullptr : &at->face;
  };
  add<FaceResult>(face_quantities, "removal_um", "face_removal", prefix + "face", face);
  add<FaceResult>(face_quantities, "coating_left_um", "coating_left", prefix + "face", face);
  for (const FeatureResult& feature : state.features) {
    const auto edge = [reverse, name = feature.name](const PartState& part) {
      const FaceState* at = face_of(part, reverse);
      const FeatureResult* found = nullptr;
      if (at == nullptr) return found;
      for (const FeatureResult& one : at->features)
        if (one.name == name) found = &one;
      return found;
    };
    const std::string owner =
        feature.name.starts_with(prefix) ? feature.name : prefix + feature.name;
    add<FeatureResult>(feature_quantities, "burr_height_um", "burr_height", owner, edge);
    add<FeatureResult>(feature_quantities, "secondary_burr_um", "secondary_burr", owner, edge);
    add<FeatureResult>(feature_quantities, "edge_radius_um", "edge_radius", owner, edge);
    add<FeatureResult>(feature_quantities, "coating_left_um", "coating_left", owner, edge);
  }
}

Draw Outputs::failed(RowStatus status, std::string reason) const {
  Draw draw;
  draw.status = status;
  draw.reason = std::move(reason);
  draw.values.assign(list_.size(), none);
  draw.margins.assign(limits_, none);
  draw.met.assign(limits_, Met::no);
  return draw;
}

Draw Outputs::read(const RowAnswer& answer) const {
  Draw draw = failed(RowStatus::done, {});
  draw.met.assign(limits_, Met::absent);
  std::size_t guess = 0;
  for (const VerdictItem& item : answer.verdict.items) {
    const std::size_t at = place_of(item.name, list_, limits_, guess);
    if (at == limits_) {
      draw.fails_elsewhere = draw.fails_elsewhere || !item.accepted.value_or(false);
      continue;
    }
    guess = at + 1;
    draw.met[at] = !item.accepted ? Met::not_known : *item.accepted ? Met::yes : Met::no;
    if (item.value && std::isfinite(item.value->value)) draw.values[at] = item.value->value;
    if (item.margin && std::isfinite(*item.margin)) draw.margins[at] = *item.margin;
  }
  for (std::size_t i = 0; i < reads_.size(); ++i) {
    const Quantity value = reads_[i](answer.stated.part);
    if (value && std::isfinite(value->value)) draw.values[limits_ + i] = value->value;
  }
  return draw;
}

}  // namespace drumlin::sim
