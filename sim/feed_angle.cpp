#include "sim/feed_angle.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <tuple>
#include <variant>

#include <fmt/format.h>

#include "sim/fast/fast_model.hpp"
#include "sim/lanes.hpp"
#include "sim/verdict.hpp"

namespace drumlin::sim {
namespace {

constexpr double quarter_turn = 0.5 * std::numbers::pi;
/// Margins that differ by less than this share of their limit are one and the same.
constexpr double same_margin = 1e-3;

/// What the limits say of a part fed at some angle.
struct Standing {
  int broken = 0;
  int unknown = 0;
  double margin = std::numeric_limits<double>::infinity();  ///< least, as a share of its limit
  std::string decided_by;

  [[nodiscard]] bool better_than(const Standing& other) const {
    const auto counts = std::tie(broken, unknown);
    const auto others = std::tie(other.broken, other.unknown);
    return counts < others || (counts == others && margin > other.margin + same_margin);
  }
};

Standing standing_at(Setup setup, double angle) {
  setup.scenario.part.angle = angle;
  fast::Drums drums;
  const auto answer = fast::state(setup, fast::simulate(setup, drums), /*waves=*/false);
  const Verdict verdict = judge(setup.scenario.accept, answer.part);
  Standing standing;
  standing.decided_by = verdict.decided_by;
  for (const auto& item : verdict.items) {
    if (!item.accepted) ++standing.unknown;
    if (!item.accepted) continue;
    if (!*item.accepted) ++standing.broken;
    const double size =
        std::max({std::abs(item.low.value_or(0.0)), std::abs(item.high.value_or(0.0)), 1e-12});
    standing.margin = std::min(standing.margin, *item.margin / size);
  }
  return standing;
}

std::string standing_text(const Standing& standing) {
  if (standing.broken > 0)
    return fmt::format("{} limits broken, first of all {}", standing.broken, standing.decided_by);
  if (standing.unknown > 0)
    return fmt::format("no limit broken, {} not judged by it", standing.unknown);
  return fmt::format("every limit kept, the closest {}", standing.decided_by);
}

/// What a turn costs or gains in parts.
std::string lanes_text(const cases::Part& part, const cases::Conveyor& conveyor, double angle) {
  if (conveyor.lanes == 0) return "; how many lanes that leaves is not known: give conveyor.lanes";
  constexpr double hour = 3600.0;
  return fmt::format(
      ", so {} lanes in place of {} go side by side, {:.4g} parts/h in place of {:.4g}",
      lanes_at(part, conveyor, angle), conveyor.lanes, hour * throughput(part, conveyor, angle),
      hour * throughput(part, conveyor, part.angle));
}

double degrees(double angle) {
  return angle * 180.0 / std::numbers::pi;
}

}  // namespace

std::string feed_angle_text(const Setup& setup) {
  const cases::Part& part = setup.scenario.part;
  const bool limits =
      !setup.scenario.accept.limits.empty() || !setup.scenario.accept.features.empty();
  const bool belt = std::any_of(setup.stations.begin(), setup.stations.end(),
                                [](const auto& s) { return std::holds_alternative<BeltSetup>(s); });
  if (!limits || !belt || part.features.empty()) return {};
  const Standing as_fed = standing_at(setup, part.angle);
  Standing best = as_fed;
  double best_angle = part.angle;
  for (int turns = 1; turns <= 3; ++turns) {
    const double angle = part.angle + turns * quarter_turn;
    Standing there = standing_at(setup, angle);
    if (!there.better_than(best)) continue;
    best = std::move(there);
    best_angle = angle;
  }
  if (best_angle == part.angle)
    return fmt::format(
        "fed as it is, at {:.3g} deg, the part does as well as after any quarter turn "
        "(fast model): {}",
        degrees(part.angle), standing_text(as_fed));
  return fmt::format(
      "best fed at {:.3g} deg in place of {:.3g} deg (fast model): {}, in place of {}; each part "
      "then takes {:.4g} mm across the conveyor in place of {:.4g} mm{}",
      degrees(best_angle), degrees(part.angle), standing_text(best), standing_text(as_fed),
      across(part, best_angle), across(part, part.angle),
      lanes_text(part, setup.scenario.conveyor, best_angle));
}

}  // namespace drumlin::sim
