#include "sim/brush/brush_setup.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "models/brush/disc.hpp"
#include "models/brush/dragged.hpp"
#include "models/brush/sweep.hpp"
#include "models/brush/wear.hpp"
#include "sim/brush/disc_tool.hpp"
#include "sim/names.hpp"

namespace drumlin::sim {
namespace {

/// What a folded root is made of, by the metal's family; handbook values from memory. A root that
/// was sheared and folded has used up its hardening: its flow stress is taken for its tensile
/// strength.
struct RootMetal {
  std::string_view family;
  double modulus;             // [MPa]
  double fracture_ductility;  // [-]
};
constexpr RootMetal root_metals[] = {
    {"steel", 210e3, 1.0}, {"stainless", 195e3, 1.2}, {"aluminium", 70e3, 0.5}};

RootMetal root_metal(std::string_view family) {
  for (const RootMetal& metal : root_metals)
    if (metal.family == family) return metal;
  return root_metals[0];
}

double deepest(const models::AnyBrush& brush) {
  if (const auto* disc = std::get_if<models::DiscBrush>(&brush))
    return models::deepest_dragged * disc->filament.free_length;
  if (const auto* filaments = std::get_if<models::FilamentBrush>(&brush))
    return models::deepest_on_edge * filaments->filament.free_length;
  return 0.5 * std::get<models::NonWovenBrush>(brush).depth;
}

std::string describe_discs(const cases::BrushStation& station, const models::DiscBrush& brush) {
  std::string text = fmt::format(
      "{} brush of {} {:.4g} x {:.4g} mm, {}disc R {:.4g} mm", to_text(station.arrangement),
      station.filament, brush.filament.diameter, brush.filament.free_length,
      brush.heads > 1 ? fmt::format("{} heads, ", brush.heads) : "", brush.radius);
  if (brush.carrier_radius > 0.0)
    text += fmt::format(", {} on a carrier of {:.4g} mm at {:.3g} of their turns", brush.discs,
                        brush.carrier_radius, std::abs(brush.carrier_turns));
  return text + fmt::format(", {:.4g} mm penetration, {:.4g} m/s at the rim", station.penetration,
                            station.speed / 1000.0);
}

std::string describe(const cases::BrushStation& station) {
  if (const auto* discs = std::get_if<models::DiscBrush>(&station.brush))
    return describe_discs(station, *discs);
  const auto head = [&] {
    if (const auto* brush = std::get_if<models::FilamentBrush>(&station.brush))
      return fmt::format("brush of {} {:.4g} x {:.4g} mm, R {:.4g} mm", station.filament,
                         brush->filament.diameter, brush->filament.free_length, brush->radius);
    return fmt::format("brush of non-woven web, R {:.4g} mm",
                       std::get<models::NonWovenBrush>(station.brush).radius);
  };
  std::string text =
      fmt::format("{}, {:.4g} mm penetration, {:.4g} m/s {}", head(), station.penetration,
                  station.speed / 1000.0, to_text(station.direction));
  if (station.roller_of_pair > 0)
    text += fmt::format(", {} of two counter-rotating rollers",
                        station.roller_of_pair == 1 ? "first" : "second");
  return text;
}

/// K of a brush is that of the base metal; another material goes in proportion to its specific
/// energy, as under a belt.
models::Preston law_of(const cases::Material& material, const cases::Material& base, double K) {
  return {K * base.specific_energy.value / material.specific_energy.value, 0.0};
}

void set_removal(BrushSetup& setup, const cases::BrushStation& station, const cases::Part& part) {
  const double K =
      std::visit([](const auto& brush) { return brush.abrasion.removal_coefficient; }, setup.brush);
  setup.base = {K, 0.0};
  setup.coating = part.coating ? law_of(part.coating->material, part.material, K) : setup.base;
  setup.top = part.coating && part.coating->top
                  ? law_of(part.coating->top->material, part.material, K)
                  : setup.coating;
  setup.specific_energy = part.material.specific_energy.value;
  setup.removal_low = station.removal_band.low;
  setup.removal_high = station.removal_band.high;
}

void check_limits_of_law(const BrushSetup& setup, const cases::BrushStation& station,
                         const std::string& file, std::size_t index,
                         std::vector<cases::Problem>& problems) {
  const auto refuse = [&](std::string text) {
    problems.push_back({file, station.penetration_place.line, station.penetration_place.column,
                        fmt::format("station[{}].penetration", index), std::move(text)});
  };
  const double most = deepest(setup.brush);
  if (setup.penetration > most)
    refuse(fmt::format(
        "{:.4g} mm is left of it, more than such a brush can be followed to; expected at most "
        "{:.4g} mm ({})",
        setup.penetration, most,
        !std::holds_alternative<models::NonWovenBrush>(setup.brush)
            ? "a fifth of the filaments' length; the trade stays below a tenth"
            : "half the web's depth"));
  const auto* filaments = std::get_if<models::FilamentBrush>(&setup.brush);
  if (filaments == nullptr || setup.speed <= 0.0) return;
  const double limp = models::limpness(
      models::filament_on(*filaments, std::max(setup.penetration, 0.01), setup.speed));
  if (limp > models::limpest)
    refuse(fmt::format(
        "filaments of {:.4g} x {:.4g} mm are ropes at {:.4g} m/s (limpness {:.3g}, at most {:.3g} "
        "can be followed); expected thicker or shorter filaments, or a lower speed",
        filaments->filament.diameter, filaments->filament.free_length, setup.speed / 1000.0, limp,
        models::limpest));
}

/// Filaments lie down on their flanks where friction is high: not followed on discs.
void check_discs(const BrushSetup& setup, const cases::BrushStation& station,
                 const std::string& file, std::size_t index,
                 std::vector<cases::Problem>& problems) {
  const auto* discs = std::get_if<models::DiscBrush>(&setup.brush);
  if (discs == nullptr || setup.penetration > deepest(setup.brush)) return;
  try {
    (void)models::contact(*discs, setup.penetration, setup.speed);
    (void)models::lean_on_edge(discs->filament, setup.penetration);
  } catch (const std::domain_error& error) {
    problems.push_back({file, station.penetration_place.line, station.penetration_place.column,
                        fmt::format("station[{}].penetration", index),
                        fmt::format("{}; expected less penetration or friction", error.what())});
  }
}

/// How much of the bow of filaments their splaying may be before it is worth a word [-].
constexpr double much_splay = 0.2;

void warn_of_discs(BrushSetup& setup, const models::DiscBrush& brush, const Fed& fed) {
  if (setup.penetration <= 0.0 || setup.penetration > deepest(setup.brush)) return;
  if (fed.width > models::row_width(brush))
    setup.warnings.push_back(fmt::format(
        "the row of discs covers {:.4g} mm of the {:.4g} mm that parts take across: the rest, with "
        "its sides, is not brushed; removal is the mean over the whole width",
        models::row_width(brush), fed.width));
  const double turning = models::spindle_turning(brush, setup.speed);
  const double outwards = models::splay(brush.filament, turning * turning * brush.radius);
  const double trailing = models::dragged_over_face(brush.filament, setup.penetration).deflection;
  if (outwards > much_splay * trailing)
    setup.warnings.push_back(fmt::format(
        "filaments at the discs' rim splay outwards by {:.2g} mm at this speed, against {:.2g} mm "
        "by which they trail: their force and reach are computed without it",
        outwards, trailing));
}

void warn(BrushSetup& setup, const cases::BrushStation& station, const Fed& fed) {
  if (station.fastest > 0.0 && (station.speed > station.fastest || station.speed < station.slowest))
    setup.warnings.push_back(
        fmt::format("brush of {}: {:.3g} m/s lies outside the {:.3g} to {:.3g} m/s that such "
                    "filaments are used "
                    "at (common practice, no source); the brush's own speed rating binds",
                    station.filament, station.speed / 1000.0, station.slowest / 1000.0,
                    station.fastest / 1000.0));
  if (setup.penetration <= 0.0)
    setup.warnings.push_back(fmt::format(
        "the brush does not touch: of {:.4g} mm penetration {:.4g} mm are worn off and {:.4g} mm "
        "made up; move it in again",
        station.penetration, station.wear.radius_loss, station.wear.make_up));
  if (const auto* discs = std::get_if<models::DiscBrush>(&setup.brush))
    warn_of_discs(setup, *discs, fed);
}

}  // namespace

BrushSetup brush_setup(const cases::BrushStation& station, const cases::Case& scenario,
                       std::size_t index, std::vector<cases::Problem>& problems) {
  BrushSetup setup;
  setup.brush = models::worn(station.brush, station.wear);
  setup.penetration = models::penetration_left(station.penetration, station.wear);
  setup.with_feed = station.direction == cases::Direction::with_feed;
  setup.feed = scenario.conveyor.speed;
  setup.grain_diameter = station.grit ? station.grit->mean_diameter : 0.0;
  setup.wet = scenario.cooling == cases::Cooling::wet;
  // Tips that run as the part does rub at the difference of both speeds.
  const double tips = models::speed_left(station.brush, station.wear, station.speed);
  setup.speed = std::max(setup.with_feed ? tips - setup.feed : tips + setup.feed, 0.0);
  setup.second_of_pair = station.roller_of_pair == 2;
  // Of discs the feed comes off place by place.
  if (std::holds_alternative<models::DiscBrush>(setup.brush)) setup.speed = tips;
  set_removal(setup, station, scenario.part);
  setup.modulus_low = station.modulus_band.low;
  setup.modulus_high = station.modulus_band.high;
  setup.fill_low = station.fill_band.low;
  setup.fill_high = station.fill_band.high;
  const RootMetal metal = root_metal(scenario.part.material.family);
  setup.sheet_modulus = metal.modulus;
  setup.fracture_ductility = metal.fracture_ductility;
  setup.description = describe(station);
  check_limits_of_law(setup, station, scenario.file, index, problems);
  check_discs(setup, station, scenario.file, index, problems);
  warn(setup, station, fed_width(scenario));
  return setup;
}

double working_penetration(const BrushSetup& station) {
  return std::clamp(station.penetration + station.interference_offset, 0.0, deepest(station.brush));
}

void scale_removal(BrushSetup& station, double factor) {
  for (models::Preston* law : {&station.base, &station.coating, &station.top})
    law->coefficient *= factor;
}

}  // namespace drumlin::sim
