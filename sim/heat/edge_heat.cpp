#include "sim/heat/edge_heat.hpp"

#include <algorithm>
#include <limits>

#include "models/heat/burr_fin.hpp"

namespace drumlin::sim {
namespace {

/// Burr that counts as none [mm]: less than any gauge reads.
constexpr double no_burr = 1e-3;

const cases::Feature* feature_of(const cases::Part& part, const FeatureResult& edge) {
  for (const auto& feature : part.features)
    if (feature.name == edge.feature) return &feature;
  return nullptr;
}

/// Height of what stands on arrival [mm]; 0 where nothing does.
double standing(const models::AnyBurr& burr, const FeatureResult* before) {
  if (before == nullptr) return models::height_of(burr);
  if (before->outcome != "stands" && before->outcome != "untouched") return 0.0;
  return before->burr_height ? before->burr_height->value : 0.0;
}

/// Force of this belt on the burr [N/mm].
double force_on(const FeatureResult* before, const FeatureResult& after, double line_load_ratio) {
  if (!after.peak_line_force) return 0.0;
  const double most = after.peak_line_force->value;
  const double earlier =
      before != nullptr && before->peak_line_force ? before->peak_line_force->value : 0.0;
  return most > earlier ? most : most * std::min(line_load_ratio, 1.0);
}

bool folded(const FeatureResult& edge) {
  return edge.outcome == "folded beyond the edge" || edge.outcome == "folded onto the face";
}

/// Share of a standing burr's area that the pass took [-].
double share_taken(const FeatureResult& after, double height) {
  const double left = after.burr_height ? std::max(after.burr_height->value, 0.0) : height;
  return std::clamp(1.0 - left / height, 0.0, 1.0);
}

void heat_burr(const Setup& setup, const BurrContact& contact, const models::AnyBurr& burr,
               const FeatureResult* before, const FeatureResult& after, EdgeHeat& result) {
  const WarmMetal& metal = setup.heat.part.value();
  const double height = standing(burr, before);
  const double root = models::footprint_of(burr);
  const double force = force_on(before, after, contact.line_load_ratio);
  if (height <= no_burr || root <= 0.0 || force <= 0.0) return;
  const double power = contact.friction * force * contact.sliding_speed;
  double time = contact.dwell;
  if (!folded(after)) {
    const double taken =
        models::area_of(burr) * height / models::height_of(burr) * share_taken(after, height);
    time =
        std::min(time, contact.energy / models::ease_of(burr, contact.base_energy) * taken / power);
  }
  const models::BurrFin fin{.height = height, .root = root, .sheet = setup.scenario.part.thickness};
  const auto rise = models::burr_rise(fin, metal.thermal, contact.share * power, time);
  const double most = metal.melting_point.value_or(std::numeric_limits<double>::infinity());
  result.melts = contact.face + rise.tip > most;
  result.burr = known(std::min(contact.face + rise.tip, most));
  result.beside = known(std::min(contact.face + rise.beside, most));
  result.contact_time = known(time);
}

}  // namespace

std::vector<EdgeHeat> edge_heat(const Setup& setup, const BurrContact& contact,
                                const FaceState* before, const FaceState& after) {
  std::vector<EdgeHeat> list;
  for (std::size_t i = 0; i < after.features.size(); ++i) {
    const FeatureResult& edge = after.features[i];
    EdgeHeat& result = list.emplace_back();
    result.name = edge.name;
    const cases::Feature* feature = feature_of(setup.scenario.part, edge);
    if (feature == nullptr || !edge.burr_height) continue;
    heat_burr(setup, contact, feature->burr, before != nullptr ? &before->features[i] : nullptr,
              edge, result);
  }
  return list;
}

}  // namespace drumlin::sim
