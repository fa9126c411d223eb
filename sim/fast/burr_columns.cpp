#include "sim/fast/burr_columns.hpp"

#include <algorithm>
#include <variant>

namespace drumlin::sim::fast {
namespace {

/// Area of the profile from the edge line to a distance within the footprint [mm^2].
double area_to(const models::AnyBurr& burr, double distance) {
  // The lip's upper half over the face: its hinge lies half a thickness inside the edge line.
  if (const auto* rolled = std::get_if<models::RolledBurr>(&burr))
    return 0.5 * rolled->thickness * std::min(distance, 0.5 * rolled->thickness);
  return models::area_of(burr, distance);
}

}  // namespace

double footprint(const models::AnyBurr& burr) {
  if (const auto* rolled = std::get_if<models::RolledBurr>(&burr)) return rolled->thickness;
  if (const auto* stub = std::get_if<models::Stub>(&burr)) return stub->root;
  return models::footprint_of(burr);
}

double mean_height(const models::AnyBurr& burr, double from, double to) {
  const double end = footprint(burr);
  const double a = std::clamp(from, 0.0, end);
  const double b = std::clamp(to, 0.0, end);
  if (b <= a) return 0.0;
  return (area_to(burr, b) - area_to(burr, a)) / (to - from);
}

}  // namespace drumlin::sim::fast
