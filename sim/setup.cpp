#include "sim/setup.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "models/elastomer/hardness.hpp"
#include "models/removal/lands.hpp"
#include "sim/belt_wear.hpp"
#include "sim/brush/brush_setup.hpp"
#include "sim/drum_state.hpp"
#include "sim/names.hpp"

namespace drumlin::sim {
namespace {

/// A modulus that somebody measured (common practice, no source).
constexpr double modulus_band = 0.10;
/// Effective Poisson's ratio of bonded covers, 0.45 to 0.49 (common practice, no source): two
/// hundredths either way, short of incompressible.
constexpr double poisson_band = 0.02;
constexpr double most_poisson = 0.4999;

/// Finest grain compliance that is solved as it is [mm/MPa]: a belt that bends over grains that do
/// not give at all would press with point forces no grid resolves. 0.05 um at 1 MPa is less than
/// the roughness of any belt; the line load moves by less than 1e-4, burr heights by 0.1 um.
constexpr double least_grain_compliance = 2e-4;

/// The library's relative band laid around a value that the case gives.
struct Band {
  double low;
  double high;
};
Band scaled(const cases::Sourced& library, double value) {
  if (library.value <= 0.0) return {value, value};
  return {value * library.low / library.value, value * library.high / library.value};
}

/// K = mu / u; mu and u spread independently, so their bands add in quadrature of logarithms.
LayerLaw layer_law(const cases::Material& material, const cases::BeltStation& station,
                   const cases::Sourced& friction) {
  const cases::Belt& belt = station.belt;
  const double land_ratio = station.drum.land_ratio;
  const cases::Sourced& energy = material.specific_energy;
  LayerLaw layer;
  layer.material = material.name;
  layer.origin = "mu/u from the material library";
  layer.coefficient = friction.value / energy.value;
  const auto named = belt.removal_coefficients.find(material.name);
  if (belt.removal_coefficient) {
    layer.coefficient = *belt.removal_coefficient;
    layer.origin = "the case, every layer alike";
  } else if (named != belt.removal_coefficients.end()) {
    layer.coefficient = named->second;
    layer.origin = "the case";
  }
  const double up =
      std::hypot(std::log(friction.high / friction.value), std::log(energy.value / energy.low));
  const double down =
      std::hypot(std::log(friction.value / friction.low), std::log(energy.high / energy.value));
  layer.coefficient_low = layer.coefficient * std::exp(-down);
  layer.coefficient_high = layer.coefficient * std::exp(up);
  layer.clogging = material.clogging ? material.clogging->value : 0.0;
  layer.law = belt.removal_law;
  std::visit(
      [&](auto& law) {
        law.coefficient = layer.coefficient;
        law.threshold = belt.threshold_pressure;
      },
      layer.law);
  layer.law = models::on_lands(layer.law, land_ratio);
  return layer;
}

std::string describe(const cases::BeltStation& station) {
  const std::string cover = station.drum.hardness
                                ? fmt::format("{:.4g} Shore A", *station.drum.hardness)
                                : fmt::format("E {:.4g} MPa", *station.drum.modulus);
  const std::string setting =
      std::holds_alternative<cases::InterferenceSetting>(station.setting)
          ? fmt::format("{:.4g} mm interference",
                        std::get<cases::InterferenceSetting>(station.setting).interference)
          : fmt::format("{:.4g} N/mm working line load",
                        std::get<cases::LineLoadSetting>(station.setting).line_load);
  return fmt::format("belt {} on {} drum R {:.4g} mm, cover {:.4g} mm, {}, {:.4g} m/s {}",
                     station.belt.grit.designation, cover, station.drum.radius, station.drum.cover,
                     setting, station.speed / 1000.0, to_text(station.direction));
}

void set_bands(BeltSetup& setup, const cases::BeltStation& station) {
  const cases::Belt& belt = station.belt;
  if (station.drum.modulus) {
    setup.modulus_low = setup.cover.modulus * (1.0 - modulus_band);
    setup.modulus_high = setup.cover.modulus * (1.0 + modulus_band);
  } else {
    const auto band = models::published_modulus_band(*station.drum.hardness);
    setup.modulus_low = band.low;
    setup.modulus_high = band.high;
  }
  setup.poisson_low = std::max(setup.cover.poisson_ratio - poisson_band, 0.0);
  setup.poisson_high = std::min(setup.cover.poisson_ratio + poisson_band, most_poisson);
  const Band bending = scaled(belt.backing.bending_stiffness, belt.bending_stiffness);
  setup.bending_low = bending.low;
  setup.bending_high = bending.high;
  const Band threshold = scaled(belt.abrasive.threshold_pressure, belt.threshold_pressure);
  setup.threshold_low = threshold.low;
  setup.threshold_high = threshold.high;
  const Band grain = scaled(belt.grit.grain_compliance, belt.grain_compliance);
  setup.grain_low = std::max(grain.low, least_grain_compliance);
  setup.grain_high = std::max(grain.high, least_grain_compliance);
  const Band loss = scaled(station.drum.loss_factor_band, station.drum.loss_factor);
  setup.loss_low = loss.low;
  setup.loss_high = loss.high;
  setup.mass_low = belt.mass_band.low;
  setup.mass_high = belt.mass_band.high;
  setup.spacing_low = belt.grain_spacing_band.low;
  setup.spacing_high = belt.grain_spacing_band.high;
  setup.expansion_low = station.drum.thermal_expansion_band.low;
  setup.expansion_high = station.drum.thermal_expansion_band.high;
  setup.frame_low = station.frame_compliance_band.low;
  setup.frame_high = station.frame_compliance_band.high;
}

Options options_of(const cases::Numerics& numerics) {
  return {.curved = numerics.cover_geometry == "drum",
          .moving = numerics.cover_motion == "moving",
          .gripped = numerics.belt_grip == "stick",
          .finite_strain = numerics.cover_strain == "finite"};
}

/// A cover at rest is taken as the durometer finds it.
models::AnyRelaxation relaxation_of(const cases::Drum& drum, const Options& options) {
  if (!options.moving) return models::RateIndependent{};
  if (drum.relaxation) return *drum.relaxation;
  if (drum.cover_material) return drum.cover_material->relaxation;
  if (drum.loss_factor > 0.0) return models::ConstantLoss{drum.loss_factor};
  return models::RateIndependent{};
}

/// What makes a drum at work another than the one that the durometer measures.
void set_drum(BeltSetup& setup, const cases::BeltStation& station) {
  const cases::Drum& drum = station.drum;
  // A worn cover is thinner, and so is the drum.
  setup.radius = drum.radius - drum.wear;
  setup.density = drum.density;
  setup.relaxation = relaxation_of(drum, setup.options);
  setup.compound = drum.cover_material;
  setup.belt_mass = station.belt.mass;
  setup.thermal_expansion = drum.thermal_expansion;
  setup.temperature_given = drum.temperature.has_value();
  set_temperature_rise(setup, drum.temperature.value_or(cases::durometer_temperature) -
                                  cases::durometer_temperature);
  setup.frame_compliance = station.frame_compliance;
  setup.land_ratio = drum.land_ratio;
  setup.land_pitch = drum.land_pitch;
  setup.run_out = station.run_out;
  setup.with_feed = station.direction == cases::Direction::with_feed;
  // Since the drum was set: a thicker belt reaches deeper, a worn cover falls short.
  setup.interference_offset = station.belt.thickness_change - drum.wear;
}

/// A belt that bends over rigid grains would press with point forces.
void raise_grain_compliance(BeltSetup& setup) {
  const bool stiff = setup.belt.bending_stiffness > 0.0 || setup.belt.tension > 0.0;
  if (!stiff || setup.belt.grain_compliance >= least_grain_compliance) return;
  setup.warnings.push_back(
      fmt::format("grain compliance {:.3g} mm/MPa is solved as {:.3g} mm/MPa: a bending belt on "
                  "rigid grains would press with point forces; peak pressures depend on it",
                  setup.belt.grain_compliance, least_grain_compliance));
  setup.belt.grain_compliance = least_grain_compliance;
}

BeltSetup belt_setup(const cases::BeltStation& station, const cases::Case& scenario) {
  BeltSetup setup;
  setup.options = options_of(scenario.numerics);
  setup.cover = {.thickness = station.drum.cover - station.drum.wear,
                 .modulus = station.drum.modulus ? *station.drum.modulus
                                                 : models::gent_modulus(*station.drum.hardness),
                 .poisson_ratio = station.drum.poisson_ratio};
  setup.belt = {.bending_stiffness = station.belt.bending_stiffness,
                .tension = station.belt.tension,
                .grain_compliance = station.belt.grain_compliance};
  raise_grain_compliance(setup);
  setup.setting = station.setting;
  setup.belt_speed = station.speed;
  setup.feed = scenario.conveyor.speed;
  // With the feed the belt at the nip runs the way the part does, so the part takes its own speed
  // off the sliding; against the feed it adds to it.
  setup.sliding_speed = station.direction == cases::Direction::with_feed
                            ? station.speed - scenario.conveyor.speed
                            : station.speed + scenario.conveyor.speed;
  set_drum(setup, station);
  const cases::Sourced& friction = scenario.cooling == cases::Cooling::wet
                                       ? station.belt.abrasive.friction_wet
                                       : station.belt.abrasive.friction;
  setup.friction = friction.value;
  setup.substrate = layer_law(scenario.part.material, station, friction);
  setup.coating = scenario.part.coating
                      ? layer_law(scenario.part.coating->material, station, friction)
                      : setup.substrate;
  setup.top = scenario.part.coating && scenario.part.coating->top
                  ? layer_law(scenario.part.coating->top->material, station, friction)
                  : setup.coating;
  setup.specific_energy = scenario.part.material.specific_energy.value;
  setup.grain_spacing = station.belt.grain_spacing;
  setup.wet = scenario.cooling == cases::Cooling::wet;
  setup.wear = wear_of(station.belt, setup.wet);
  setup.description = describe(station);
  set_bands(setup, station);
  setup.speed_ratio = rayleigh_ratio(setup, estimated_interference(setup));
  return setup;
}

}  // namespace

void scale_removal(LayerLaw& layer, double factor) {
  std::visit([&](auto& law) { law.coefficient *= factor; }, layer.law);
  layer.coefficient *= factor;
}

void set_feed(Setup& setup, double feed) {
  const double faster = feed - setup.scenario.conveyor.speed;
  setup.scenario.conveyor.speed = feed;
  for (auto& station : setup.stations) {
    if (auto* belt = std::get_if<BeltSetup>(&station)) {
      belt->feed = feed;
      belt->sliding_speed += belt->with_feed ? -faster : faster;
    } else if (auto* brush = std::get_if<BrushSetup>(&station)) {
      brush->feed = feed;
      brush->speed = std::max(brush->speed + (brush->with_feed ? -faster : faster), 0.0);
    }
  }
}

void deepen(StationSetup& station, double offset) {
  if (auto* belt = std::get_if<BeltSetup>(&station)) belt->interference_offset += offset;
  if (auto* brush = std::get_if<BrushSetup>(&station)) brush->interference_offset += offset;
}

Setup set_up(cases::Case scenario) {
  Setup setup;
  std::vector<cases::Problem> problems;
  for (const auto& station : scenario.stations) {
    const std::size_t index = cases::index_in_file(scenario.stations, setup.stations.size());
    if (const auto* belt = std::get_if<cases::BeltStation>(&station)) {
      BeltSetup joined = belt_setup(*belt, scenario);
      check_speed(joined, *belt, scenario.file, index, problems);
      setup.stations.emplace_back(std::move(joined));
    } else if (const auto* brush = std::get_if<cases::BrushStation>(&station)) {
      setup.stations.emplace_back(brush_setup(*brush, scenario, index, problems));
    } else if (const auto* tool = std::get_if<cases::KnockOffStation>(&station)) {
      setup.stations.emplace_back(
          KnockOffSetup{.clearance = tool->clearance,
                        .line_force = tool->line_force,
                        .description = fmt::format("knock-off, clearance {:.4g} mm, {:.4g} N/mm",
                                                   tool->clearance, tool->line_force)});
    } else {
      setup.stations.emplace_back(FlipSetup{.description = "part turned over"});
    }
  }
  if (!problems.empty()) throw cases::CaseError(std::move(problems));
  const cases::Part& part = scenario.part;
  if (part.set_thickness || part.lift != 0.0)
    for (StationSetup& station : setup.stations)
      deepen(station, part.thickness - part.set_thickness.value_or(part.thickness) + part.lift);
  setup.heat = heat_setup(scenario);
  setup.scenario = std::move(scenario);
  return setup;
}

bool removes_in_proportion(const BeltSetup& station) {
  const auto straight = [](const LayerLaw& layer) {
    const auto* law = std::get_if<models::Preston>(&layer.law);
    return law != nullptr && law->threshold <= 0.0;
  };
  return straight(station.substrate) && straight(station.coating) && straight(station.top);
}

}  // namespace drumlin::sim
