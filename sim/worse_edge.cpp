#include <algorithm>
#include <array>
#include <string_view>

#include "sim/answer.hpp"

namespace drumlin::sim {
namespace {

bool less(const Quantity& a, const Quantity& b) {
  return a->value < b->value;
}

/// Where one has no value the other's counts.
Quantity higher(const Quantity& a, const Quantity& b) {
  if (!a || !b) return a ? a : b;
  return less(a, b) ? b : a;
}
Quantity lower(const Quantity& a, const Quantity& b) {
  if (!a || !b) return a ? a : b;
  return less(b, a) ? b : a;
}

/// Where one has no value there is none.
Quantity higher_of_both(const Quantity& a, const Quantity& b) {
  return a && b ? higher(a, b) : Quantity{};
}
Quantity lower_of_both(const Quantity& a, const Quantity& b) {
  return a && b ? lower(a, b) : Quantity{};
}

/// Worst first.
constexpr std::array<std::string_view, 6> outcomes{"folded beyond the edge",
                                                   "folded onto the face",
                                                   "stands",
                                                   "untouched",
                                                   "broken off",
                                                   "ground off"};

bool worse_outcome(std::string_view a, std::string_view b) {
  return std::find(outcomes.begin(), outcomes.end(), a) <
         std::find(outcomes.begin(), outcomes.end(), b);
}

/// A burr is worse than missing material; of two alike the larger.
bool worse_size(const Quantity& a, const Quantity& b) {
  if (!a || !b) return a.has_value();
  const bool burr_a = a->value > 0.0;
  const bool burr_b = b->value > 0.0;
  if (burr_a != burr_b) return burr_a;
  return burr_a ? less(b, a) : less(a, b);
}

bool thinner_coating(const FeatureResult& a, const FeatureResult& b) {
  return a.coating_left && b.coating_left && less(a.coating_left, b.coating_left);
}

void worse_burr(const FeatureResult& other, FeatureResult& worse) {
  worse.burr_height = higher(worse.burr_height, other.burr_height);
  worse.secondary_burr = higher(worse.secondary_burr, other.secondary_burr);
  worse.lip_thickness = higher(worse.lip_thickness, other.lip_thickness);
  worse.fold_start = higher(worse.fold_start, other.fold_start);
  worse.fold_stop = higher(worse.fold_stop, other.fold_stop);
  worse.protrusion = higher(worse.protrusion, other.protrusion);
  worse.peak_line_force = higher(worse.peak_line_force, other.peak_line_force);
  if (worse_outcome(other.outcome, worse.outcome)) worse.outcome = other.outcome;
}

void worse_shape(const FeatureResult& other, FeatureResult& worse) {
  worse.edge_radius = lower_of_both(worse.edge_radius, other.edge_radius);
  worse.edge_radius_fit = higher_of_both(worse.edge_radius_fit, other.edge_radius_fit);
  worse.minimum_radius = lower_of_both(worse.minimum_radius, other.minimum_radius);
  worse.edge_drop = higher(worse.edge_drop, other.edge_drop);
  worse.face_extent = higher_of_both(worse.face_extent, other.face_extent);
  worse.flank_extent = higher_of_both(worse.flank_extent, other.flank_extent);
  worse.flank_reach = lower_of_both(worse.flank_reach, other.flank_reach);
  worse.oxide_left = higher(worse.oxide_left, other.oxide_left);
  if (worse_size(other.edge_size, worse.edge_size)) {
    worse.edge_size = other.edge_size;
    worse.size_class = other.size_class;
  }
}

void worse_coating(const FeatureResult& other, FeatureResult& worse) {
  if (thinner_coating(other, worse)) worse.coating = other.coating;
  worse.coating_left = lower(worse.coating_left, other.coating_left);
  worse.bare_length = higher_of_both(worse.bare_length, other.bare_length);
  for (CoatingBeyond& beyond : worse.coating_beyond) {
    for (const CoatingBeyond& there : other.coating_beyond) {
      if (there.distance == beyond.distance) beyond.left = lower(beyond.left, there.left);
    }
  }
}

}  // namespace

FeatureResult worse_of(const FeatureResult& one, const FeatureResult& other) {
  FeatureResult worse = one;
  worse_burr(other, worse);
  worse_shape(other, worse);
  worse_coating(other, worse);
  worse.peak_pressure = higher(worse.peak_pressure, other.peak_pressure);
  worse.temperature = higher(worse.temperature, other.temperature);
  if (!other.note.empty() && other.note != worse.note)
    worse.note += (worse.note.empty() ? "" : "; ") + other.note;
  return worse;
}

}  // namespace drumlin::sim
