#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "cases/openings.hpp"
#include "cases/reader_parts.hpp"
#include "cases/units.hpp"

namespace drumlin::cases {
namespace {

std::string in_mm(double value) {
  return units::format(value, "mm", 4);
}

std::string described(const Feature& feature) {
  return fmt::format("{} {} ({} at {} along, {} across)",
                     feature.kind == FeatureKind::hole ? "hole" : "slot", in_quotes(feature.name),
                     in_mm(*feature.size), in_mm(*feature.along), in_mm(*feature.across));
}

/// An opening that runs over the outline of the part.
void check_outline(const Section& item, const Part& part, const Feature& feature) {
  const double half = 0.5 * *feature.size;
  const auto inside = [&](std::string_view key, double centre, double low, double high) {
    if (centre > low && centre < high) return;
    item.problem_at_value(
        key, fmt::format("{} runs over the outline of the part, {} x {}; expected {} to {}",
                         described(feature), in_mm(part.length), in_mm(part.width), in_mm(low),
                         in_mm(high)));
  };
  inside("along", *feature.along, half, part.length - half);
  const double reach = 0.5 * part.width - (feature.kind == FeatureKind::hole ? half : 0.0);
  inside("across", *feature.across, -reach, reach);
}

void check_pair(const Section& item, const Feature& first, const Feature& second) {
  const auto metal = metal_between(first, second);
  if (!metal || *metal > 0) return;
  const double apart = clear_along(first, second);
  item.problem_at_value(
      "along",
      fmt::format("{} overlaps {}; expected along below {} or above {}", described(second),
                  described(first), in_mm(*first.along - apart), in_mm(*first.along + apart)));
}

/// More opening than sheet, wherever the openings lie.
void check_area(const Section& part_section, const Part& part) {
  double taken = 0;
  for (const Feature& feature : part.features)
    if (feature.kind == FeatureKind::hole && feature.size)
      taken += std::numbers::pi / 4 * *feature.size * *feature.size;
  const double given = part.length * part.width;
  if (taken < given) return;
  part_section.problem_at_value(
      "feature", fmt::format("the holes take {} mm2 of a part of {} mm2, {} x {}",
                             units::format_number(taken, 4), units::format_number(given, 4),
                             in_mm(part.length), in_mm(part.width)));
}

}  // namespace

void check_openings(const Section& top, const Part& part) {
  const auto section = top.open("part");
  const auto items = section->open_list("feature");
  check_area(*section, part);
  for (std::size_t i = 0; i < part.features.size() && i < items.size(); ++i) {
    if (!is_placed(part.features[i])) continue;
    check_outline(items[i], part, part.features[i]);
    for (std::size_t k = 0; k < i; ++k)
      check_pair(items[i], part.features[k], part.features[i]);
  }
}

}  // namespace drumlin::cases
