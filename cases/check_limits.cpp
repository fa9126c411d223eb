#include <algorithm>
#include <limits>

#include <fmt/format.h>

#include "cases/openings.hpp"
#include "cases/reader_parts.hpp"
#include "cases/units.hpp"
#include "models/burr/burr_keys.hpp"

namespace drumlin::cases {
namespace {

std::string in_mm(double value) {
  return units::format(value, "mm", 4);
}

/// Whether belts of the line work both faces of the part: it goes on from pass to pass as it lies.
bool works_both_faces(const Case& scenario) {
  bool burrs = false;
  bool reverse = false;
  for (const Meeting& meeting : meetings<FlipStation>(
           scenario.part.burr_side, scenario.conveyor.passes, scenario.stations)) {
    if (std::holds_alternative<BeltStation>(scenario.stations[meeting.station]))
      (meeting.burrs_up ? burrs : reverse) = true;
  }
  return burrs && reverse;
}

/// Largest rounding that the sheet has metal for, and what sets it.
struct Room {
  double most = 0;  ///< [mm]
  std::string because;
};

/// A rounding of radius r takes r of the flank and r of the face beside it.
Room room_at(const Case& scenario, const Feature* feature) {
  const Part& part = scenario.part;
  const bool both = works_both_faces(scenario);
  Room room{both ? 0.5 * part.thickness : part.thickness,
            both ? "half the thickness, as both faces are worked" : "the thickness"};
  if (feature == nullptr) return room;
  for (const Feature& other : part.features) {
    if (&other == feature) continue;
    const auto metal = metal_between(*feature, other);
    // Openings that overlap are refused on their own.
    if (!metal || *metal <= 0 || 0.5 * *metal >= room.most) continue;
    room = {0.5 * *metal,
            fmt::format("half of the {} of metal to {}", in_mm(*metal), in_quotes(other.name))};
  }
  return room;
}

bool applies(const FeatureLimits* wanted, const Feature& feature) {
  if (wanted == nullptr) return true;
  if (wanted->name && *wanted->name != feature.name) return false;
  if (wanted->kind && *wanted->kind != feature.kind) return false;
  return !wanted->side || !feature.side || *wanted->side == *feature.side;
}

/// Least rounding that a limit asks for [mm]; none where it asks for none. An edge size counts
/// missing metal as negative.
std::optional<double> asked_of(std::string_view quantity, const Limit& limit) {
  if (quantity != "edge_size") return limit.low;
  if (!limit.high || *limit.high >= 0) return std::nullopt;
  return -*limit.high;
}

void check_rounding(const Section& section, const Case& scenario, const Limits& limits,
                    const FeatureLimits* wanted) {
  for (const std::string_view quantity : {"edge_radius", "minimum_radius", "edge_size"}) {
    const auto limit = limits.find(std::string(quantity));
    if (limit == limits.end()) continue;
    const auto asked = asked_of(quantity, limit->second);
    if (!asked) continue;
    Room least = room_at(scenario, nullptr);
    std::string where = "any edge of the part";
    for (const Feature& feature : scenario.part.features) {
      if (!applies(wanted, feature)) continue;
      Room room = room_at(scenario, &feature);
      if (room.most >= least.most) continue;
      least = std::move(room);
      where = in_quotes(feature.name);
    }
    if (*asked <= least.most) continue;
    const bool size = quantity == "edge_size";
    section.problem_at_value(
        quantity, fmt::format("{} asks for more than there is metal for at {}; {} is possible ({})",
                              in_quotes(limit->second.text), where,
                              size ? fmt::format("an edge size down to {}", in_mm(-least.most))
                                   : fmt::format("a radius up to {}", in_mm(least.most)),
                              least.because));
  }
}

/// Limits on what the part does not have: a slip, or something that the case forgot to say.
void check_owned(const Section& section, const Case& scenario, const Limits& limits) {
  const Part& part = scenario.part;
  const auto refuse = [&](std::string_view quantity, bool owned, std::string_view text) {
    if (limits.contains(std::string(quantity)) && !owned) section.problem_at_key(quantity, text);
  };
  refuse("flank_oxide", part.flank_oxide > 0,
         "limits an oxide that the part does not have; state it, such as part.coating.oxide = \"15 "
         "um\"");
  refuse("top_left", part.coating && part.coating->top,
         "limits a layer that the part does not have; state it, such as part.coating.top = { "
         "material = \"primer\", thickness = \"60 um\" }");
  const bool stub = std::any_of(part.features.begin(), part.features.end(),
                                [](const Feature& f) { return f.kind == FeatureKind::stub; });
  refuse("protrusion", stub, "limits a stub that the part does not have");
}

// A cover squeezed to half its thickness is past what any rubber bears in service and past anything
// that the models here were checked for; the factor for finite strain was fitted up to a fifth,
// from where on a warning is given (common practice, no source).
constexpr double most_squeeze = 0.5;

/// What of a burr is left to meet a cover: a knock-off tool before it strikes what stands higher.
double height_at(const Feature& feature, double struck) {
  return std::min(models::height_of(feature.burr), struck);
}

}  // namespace

void check_burrs(const Section& top, const Case& scenario) {
  const auto items = top.open("part")->open_list("feature");
  double struck = std::numeric_limits<double>::infinity();
  std::vector<bool> refused(items.size(), false);
  for (std::size_t i = 0; i < scenario.stations.size(); ++i) {
    if (const auto* tool = std::get_if<KnockOffStation>(&scenario.stations[i]))
      struck = std::min(struck, tool->clearance);
    const auto* belt = std::get_if<BeltStation>(&scenario.stations[i]);
    if (belt == nullptr) continue;
    const auto* set = std::get_if<InterferenceSetting>(&belt->setting);
    const double depth = set != nullptr ? set->interference : 0.0;
    const double room = std::max(most_squeeze * belt->drum.cover - depth, 0.0);
    for (std::size_t k = 0; k < items.size() && k < scenario.part.features.size(); ++k) {
      const double height = height_at(scenario.part.features[k], struck);
      if (refused[k] || height <= 0 || height <= room) continue;
      refused[k] = true;
      items[k].open("burr")->problem_at_value(
          "height",
          fmt::format("{} is more than the cover of station[{}] can swallow: with an interference "
                      "of {} at most {}, which squeezes its {} to half",
                      in_mm(height), index_in_file(scenario.stations, i), in_mm(depth), in_mm(room),
                      in_mm(belt->drum.cover)));
    }
  }
}

void check_limits(const Section& top, const Case& scenario) {
  const auto section = top.open("accept");
  if (!section) return;
  check_rounding(*section, scenario, scenario.accept.limits, nullptr);
  check_owned(*section, scenario, scenario.accept.limits);
  const auto items = section->open_list("feature");
  for (std::size_t i = 0; i < items.size() && i < scenario.accept.features.size(); ++i) {
    const FeatureLimits& some = scenario.accept.features[i];
    check_rounding(items[i], scenario, some.limits, &some);
    check_owned(items[i], scenario, some.limits);
  }
}

}  // namespace drumlin::cases
