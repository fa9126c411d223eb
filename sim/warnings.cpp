#include "sim/warnings.hpp"

#include <algorithm>
#include <array>
#include <string>

#include <fmt/format.h>

#include "models/burr/wall.hpp"
#include "sim/line/plain_nip.hpp"

namespace drumlin::sim {
namespace {

/// Belt speed over Rayleigh speed from which a warning is due (theory, no measured onset found).
constexpr double speed_warning = 0.7;
/// What neo-Hookean finite elements carry over the linear line load (nu 0.45), by interference over
/// cover; straight lines between.
struct Excess {
  double depth;
  double load;
};
constexpr auto finite_strain = std::to_array<Excess>(
    {{0.0, 0.0}, {0.025, 0.017}, {0.05, 0.046}, {0.10, 0.115}, {0.20, 0.246}});

std::string excess_text(double depth) {
  if (depth > finite_strain.back().depth) {
    return fmt::format("more than {:.0f} %", 100.0 * finite_strain.back().load);
  }
  std::size_t k = 1;
  while (finite_strain[k].depth < depth)
    ++k;
  const Excess& from = finite_strain[k - 1];
  const Excess& to = finite_strain[k];
  const double share = (depth - from.depth) / (to.depth - from.depth);
  return fmt::format("about {:.0f} %", 100.0 * (from.load + share * (to.load - from.load)));
}

/// Interference over cover beyond which linear elasticity is 5 % and more off: neo-Hookean finite
/// elements carry 4.6 % more at 5 %, 11.5 % at 10 % (nu 0.45).
constexpr double linear_range = 0.05;

double um(double mm) {
  return 1000.0 * mm;
}

void warn_of_speed_and_depth(const Setup& setup, Result& result) {
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    const BeltSetup& station = setup.stations[i];
    for (const auto& warning : station.warnings)
      result.warnings.push_back(warning);
    if (station.speed_ratio >= speed_warning) {
      result.warnings.emplace_back(
          fmt::format("station[{}]: the belt runs at {:.2f} of the cover's Rayleigh speed (static "
                      "modulus): inertia softens the nip and may raise waves behind it; this "
                      "version does not model that (theory, no measured onset)",
                      i, station.speed_ratio));
    }
    const double depth = result.stations[i].interference->value / station.cover.thickness;
    if (depth > linear_range) {
      result.warnings.emplace_back(
          fmt::format("station[{}]: interference is {:.1f} % of the cover, past the linear range "
                      "of {:.0f} %: finite strain carries {} more line load",
                      i, 100.0 * depth, 100.0 * linear_range, excess_text(depth)));
    }
    if (result.stations[i].line_load->value <= 0.0) {
      result.warnings.emplace_back(
          fmt::format("station[{}]: the drum does not reach the face; only burrs are touched", i));
    }
  }
}

/// An answer inside its limit may still have a band that reaches outside.
void warn_of_bands(Result& result) {
  for (const auto& item : result.verdict.items) {
    if (!item.accepted.value_or(false) || !item.value->low || !item.value->high) continue;
    const bool above = item.high && *item.value->high > *item.high;
    const bool below = item.low && *item.value->low < *item.low;
    if (!above && !below) continue;
    result.warnings.emplace_back(
        fmt::format("{}: accepted by its value of {:.3g} {}, but its band {:.3g}..{:.3g} {} "
                    "reaches past the limit {}; a sample decides",
                    item.name, item.value->value, item.unit, *item.value->low, *item.value->high,
                    item.unit, item.limit));
  }
}

/// What a section cannot know of the part's size.
void warn_of_size(const Setup& setup, Result& result) {
  const cases::Part& part = setup.scenario.part;
  double nip = 0.0;
  for (const auto& station : result.stations)
    nip = std::max(nip, 2.0 * station.half_width->value);
  for (const auto& feature : part.features) {
    const double taken = feature.size.value_or(0.0);
    if (part.length - taken > 2.0 * nip) continue;
    result.warnings.emplace_back(fmt::format(
        "{}: the part leaves {:.3g} mm of metal along the feed, the nip is {:.3g} mm wide; this "
        "version treats every edge as if the next were far away, so its numbers do not hold here",
        feature.name, part.length - taken, nip));
  }
  if (result.part.face.removal->value >= 0.5 * part.thickness) {
    result.warnings.emplace_back(
        fmt::format("the face loses {:.3g} mm of a {:.3g} mm sheet: no such setting is in use, "
                    "check interference, removal coefficient and speeds",
                    result.part.face.removal->value, part.thickness));
  }
}

/// Windows that had to be raised are not passed over.
void warn_of_window(const Setup& setup, Result& result) {
  const auto& asked = setup.scenario.numerics.window;
  for (std::size_t i = 0; asked && i < setup.stations.size(); ++i) {
    const double used = line::response_window(setup.stations[i], setup.scenario.numerics);
    if (used <= *asked) continue;
    result.warnings.emplace_back(fmt::format(
        "station[{}]: a window of {:.4g} mm lets the nip feel its own images; {:.4g} mm was used",
        i, *asked, used));
  }
}

const models::WallBurr* wall_of(const Setup& setup, const FeatureResult& feature) {
  for (const auto& f : setup.scenario.part.features) {
    if (f.name == feature.feature) return std::get_if<models::WallBurr>(&f.burr);
  }
  return nullptr;
}

/// The line model grinds every burr; where drag would bend it over first, that must be said.
void warn_of_folding(const Setup& setup, Result& result) {
  double friction = 0.0;
  for (const auto& station : setup.stations)
    friction = std::max(friction, station.friction);
  for (auto& feature : result.part.features) {
    const auto* wall = wall_of(setup, feature);
    if (wall == nullptr || !feature.peak_line_force) continue;
    const double limit = models::folding_force(*wall, friction);
    const double force = feature.peak_line_force->value;
    if (force <= limit) continue;
    feature.note = fmt::format(
        "may fold: {:.2f} N/mm on the burr, drag bends its root from {:.2f} N/mm on", force, limit);
    result.warnings.emplace_back(
        fmt::format("{}: the drag of {:.2f} N/mm at mu {:.2g} exceeds what the root stands ({:.2f} "
                    "N/mm): the burr may be folded over instead of cut; this version grinds it, so "
                    "its burr height and a secondary burr are not to be relied on here",
                    feature.name, force, friction, limit));
  }
}

void warn_of_coating(const Setup& setup, Result& result) {
  if (!setup.scenario.part.coating) return;
  const double given = setup.scenario.part.coating->thickness;
  if (result.part.face.coating_left && result.part.face.coating_left->value <= 0.0) {
    result.warnings.emplace_back(fmt::format("the face loses all of its {:.1f} um of {}", um(given),
                                             setup.scenario.part.coating->material.name));
  }
  const auto& limits = setup.scenario.accept.limits;
  const auto limit = limits.find("coating_left");
  if (limit == limits.end() || !limit->second.low) return;
  for (const auto& feature : result.part.features) {
    if (!feature.coating_left || feature.coating_left->value >= *limit->second.low) continue;
    result.warnings.emplace_back(
        fmt::format("{}: beside the edge the coating falls to {:.1f} um, under the {} asked of the "
                    "face; give an [[accept.feature]] limit with `beyond` if the edge matters",
                    feature.name, um(feature.coating_left->value), limit->second.text));
  }
}

}  // namespace

void warn(const Setup& setup, Result& result) {
  warn_of_speed_and_depth(setup, result);
  warn_of_folding(setup, result);
  warn_of_bands(result);
  warn_of_size(setup, result);
  warn_of_window(setup, result);
  warn_of_coating(setup, result);
}

}  // namespace drumlin::sim
