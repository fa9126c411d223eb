#include "sim/early_warnings.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <variant>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "models/brush/wear.hpp"
#include "models/burr/burr_keys.hpp"
#include "models/burr/fold.hpp"
#include "sim/lanes.hpp"
#include "sim/names.hpp"
#include "sim/turned.hpp"

namespace drumlin::sim {
namespace {

/// Highest pressure that belts reach on burrs [MPa]: the line model finds 1 to 4 MPa behind covers
/// of 20 to 80 Shore A. Only for the question whether a burr may bend at all.
constexpr double pressure_on_burrs = 4.0;

/// A tool that meets the face that carries the burrs.
struct Tool {
  std::size_t station;
  const cases::BeltStation* belt;           ///< none at another tool
  const cases::KnockOffStation* knock_off;  ///< none at another tool
};

std::vector<Tool> tools_on_burrs(const cases::Case& scenario) {
  std::vector<Tool> list;
  for (const auto& meeting : cases::meetings<cases::FlipStation>(
           scenario.part.burr_side, scenario.conveyor.passes, scenario.stations)) {
    const auto& station = scenario.stations[meeting.station];
    if (meeting.burrs_up)
      list.push_back({meeting.station, std::get_if<cases::BeltStation>(&station),
                      std::get_if<cases::KnockOffStation>(&station)});
  }
  return list;
}

bool has_burr(const cases::Feature& feature) {
  return !std::holds_alternative<models::NoBurr>(feature.burr);
}

void warn_of_side(const cases::Case& scenario, const std::vector<Tool>& tools,
                  std::vector<std::string>& warnings) {
  const auto& features = scenario.part.features;
  if (!tools.empty() || std::none_of(features.begin(), features.end(), has_burr)) return;
  const bool down = scenario.part.burr_side == cases::BurrSide::down;
  warnings.push_back(
      down
          ? "the burrs lie down and no station turns the part over: no tool meets them; feed the "
            "part with burr_side = \"up\", or put [[station]] kind = \"flip\" before the tool"
          : "the part is turned over before any tool meets its burrs: move the [[station]] of kind "
            "\"flip\" behind the tool, or feed the part with burr_side = \"down\"");
}

/// Highest bead that a belt takes, and why.
struct BeadLimit {
  double height = 0;
  std::string because;
};

BeadLimit bead_limit(const cases::Belt& belt) {
  BeadLimit limit{belt.grit.bead_height.value,
                  fmt::format("grit {}; {}", belt.grit.designation, belt.grit.bead_height.source)};
  const auto& backing = belt.backing.bead_height;
  if (backing && backing->value < limit.height)
    limit = {backing->value, fmt::format("backing {}; {}", belt.backing.name, backing->source)};
  return limit;
}

void warn_of_bead(const cases::Feature& feature, const std::vector<Tool>& tools,
                  std::vector<std::string>& warnings) {
  const auto* bead = std::get_if<models::Bead>(&feature.burr);
  if (bead == nullptr) return;
  double struck = std::numeric_limits<double>::infinity();
  for (const Tool& tool : tools) {
    if (tool.knock_off != nullptr) struck = std::min(struck, tool.knock_off->clearance);
    if (tool.belt == nullptr) continue;
    const BeadLimit limit = bead_limit(tool.belt->belt);
    if (std::min(bead->height, struck) <= limit.height) continue;
    const std::string what_to_do =
        struck < bead->height
            ? fmt::format(
                  "the knock-off station before it leaves up to {:.3g} mm; set its "
                  "clearance to {:.3g} mm or less",
                  struck, limit.height)
            : fmt::format(
                  "strike it off first: put [[station]] kind = \"knock-off\" before "
                  "station[{}]",
                  tool.station);
    warnings.push_back(fmt::format(
        "{}: the bead of {:.3g} mm stands above what the belt of station[{}] takes, {:.3g} mm "
        "({}); "
        "it tears belts; {}",
        feature.name, bead->height, tool.station, limit.height, limit.because, what_to_do));
    return;
  }
}

/// Whether drag through single grains may bend a wall at its root under a belt.
bool may_fold(const models::WallBurr& wall, const BeltSetup& belt) {
  const double force =
      pressure_on_burrs * wall.root *
      models::grain_concentration(belt.grain_spacing, wall.height, wall.root, wall.root);
  return force > models::folding_force(wall, belt.friction);
}

void warn_of_lip(const Setup& setup, const std::vector<Tool>& tools,
                 std::vector<std::string>& warnings) {
  if (tools.empty() || tools.back().belt == nullptr) return;
  const std::size_t last = tools.back().station;
  std::vector<std::string> names;
  for (const auto& feature : setup.scenario.part.features) {
    const auto* wall = std::get_if<models::WallBurr>(&feature.burr);
    if (wall != nullptr && may_fold(*wall, setup.belt(last))) names.push_back(feature.name);
  }
  if (names.empty()) return;
  warnings.push_back(fmt::format(
      "station[{}] is the last tool that meets the burrs, and a belt: it can bend thin burrs over "
      "their edge and leave a new lip, at {}; end the line with a tool that takes lips off, such "
      "as a brush, or judge the lip by a secondary_burr limit",
      last, fmt::join(names, ", ")));
}

/// How far down the flanks the brushes of a line reach at most, and at which edges.
std::string brush_reach_text(const cases::Case& scenario, double thickness) {
  double reach = 0.0;
  bool every_edge = false;
  for (const auto& station : scenario.stations) {
    const auto* brush = std::get_if<cases::BrushStation>(&station);
    if (brush == nullptr) continue;
    reach = std::max(reach, models::penetration_left(brush->penetration, brush->wear));
    // Both ways of turning, or all directions.
    every_edge = every_edge || brush->arrangement != cases::BrushArrangement::roller;
  }
  if (reach <= 0.0) return "";
  return fmt::format(", and the brush reaches {:.3g} mm of the {:.3g} mm down {}",
                     std::min(reach, thickness), thickness,
                     every_edge ? "edges that its tips run onto, openings less deep"
                                : "those edges only that its tips run onto");
}

void warn_of_oxide(const cases::Case& scenario, std::vector<std::string>& warnings) {
  const cases::Part& part = scenario.part;
  if (part.flank_oxide <= 0.0) return;
  warnings.push_back(fmt::format(
      "the cut flanks carry {:.3g} um of oxide; a belt takes it only as far down as it rounds the "
      "edge{}, so most of the flank keeps it, and paint comes off with it; cut with nitrogen, "
      "pickle, or blast the part",
      1000.0 * part.flank_oxide, brush_reach_text(scenario, part.thickness)));
}

std::string fed_text(double angle, cases::Side drawn) {
  std::vector<std::string> words;
  for (const FedEdge& edge : fed_edges(angle, drawn)) {
    const double degrees = edge.skew * 180.0 / std::numbers::pi;
    words.push_back(degrees < 0.05
                        ? std::string(to_text(edge.side))
                        : fmt::format("{} ({:.3g} deg askew)", to_text(edge.side), degrees));
  }
  return fmt::format("{}", fmt::join(words, " and "));
}

}  // namespace

std::vector<std::string> early_warnings(const Setup& setup) {
  std::vector<std::string> warnings;
  const cases::Case& scenario = setup.scenario;
  const auto tools = tools_on_burrs(scenario);
  warn_of_side(scenario, tools, warnings);
  for (const auto& feature : scenario.part.features)
    warn_of_bead(feature, tools, warnings);
  warn_of_lip(setup, tools, warnings);
  warn_of_oxide(scenario, warnings);
  return warnings;
}

std::string turning_text(const cases::Part& part) {
  if (part.angle == 0.0) return {};
  return fmt::format(
      "turned by {:.4g} deg, the edges drawn as leading are fed as {}, trailing as {}, side as {}; "
      "the part takes {:.4g} mm across the conveyor instead of {:.4g} mm and {:.4g} mm along it "
      "instead of {:.4g} mm",
      part.angle * 180.0 / std::numbers::pi, fed_text(part.angle, cases::Side::leading),
      fed_text(part.angle, cases::Side::trailing), fed_text(part.angle, cases::Side::side),
      across(part, part.angle), part.width, along(part, part.angle), part.length);
}

}  // namespace drumlin::sim
