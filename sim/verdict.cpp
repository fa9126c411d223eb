#include "sim/verdict.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string_view>

#include <fmt/format.h>

#include "sim/names.hpp"

namespace drumlin::sim {
namespace {

/// Quantities of an edge, by their accept key.
struct EdgeQuantity {
  std::string_view key;
  Quantity FeatureResult::*member;
};
constexpr auto edge_quantities = std::to_array<EdgeQuantity>({
    {"burr_height", &FeatureResult::burr_height},
    {"secondary_burr", &FeatureResult::secondary_burr},
    {"edge_radius", &FeatureResult::edge_radius},
    {"edge_size", &FeatureResult::edge_size},
    {"minimum_radius", &FeatureResult::minimum_radius},
    {"flank_oxide", &FeatureResult::oxide_left},
    {"protrusion", &FeatureResult::protrusion},
    {"edge_drop", &FeatureResult::edge_drop},
    {"coating_left", &FeatureResult::coating_left},
    {"bare_length", &FeatureResult::bare_length},
    {"peak_pressure", &FeatureResult::peak_pressure},
    {"temperature", &FeatureResult::temperature},
});

/// Quantities of the plain face, by their accept key.
struct FaceQuantity {
  std::string_view key;
  Quantity FaceResult::*member;
};
constexpr auto face_quantities = std::to_array<FaceQuantity>({
    {"face_removal", &FaceResult::removal},
    {"coating_left", &FaceResult::coating_left},
    {"top_left", &FaceResult::top_left},
    {"roughness", &FaceResult::roughness},
    {"temperature", &FaceResult::temperature},
});

Quantity in_unit(const Quantity& quantity, const cases::Limit& limit) {
  if (!quantity) return std::nullopt;
  const auto convert = [&](double v) { return (v - limit.offset) / limit.scale; };
  Banded out{.value = convert(quantity->value), .low = {}, .high = {}};
  if (quantity->low) out.low = convert(*quantity->low);
  if (quantity->high) out.high = convert(*quantity->high);
  return out;
}

VerdictItem judge_one(std::string name, std::string_view key, const Quantity& quantity,
                      const cases::Limit& limit) {
  VerdictItem item;
  item.name = std::move(name);
  item.quantity = std::string(key);
  item.unit = limit.unit;
  item.limit = limit.text;
  item.value = in_unit(quantity, limit);
  const auto convert = [&](double v) { return (v - limit.offset) / limit.scale; };
  if (limit.low) item.low = convert(*limit.low);
  if (limit.high) item.high = convert(*limit.high);
  if (!item.value) return item;
  double margin = std::numeric_limits<double>::infinity();
  if (item.low) margin = std::min(margin, item.value->value - *item.low);
  if (item.high) margin = std::min(margin, *item.high - item.value->value);
  item.margin = margin;
  item.accepted = margin >= 0.0;
  return item;
}

bool applies(const cases::FeatureLimits& limits, const FeatureResult& feature) {
  return (!limits.name || *limits.name == feature.feature || *limits.name == feature.name) &&
         (!limits.kind || to_text(*limits.kind) == feature.kind) &&
         (!limits.side || to_text(*limits.side) == feature.side);
}

/// Whether a limit says anything about an edge: one on burrs about edges that carried a burr, one
/// on stubs about stubs.
bool concerns(std::string_view key, const FeatureResult& feature) {
  if (key == "burr_height") return feature.burr != "none";
  if (key == "secondary_burr") return feature.burr != "none" || feature.secondary_burr;
  if (key == "protrusion") return feature.kind == "stub";
  return true;
}

/// Least coating from a distance to the edge on; none where the model was not asked for it.
Quantity coating_from(const FeatureResult& feature, double distance) {
  for (const auto& beyond : feature.coating_beyond) {
    if (beyond.distance == distance) return beyond.left;
  }
  return std::nullopt;
}

class Judge {
 public:
  explicit Judge(const PartState& part) : part_(part) {}

  void general(const cases::Limits& limits);
  void special(const cases::FeatureLimits& limits);
  void belts(const cases::Limits& limits, const std::optional<LifeStudy>& life);
  Verdict conclude() &&;

 private:
  void one_edge(const cases::FeatureLimits& limits, const FeatureResult& feature,
                std::string_view prefix);
  /// Both faces alike; what stands on the other one is named so.
  template <class Look>
  void on_each_face(const Look& look) {
    look(static_cast<const FaceState&>(part_), std::string_view());
    if (part_.reverse) look(*part_.reverse, std::string_view("reverse "));
  }
  void edge(const FeatureResult& feature, std::string_view prefix, std::string_view key,
            const Quantity& quantity, const cases::Limit& limit, std::string_view where = {}) {
    if (feature.name.starts_with(prefix)) prefix = {};
    verdict_.items.push_back(judge_one(fmt::format("{}{} {}{}", prefix, feature.name, key, where),
                                       key, quantity, limit));
  }

  const PartState& part_;
  Verdict verdict_;
};

void Judge::general(const cases::Limits& limits) {
  for (const auto& entry : limits) {
    const std::string& key = entry.first;
    const cases::Limit& limit = entry.second;
    const auto* face = std::find_if(face_quantities.begin(), face_quantities.end(),
                                    [&](const auto& q) { return q.key == key; });
    if (face != face_quantities.end()) {
      on_each_face([&](const FaceState& state, std::string_view prefix) {
        verdict_.items.push_back(
            judge_one(fmt::format("{}face {}", prefix, key), key, state.face.*face->member, limit));
      });
      continue;
    }
    for (const auto& quantity : edge_quantities) {
      if (quantity.key != key) continue;
      on_each_face([&](const FaceState& state, std::string_view prefix) {
        for (const auto& feature : state.features) {
          if (concerns(key, feature)) edge(feature, prefix, key, feature.*quantity.member, limit);
        }
      });
    }
  }
}

void Judge::special(const cases::FeatureLimits& limits) {
  on_each_face([&](const FaceState& state, std::string_view prefix) {
    for (const auto& feature : state.features) {
      if (applies(limits, feature)) one_edge(limits, feature, prefix);
    }
  });
}

void Judge::one_edge(const cases::FeatureLimits& limits, const FeatureResult& feature,
                     std::string_view prefix) {
  for (const auto& entry : limits.limits) {
    const std::string& key = entry.first;
    if (key == "coating_left" && limits.beyond) {
      edge(feature, prefix, key, coating_from(feature, *limits.beyond), entry.second,
           fmt::format(" beyond {:.4g} mm", *limits.beyond));
      continue;
    }
    const auto* quantity = std::find_if(edge_quantities.begin(), edge_quantities.end(),
                                        [&](const auto& q) { return q.key == key; });
    // On the other face nothing stands that the case could have meant.
    const bool meant = prefix.empty() || concerns(key, feature);
    if (quantity != edge_quantities.end() && meant)
      edge(feature, prefix, key, feature.*quantity->member, entry.second);
  }
}

void Judge::belts(const cases::Limits& limits, const std::optional<LifeStudy>& life) {
  const auto entry = limits.find("belt_life");
  if (entry == limits.end()) return;
  if (!life)
    verdict_.items.push_back(judge_one("belt_life", entry->first, {}, entry->second));
  else
    for (const BeltLife& belt : life->belts)
      verdict_.items.push_back(judge_one(fmt::format("station[{}] belt_life", belt.station),
                                         entry->first, belt.time, entry->second));
}

Verdict Judge::conclude() && {
  if (verdict_.items.empty()) {
    verdict_.state = "no limits given";
    return std::move(verdict_);
  }
  // Not accepted before not known before accepted; then the smallest margin for its limit.
  const auto rank = [](const VerdictItem& item) {
    if (!item.accepted) return -1.0;
    const double size =
        std::max(std::abs(item.high.value_or(0.0)), std::abs(item.low.value_or(0.0)));
    const double relative = *item.margin / std::max(size, 1e-12);
    return *item.accepted ? relative : std::min(relative, 0.0) - 1e6;
  };
  const auto deciding =
      std::min_element(verdict_.items.begin(), verdict_.items.end(),
                       [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  verdict_.decided_by = deciding->name;
  verdict_.accepted = deciding->accepted.value_or(false);
  verdict_.state = verdict_.accepted    ? "accepted"
                   : deciding->accepted ? "not accepted"
                                        : "not known";
  return std::move(verdict_);
}

}  // namespace

namespace {

Judge judged(const cases::Accept& accept, const PartState& part) {
  Judge judge(part);
  judge.general(accept.limits);
  for (const auto& limits : accept.features)
    judge.special(limits);
  return judge;
}

}  // namespace

Verdict judge(const cases::Accept& accept, const PartState& part) {
  return judged(accept, part).conclude();
}

Verdict judge(const cases::Accept& accept, const PartState& part,
              const std::optional<LifeStudy>& life) {
  Judge judge = judged(accept, part);
  judge.belts(accept.limits, life);
  return std::move(judge).conclude();
}

}  // namespace drumlin::sim
