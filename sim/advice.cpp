#include "sim/advice.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "models/burr/wall.hpp"

namespace drumlin::sim {
namespace {

/// Belt speed over Rayleigh speed from which a warning is due (theory, no measured onset found).
constexpr double speed_warning = 0.7;
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
      result.warnings.emplace_back(fmt::format(
          "station[{}]: the belt runs at {:.2f} of the cover's Rayleigh speed (static modulus): "
          "inertia softens the nip and may raise waves behind it; this version does not model "
          "that (theory, no measured onset)",
          i, station.speed_ratio));
    }
    const double depth = result.stations[i].interference->value / station.cover.thickness;
    if (depth > linear_range) {
      result.warnings.emplace_back(fmt::format(
          "station[{}]: interference is {:.1f} % of the cover, past the linear range of {:.0f} %: "
          "the true line load is 5 % higher and more",
          i, 100.0 * depth, 100.0 * linear_range));
    }
    if (result.stations[i].line_load->value <= 0.0) {
      result.warnings.emplace_back(
          fmt::format("station[{}]: the drum does not reach the face; only burrs are touched", i));
    }
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
    result.warnings.emplace_back(fmt::format(
        "{}: the drag of {:.2f} N/mm at mu {:.2g} exceeds what the root stands ({:.2f} N/mm): the "
        "burr may be folded over instead of cut; this version grinds it, so its burr height and a "
        "secondary burr are not to be relied on here",
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
    result.warnings.emplace_back(fmt::format(
        "{}: beside the edge the coating falls to {:.1f} um, under the {} asked of the face; give "
        "an [[accept.feature]] limit with `beyond` if the edge matters",
        feature.name, um(feature.coating_left->value), limit->second.text));
  }
}

void note_model(const Setup& setup, Result& result) {
  auto& notes = result.notes;
  notes.emplace_back(
      "uncalibrated: no measured sample of this line has been used; bands come from the library's "
      "spreads, one input at a time, added in quadrature");
  notes.emplace_back(
      "line model: a plane-strain section normal to the drum; side edges, corners and the "
      "roundness of holes are outside it");
  notes.emplace_back(
      "cover taken flat, linear, static and slipping under the belt: a true drum carries 5 to 16 % "
      "less line load at the same interference, a gripping belt 14 to 61 % more; both are in the "
      "bands");
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    notes.emplace_back(fmt::format(
        "station[{}]: belt speed is {:.2f} of the cover's Rayleigh speed; the stiffening of rubber "
        "with frequency (1.2 to 2.5 times is measured) and its inertia are not modelled",
        i, setup.stations[i].speed_ratio));
  }
  notes.emplace_back(
      "removal follows Preston's straight line with a threshold; published exponents of force "
      "reach from 0.55 to 2.5");
  notes.emplace_back(
      "burrs stand rigid and are ground down; folding, heat, finish and belt wear are "
      "not modelled yet");
}

/// Which sample parts would tell most: where the verdict is closest, and over the scatter.
void plan_samples(const Setup& setup, Result& result) {
  auto& samples = result.samples;
  const cases::Part& part = setup.scenario.part;
  samples.emplace_back(fmt::format(
      "2 blanks at nominal thickness {:.3g} mm, new belt run in, settings as in this case: measure "
      "face removal (micrometer or weighing) to fit the removal coefficient",
      part.thickness));
  if (part.coating) {
    samples.emplace_back(
        "the same blanks: coating gauge at 5 places of the face, 10 mm and more from "
        "any edge; a section where the gauge cannot go (it misreads near edges)");
  }
  const FeatureResult* tallest = nullptr;
  for (const auto& f : result.part.features) {
    if (!f.burr_height) continue;
    if (tallest == nullptr || f.burr_height->value > tallest->burr_height->value) tallest = &f;
  }
  if (tallest != nullptr) {
    samples.emplace_back(
        fmt::format("the same blanks: burr left at {} before and after, without touching "
                    "it (a stylus flattens soft burrs)",
                    tallest->name));
  }
  if (!result.verdict.decided_by.empty()) {
    samples.emplace_back(
        fmt::format("1 blank sectioned for what decides: {}", result.verdict.decided_by));
  }
  for (const auto& f : result.part.features) {
    if (f.section.empty()) {
      samples.emplace_back(
          fmt::format("1 blank measured at {}: this model says nothing about it", f.name));
    }
  }
  if (part.thickness_tolerance > 0.0) {
    samples.emplace_back(fmt::format(
        "1 of the thickest and 1 of the thinnest blanks ({:.3g} and {:.3g} mm): the spread of the "
        "line load",
        part.thickness + part.thickness_tolerance, part.thickness - part.thickness_tolerance));
  } else {
    samples.emplace_back(
        "1 of the thickest and 1 of the thinnest blanks of the coil, measured first");
  }
  samples.emplace_back("1 control blank, untouched, kept with the measured ones");
}

bool has_family(const cases::Case& scenario, std::string_view family) {
  const auto& part = scenario.part;
  return part.material.family == family ||
         (part.coating && part.coating->material.family == family);
}

}  // namespace

std::vector<std::string> cautions(const cases::Case& scenario) {
  std::vector<std::string> list;
  list.emplace_back(
      "A process estimate, not a safety assessment. Local law, fire and dust codes, the machine's "
      "manual and qualified people decide.");
  list.emplace_back(
      "Grinding dust burns: even fine steel and zinc, aluminium most of all. Dust hazards are for "
      "qualified people to assess; never size extraction from this tool.");
  const bool aluminium = has_family(scenario, "aluminium");
  list.emplace_back(
      aluminium ? "Aluminium dust and steel sparks must never meet in one dry collector; clean out "
                  "fully before changing metal. Wet aluminium fines give off hydrogen."
                : "Never collect aluminium and steel dust together dry; clean out fully before "
                  "changing metal.");
  if (has_family(scenario, "zinc")) {
    list.emplace_back(
        "Zinc: heated zinc gives fume; breathing limits and extraction per local rules.");
  }
  if (has_family(scenario, "stainless")) {
    list.emplace_back(
        "Stainless: dust carries chromium and nickel; breathing limits per local rules.");
  }
  list.emplace_back(
      "Guards on, lockout before belt or drum change, never reach in for a slipped part; no gloves "
      "near the running belt, cut-resistant gloves for sharp blanks away from it; eye and hearing "
      "protection.");
  list.emplace_back("The speed marked on belt, drum and machine binds, whatever a case says.");
  if (scenario.cooling == cases::Cooling::wet) {
    list.emplace_back(
        "Wet running: electrics, splash and slip hazards, fluid mist and germs; per "
        "the machine's manual.");
  }
  return list;
}

void advise(const Setup& setup, Result& result) {
  warn_of_speed_and_depth(setup, result);
  warn_of_folding(setup, result);
  warn_of_coating(setup, result);
  note_model(setup, result);
  plan_samples(setup, result);
  result.cautions = cautions(setup.scenario);
}

}  // namespace drumlin::sim
