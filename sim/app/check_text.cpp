#include "sim/app/check_text.hpp"

#include <cmath>
#include <numbers>
#include <string_view>

#include <fmt/format.h>

#include "sim/app/brush_text.hpp"
#include "sim/app/line_text.hpp"
#include "sim/app/part_text.hpp"
#include "sim/cautions.hpp"
#include "sim/drum_state.hpp"
#include "sim/early_warnings.hpp"
#include "sim/names.hpp"
#include "sim/overspeed.hpp"
#include "sim/removal_text.hpp"

namespace drumlin::app {

namespace {

using Lines = NamedLines;

std::string band(double low, double high) {
  return fmt::format("band {}..{}", brief(low, 3), brief(high, 3));
}

std::string metres_per_second(double speed) {
  return fmt::format("{} m/s", brief(speed / 1000, 4));
}

std::string cover_text(const sim::BeltSetup& setup, const cases::Drum& drum) {
  const double plane = models::plane_strain_modulus(setup.cover);
  std::string out = fmt::format("E {} MPa", brief(setup.cover.modulus, 3));
  if (drum.hardness && !drum.modulus)
    out += fmt::format(" from {} Shore A (Gent 1958)", brief(*drum.hardness, 3));
  else
    out += " as given";
  return out + fmt::format(", {}; E* {} MPa at poisson {}",
                           band(setup.modulus_low, setup.modulus_high), brief(plane, 3),
                           brief(setup.cover.poisson_ratio, 4));
}

std::string removal_text(const sim::LayerLaw& layer) {
  return fmt::format("K {:.2e} 1/MPa, band {:.2e}..{:.2e}; {}", layer.coefficient,
                     layer.coefficient_low, layer.coefficient_high, layer.origin);
}

std::string setting_text(const cases::Setting& setting) {
  if (const auto* interference = std::get_if<cases::InterferenceSetting>(&setting))
    return fmt::format("interference {} mm: the drum is set into the nominal part by this much",
                       brief(interference->interference, 4));
  return fmt::format("line load {} N/mm: of the steady wearing pass",
                     brief(std::get<cases::LineLoadSetting>(setting).line_load, 4));
}

std::string speed_text(const sim::BeltSetup& setup, const cases::BeltStation& station) {
  const bool with_feed = station.direction == cases::Direction::with_feed;
  return fmt::format("belt {}, {} the feed; sliding v {}, v/v_f {}",
                     metres_per_second(setup.belt_speed), with_feed ? "with" : "against",
                     metres_per_second(setup.sliding_speed),
                     brief(setup.sliding_speed / setup.feed, 4));
}

/// Where a number depends on how deep the drum sits, the depth is estimated: nothing is solved
/// here.
std::string wave_text(const sim::BeltSetup& setup) {
  const auto critical = sim::critical_speed_of(setup, sim::estimated_interference(setup));
  if (!critical) return "no critical speed of cover and belt was found (theory)";
  return fmt::format(
      "belt speed is {} of the critical speed of cover and belt, {} ({}; theory, no "
      "measured onset)",
      brief(setup.belt_speed / *critical, 2), metres_per_second(*critical),
      setup.options.moving ? "at the modulus that such a wave meets"
                           : "at the modulus that the durometer reads");
}

struct RateWords {
  std::string operator()(const models::RateIndependent& /*law*/) const {
    return "modulus independent of rate";
  }
  std::string operator()(const models::ConstantLoss& law) const {
    return fmt::format("loss factor {} at every rate", brief(law.loss_factor, 3));
  }
  std::string operator()(const models::PronySeries& law) const {
    return fmt::format("relaxation of {}, {} terms", law.name, law.terms.size());
  }
};

std::string at_speed_text(const sim::BeltSetup& setup) {
  if (!setup.options.moving) return "nothing moves (cover_motion = static)";
  const double depth = sim::estimated_interference(setup);
  const double hertz = sim::nip_frequency(setup, depth) / (2 * std::numbers::pi);
  std::string out = std::visit(RateWords{}, setup.relaxation);
  return out + fmt::format(
                   ": in the nip, at about {} Hz, {} times as stiff as the durometer says; "
                   "belt tension left at speed {} N/mm of {}",
                   significant(hertz, 2), brief(sim::dynamic_stiffening(setup, depth), 3),
                   brief(sim::tension_at_speed(setup), 3), brief(setup.belt.tension, 3));
}

std::string warmth_text(const sim::BeltSetup& setup) {
  const double temperature = cases::durometer_temperature + setup.temperature_rise - 273.15;
  return fmt::format(
      "{} degC{}; modulus {} times that at 23 degC; the cover stands {} µm higher with "
      "warmth and speed",
      brief(temperature, 4), setup.temperature_given ? "" : ", as not given",
      brief(setup.softening, 3), fixed(sim::cover_growth(setup) * 1e3, 1));
}

std::string lands_text(const sim::BeltSetup& setup) {
  std::string out = fmt::format(
      "{} % of the circumference: pressure under them {} times a plain "
      "cover's",
      brief(setup.land_ratio * 100, 3), brief(1 / setup.land_ratio, 3));
  if (setup.land_pitch)
    out += fmt::format(", {} mm from one to the next", brief(*setup.land_pitch, 3));
  return out;
}

std::string belt_text(const sim::BeltSetup& setup, const cases::Belt& belt) {
  return fmt::format(
      "{} {} on {}; tension {} N/mm; bending stiffness {} N mm, {}; grain "
      "compliance {} mm/MPa, {}; mass {} kg/m2, {}; grains that cut {} mm apart, {}",
      belt.grit.designation, belt.abrasive.name, belt.backing.name, brief(setup.belt.tension, 3),
      brief(setup.belt.bending_stiffness, 3), band(setup.bending_low, setup.bending_high),
      brief(setup.belt.grain_compliance, 3), band(setup.grain_low, setup.grain_high),
      brief(setup.belt_mass * 1e9, 3), band(setup.mass_low * 1e9, setup.mass_high * 1e9),
      brief(setup.grain_spacing, 3), band(setup.spacing_low, setup.spacing_high));
}

/// What happened to cover and belt since the drum was set.
std::string since_set_text(const sim::BeltSetup& setup, const cases::BeltStation& station,
                           const cases::Part& part) {
  const double thicker = part.thickness - part.set_thickness.value_or(part.thickness);
  std::string sheet =
      thicker == 0.0 ? "" : fmt::format(", part thicker by {} mm", brief(thicker, 3));
  if (part.lift != 0.0) sheet += fmt::format(", part lifted by {} mm", brief(part.lift, 3));
  return fmt::format("cover worn by {} mm, belt thicker by {} mm{}: {} mm of interference {}",
                     brief(station.drum.wear, 3), brief(station.belt.thickness_change, 3), sheet,
                     brief(std::abs(setup.interference_offset), 3),
                     setup.interference_offset < 0 ? "lost" : "added");
}

std::string station_text(std::size_t number, const sim::BeltSetup& setup,
                         const cases::BeltStation& station, const cases::Part& part,
                         const Style& style) {
  const cases::Drum& drum = station.drum;
  Lines lines{
      {"drum",
       fmt::format("radius {} mm, cover {} mm", brief(drum.radius, 4), brief(drum.cover, 4))},
      {"cover", cover_text(setup, drum)},
      {"belt", belt_text(setup, station.belt)},
      {"setting", setting_text(setup.setting)},
      {"speed", speed_text(setup, station)},
      {"cover at speed", at_speed_text(setup)},
      {"critical speed", wave_text(setup)},
      {"cover temperature", warmth_text(setup)},
      {"frame and bed",
       fmt::format("give {} mm per N/mm, band {}..{}", brief(setup.frame_compliance, 3),
                   brief(setup.frame_low, 3), brief(setup.frame_high, 3))},
      {"friction", brief(setup.friction, 3)},
      {"threshold p_th", fmt::format("{} MPa, {}", brief(station.belt.threshold_pressure, 3),
                                     band(setup.threshold_low, setup.threshold_high))}};
  if (station.drum.wear > 0 || station.belt.thickness_change != 0)
    lines.emplace_back("since it was set", since_set_text(setup, station, part));
  if (setup.land_ratio < 1) lines.emplace_back("lands", lands_text(setup));
  lines.emplace_back("removal law", sim::removal_law_text(station.belt));
  if (part.coating && part.coating->top)
    lines.emplace_back("removal, " + setup.top.material, removal_text(setup.top));
  if (part.coating)
    lines.emplace_back("removal, " + setup.coating.material, removal_text(setup.coating));
  lines.emplace_back("removal, " + setup.substrate.material, removal_text(setup.substrate));
  return heading(fmt::format("Station {}: belt", number), style) + lines_text(lines, style);
}

std::string tool_text(std::size_t number, const sim::KnockOffSetup& setup, const Style& style) {
  return heading(fmt::format("Station {}: knock-off", number), style) +
         lines_text(
             {{"clearance", fmt::format("{} mm: what stands higher above the face is struck",
                                        brief(setup.clearance, 3))},
              {"line force", fmt::format("{} N/mm along the edge", brief(setup.line_force, 4))}},
             style);
}

std::string stations_text(const sim::Setup& setup, const Style& style) {
  std::string out;
  for (std::size_t i = 0; i < setup.stations.size(); ++i) {
    if (const auto* belt = std::get_if<sim::BeltSetup>(&setup.stations[i]))
      out += station_text(i + 1, *belt, std::get<cases::BeltStation>(setup.scenario.stations[i]),
                          setup.scenario.part, style);
    else if (const auto* brush = std::get_if<sim::BrushSetup>(&setup.stations[i]))
      out += brush_text(i + 1, *brush, std::get<cases::BrushStation>(setup.scenario.stations[i]),
                        style);
    else if (const auto* tool = std::get_if<sim::KnockOffSetup>(&setup.stations[i]))
      out += tool_text(i + 1, *tool, style);
    else
      out += heading(fmt::format("Station {}: flip", i + 1), style) +
             lines_text({{"turns", "the part over: its other face lies up from here on"}}, style);
  }
  return out;
}

std::string limits_text(const cases::Accept& accept, const Style& style) {
  Lines lines;
  for (const auto& [quantity, limit] : accept.limits)
    lines.emplace_back(quantity, limit.text);
  for (const cases::FeatureLimits& some : accept.features) {
    std::string where = some.name.value_or("");
    if (some.kind)
      where += fmt::format("{}{}", where.empty() ? "" : ", ", sim::to_text(*some.kind));
    if (some.side)
      where += fmt::format("{}{}", where.empty() ? "" : ", ", sim::to_text(*some.side));
    if (some.beyond) where += fmt::format(", beyond {} mm", brief(*some.beyond, 3));
    for (const auto& [quantity, limit] : some.limits)
      lines.emplace_back(quantity, fmt::format("{} at {}", limit.text, where));
  }
  if (lines.empty()) lines.emplace_back("none", "no limits given: nothing will be judged");
  return heading("Limits of the customer", style) + lines_text(lines, style);
}

std::string numerics_text(const cases::Numerics& numerics, const Style& style) {
  const Lines lines{
      {"model", numerics.model},
      {"cover", fmt::format("geometry {}, motion {}, grip {}, strain {}", numerics.cover_geometry,
                            numerics.cover_motion, numerics.belt_grip, numerics.cover_strain)},
      {"resolution", fmt::format("{} µm, {} grid, {} steps per pass, window {}",
                                 brief(numerics.resolution * 1e3, 3), numerics.grid, numerics.steps,
                                 numerics.window ? brief(*numerics.window, 4) + " mm"
                                                 : std::string("chosen from the drum"))}};
  return heading("Numerics", style) + lines_text(lines, style);
}

std::vector<std::string> unused_lines(const std::vector<cases::UnusedKey>& unused) {
  std::vector<std::string> lines;
  lines.reserve(unused.size());
  for (const cases::UnusedKey& key : unused)
    lines.push_back(fmt::format("line {}: {}: {}", key.line, key.key, key.text));
  return lines;
}

}  // namespace

std::string check_text(const sim::Setup& setup, const std::vector<std::string>& cautions,
                       const Style& style) {
  const cases::Case& scenario = setup.scenario;
  std::string out = pressing_text(sim::pressing_cautions(scenario), style);
  out += painted(scenario.title, Paint::heading, style) + '\n';
  out +=
      wrapped(scenario.file + " is in order; nothing was computed, nothing written", "  ", style);
  out += part_text(scenario.part, style);
  out += stations_text(setup, style);
  out += heading("Conveyor", style) +
         lines_text({{"speed", fmt::format("{} m/min", brief(scenario.conveyor.speed * 0.06, 4))},
                     {"passes", fmt::format("{}", scenario.conveyor.passes)},
                     {"cooling", scenario.cooling == cases::Cooling::wet ? "wet" : "dry"},
                     {"grip", grip_text(scenario.conveyor.grip)},
                     {"prices", scenario.cost ? "in " + scenario.cost->currency : "none given"}},
                    style);
  out += limits_text(scenario.accept, style);
  out += numerics_text(scenario.numerics, style);
  std::vector<std::string> warnings = sim::overspeed_warnings(scenario);
  for (std::string& warning : sim::early_warnings(setup))
    warnings.push_back(std::move(warning));
  for (const auto& station : setup.stations) {
    if (const auto* belt = std::get_if<sim::BeltSetup>(&station))
      warnings.insert(warnings.end(), belt->warnings.begin(), belt->warnings.end());
  }
  out += list("Warnings", warnings, Paint::caution, style);
  out += list("Defaults used, with their reasons", scenario.defaults, Paint::heading, style);
  out += list("Keys without effect in this version", unused_lines(scenario.unused), Paint::caution,
              style);
  out += list("Cautions", cautions, Paint::caution, style);
  return out;
}

}  // namespace drumlin::app
