#include "sim/warnings.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "sim/drum_state.hpp"
#include "sim/early_warnings.hpp"
#include "sim/heat/heat_warnings.hpp"
#include "sim/line/plain_nip.hpp"

namespace drumlin::sim {
namespace {

/// Belt speed over critical speed from which a warning is due (theory, no measured onset found).
constexpr double speed_warning = 0.7;

/// Interference over cover beyond which linear elasticity is 5 % and more off: neo-Hookean finite
/// elements carry 4.6 % more at 5 %, 11.5 % at 10 % (nu 0.45).
constexpr double linear_range = 0.05;
/// Up to where the factor for finite strain was fitted to finite elements.
constexpr double fitted_range = 0.20;

/// Tension lost to the belt's inertia from which a warning is due [-].
constexpr double tension_warning = 0.5;

double um(double mm) {
  return 1000.0 * mm;
}

void warn_of_speed(const BeltSetup& station, const StationResult& result, std::size_t index,
                   std::vector<std::string>& warnings) {
  if (!result.speed_ratio) return;
  const double ratio = result.speed_ratio->value;
  if (!station.options.moving) {
    if (ratio >= speed_warning)
      warnings.push_back(fmt::format(
          "station[{}]: the belt runs at {:.2f} of the critical speed of cover and belt "
          "(static modulus): inertia softens the nip and may raise waves behind it; "
          "cover_motion = \"static\" does not model that (theory, no measured onset)",
          index, ratio));
    return;
  }
  if (ratio > most_inertia) {
    warnings.push_back(fmt::format(
        "station[{}]: the belt runs at {:.2f} of the critical speed of cover and belt; the answer "
        "is capped: inertia is taken as at {:.2g} of it, past which no steady contact can be "
        "computed. The cover may throw standing waves: take a harder cover or a slower belt "
        "(theory, no measured onset)",
        index, ratio, most_inertia));
  } else if (ratio >= speed_warning) {
    warnings.push_back(fmt::format(
        "station[{}]: the belt runs at {:.2f} of the critical speed of cover and belt: inertia "
        "already softens the nip, and pressure answers strongly to speed (theory, no measured "
        "onset)",
        index, ratio));
  }
}

void warn_of_depth(const BeltSetup& station, double interference, std::size_t index,
                   std::vector<std::string>& warnings) {
  const double depth = interference / station.cover.thickness;
  if (!station.options.finite_strain && depth > linear_range) {
    const double excess =
        finite_strain_of(station, std::min(depth, fitted_range) * station.cover.thickness) - 1.0;
    warnings.push_back(fmt::format(
        "station[{}]: interference is {:.1f} % of the cover, past the linear range of {:.0f} %: "
        "finite strain carries {} {:.0f} % more line load",
        index, 100.0 * depth, 100.0 * linear_range, depth > fitted_range ? "more than" : "about",
        100.0 * excess));
  }
  if (station.options.finite_strain && depth > fitted_range)
    warnings.push_back(fmt::format(
        "station[{}]: interference is {:.1f} % of the cover; the correction for finite strain was "
        "fitted up to {:.0f} % and is carried on from there",
        index, 100.0 * depth, 100.0 * fitted_range));
}

void warn_of_contact(const BeltSetup& station, const StationResult& result, double interference,
                     std::size_t index, std::vector<std::string>& warnings) {
  if (interference <= 0.0) {
    warnings.push_back(fmt::format(
        "station[{}]: no contact with the face: the drum stands {:.3g} mm clear of it once growth, "
        "thickness and the give of the frame are counted; the face loses nothing here",
        index, std::abs(interference)));
  } else if (result.line_load && result.line_load->value <= 0.0) {
    warnings.push_back(fmt::format(
        "station[{}]: the drum does not reach the face; only burrs are touched", index));
  }
  if (station.run_out > 2.0 * std::max(interference, 0.0) && station.run_out > 0.0)
    warnings.push_back(fmt::format(
        "station[{}]: a run-out of {:.3g} mm lifts the drum off at every turn; contact is computed "
        "as if the drum ran true, and the ripple's height does not hold",
        index, station.run_out));
}

/// Tension gone, lands, a stiffer cover than the durometer says: not wrong, but to be known.
void warn_of_drum(const BeltSetup& station, const StationResult& result, std::size_t index,
                  std::vector<std::string>& warnings) {
  if (result.belt_tension_at_speed && station.belt.tension > 0.0) {
    const double left = result.belt_tension_at_speed->value;
    if (left <= 0.0)
      warnings.push_back(fmt::format(
          "station[{}]: at this speed the belt's inertia takes all of its {:.3g} N/mm of tension: "
          "nothing presses the belt onto the drum, it may lift and run off",
          index, station.belt.tension));
    else if (left < (1.0 - tension_warning) * station.belt.tension)
      warnings.push_back(fmt::format(
          "station[{}]: of {:.3g} N/mm of belt tension {:.3g} N/mm are left at this speed", index,
          station.belt.tension, left));
  }
  if (station.land_ratio < 1.0)
    warnings.push_back(fmt::format(
        "station[{}]: pressure under the lands is {:.3g} times that of a plain cover at the same "
        "line load; contact is computed as on a plain cover: that grooves make a cover softer and "
        "knock on edges is not modelled",
        index, 1.0 / station.land_ratio));
}

/// What the laws of brushes do not hold.
void warn_of_brush(const BrushSetup& station, std::size_t index,
                   std::vector<std::string>& warnings) {
  for (const auto& warning : station.warnings)
    warnings.push_back(fmt::format("station[{}]: {}", index, warning));
  if (std::holds_alternative<models::NonWovenBrush>(station.brush))
    warnings.push_back(fmt::format(
        "station[{}]: a web of abrasive fibres is followed on the face only; what it does to edges "
        "and burrs is not modelled",
        index));
}

void warn_of_stations(const Setup& setup, Result& result) {
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    if (const auto* brush = std::get_if<BrushSetup>(&setup.stations[i]))
      warn_of_brush(*brush, i, result.warnings);
    if (!std::holds_alternative<BeltSetup>(setup.stations[i])) continue;
    const BeltSetup& station = setup.belt(i);
    const StationResult& stated = result.stations[i];
    for (const auto& warning : station.warnings)
      result.warnings.push_back(warning);
    const Quantity& depth =
        stated.effective_interference ? stated.effective_interference : stated.interference;
    warn_of_speed(station, stated, i, result.warnings);
    if (!depth) continue;
    warn_of_depth(station, depth->value, i, result.warnings);
    warn_of_contact(station, stated, depth->value, i, result.warnings);
    warn_of_drum(station, stated, i, result.warnings);
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
    if (station.half_width) nip = std::max(nip, 2.0 * station.half_width->value);
  for (const auto& feature : part.features) {
    const bool stub = feature.kind == cases::FeatureKind::stub;
    const double taken = stub ? 0.0 : feature.size.value_or(0.0);
    if (part.length - taken > 2.0 * nip) continue;
    result.warnings.emplace_back(fmt::format(
        "{}: the part leaves {:.3g} mm of metal along the feed, the nip is {:.3g} mm wide; this "
        "version treats every edge as if the next were far away, so its numbers do not hold here",
        feature.name, part.length - taken, nip));
  }
  if (result.part.face.removal && result.part.face.removal->value >= 0.5 * part.thickness) {
    result.warnings.emplace_back(
        fmt::format("the face loses {:.3g} mm of a {:.3g} mm sheet: no such setting is in use, "
                    "check interference, removal coefficient and speeds",
                    result.part.face.removal->value, part.thickness));
  }
}

/// Windows that had to be raised are not passed over.
void warn_of_window(const Setup& setup, Result& result) {
  if (setup.scenario.numerics.model != "line") return;
  const auto& asked = setup.scenario.numerics.window;
  for (std::size_t i = 0; asked && i < setup.stations.size(); ++i) {
    if (!std::holds_alternative<BeltSetup>(setup.stations[i])) continue;
    const double used = line::response_window(setup.belt(i), setup.scenario.numerics);
    if (used <= *asked) continue;
    result.warnings.emplace_back(fmt::format(
        "station[{}]: a window of {:.4g} mm lets the nip feel its own images; {:.4g} mm was used",
        i, *asked, used));
  }
}

/// Radius below which an edge counts as sharp [mm]: the preferred sizes of ISO 13715 for sharp
/// edges end at 0.05 mm (from memory).
constexpr double sharp_edge = 0.05;

/// What became of the edge under a burr that was pushed aside.
std::string edge_under_lip(const FeatureResult& feature) {
  if (!feature.edge_radius || feature.edge_radius->value < sharp_edge)
    return "and the edge under it is still sharp";
  return fmt::format("and the edge under it is rounded to {:.3g} mm", feature.edge_radius->value);
}

std::string lip_text(const FeatureResult& feature) {
  std::string text = "a lip";
  if (feature.secondary_burr && feature.secondary_burr->value > 0.0)
    text += fmt::format(" of {:.0f} um", um(feature.secondary_burr->value));
  if (feature.lip_thickness)
    text += fmt::format(", {:.0f} um thick,", um(feature.lip_thickness->value));
  return text;
}

/// What became of a burr where that is not what one looks for: it was pushed aside, not taken off.
std::string outcome_text(const FeatureResult& feature) {
  const bool opening = feature.kind == "hole" || feature.kind == "slot";
  if (feature.outcome == "folded beyond the edge") {
    const std::string where =
        opening ? fmt::format("into the {}", feature.kind) : std::string("over the edge");
    return fmt::format(
        "the burr was pushed {} instead of being cut: {} hangs {}, {}; a brush, or a pass with the "
        "part turned round, takes such a lip off",
        where, lip_text(feature), opening ? "over the opening" : "beyond the edge",
        edge_under_lip(feature));
  }
  if (feature.outcome == "folded onto the face")
    return fmt::format(
        "the burr was pushed back over the face instead of being cut: {} lies on it, {}; pressed "
        "on like that it may come off in use",
        lip_text(feature), edge_under_lip(feature));
  if (feature.outcome == "untouched") return "no tool touched the burr: it stands as it was";
  return {};
}

void warn_of_outcomes(Result& result) {
  for (auto& feature : result.part.features) {
    const std::string text = outcome_text(feature);
    if (text.empty()) continue;
    if (feature.note.empty()) feature.note = feature.outcome;
    result.warnings.push_back(fmt::format("{}: {}", feature.name, text));
  }
}

/// What of the oxide is left is said whether somebody asked or not: paint comes off with it.
void warn_of_oxide(Result& result) {
  double least = 1.0;
  double most = 0.0;
  double reach = 0.0;
  std::string where;
  for (const auto& feature : result.part.features) {
    if (!feature.oxide_left || feature.oxide_left->value <= 0.0) continue;
    least = std::min(least, feature.oxide_left->value);
    most = std::max(most, feature.oxide_left->value);
    if (feature.flank_reach) reach = std::max(reach, feature.flank_reach->value);
    where += (where.empty() ? "" : ", ") + feature.name;
  }
  if (where.empty()) return;
  result.warnings.push_back(
      fmt::format("of the oxide on the flanks {:.0f}..{:.0f} % is left at {}; tools reached {:.0f} "
                  "um below the "
                  "face: paint comes off with what is left",
                  100.0 * least, 100.0 * most, where, um(reach)));
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
  for (std::string& warning : early_warnings(setup))
    result.warnings.push_back(std::move(warning));
  warn_of_stations(setup, result);
  warn_of_outcomes(result);
  warn_of_oxide(result);
  warn_of_bands(result);
  warn_of_size(setup, result);
  warn_of_window(setup, result);
  warn_of_coating(setup, result);
  warn_of_heat(setup, result);
}

}  // namespace drumlin::sim
