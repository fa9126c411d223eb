#include <algorithm>
#include <cmath>

#include "models/elastomer/finite_strain.hpp"
#include "models/elastomer/growth.hpp"
#include "models/elastomer/softening.hpp"
#include "sim/drum_state.hpp"
#include "sim/setup.hpp"

namespace drumlin::sim {
namespace {

/// log10 a_T of a measured compound [-], straight between the measured temperatures and not beyond
/// them.
double log10_shift(const cases::CoverMaterial& compound, double temperature) {
  const auto& shifts = compound.shifts;
  if (shifts.empty()) return 0.0;
  if (temperature <= shifts.front().temperature) return shifts.front().log10_shift;
  const auto above = std::find_if(shifts.begin(), shifts.end(), [&](const cases::ShiftPoint& p) {
    return p.temperature >= temperature;
  });
  if (above == shifts.end()) return shifts.back().log10_shift;
  const cases::ShiftPoint& below = *(above - 1);
  const double share = (temperature - below.temperature) / (above->temperature - below.temperature);
  return below.log10_shift + share * (above->log10_shift - below.log10_shift);
}

/// The compound's series at a temperature [K].
models::PronySeries shifted(const cases::CoverMaterial& compound, double temperature) {
  models::PronySeries series = compound.relaxation;
  series.time_shift = std::pow(10.0, log10_shift(compound, temperature));
  return series;
}

/// What is left of the shear modulus when a durometer is read, G(3 s) [MPa].
double modulus_when_read(const models::PronySeries& series) {
  double modulus = series.relaxed;
  for (const models::PronyTerm& term : series.terms)
    modulus += term.modulus * std::exp(-models::durometer_time / (term.time * series.time_shift));
  return modulus;
}

double depth_of(const BeltSetup& station, double interference) {
  return std::max(interference, 0.0) / station.cover.thickness;
}

/// Layer with everything on its modulus but the rate.
models::BondedLayer working_layer(const BeltSetup& station, double interference) {
  models::BondedLayer layer = station.cover;
  layer.modulus *= station.softening * strain_softening_of(station, interference);
  if (station.options.finite_strain) layer.modulus *= finite_strain_of(station, interference);
  return layer;
}

}  // namespace

double finite_strain_of(const BeltSetup& station, double interference) {
  return models::finite_strain_factor(depth_of(station, interference), station.cover.poisson_ratio,
                                      station.radius / station.cover.thickness);
}

double strain_softening_of(const BeltSetup& station, double interference) {
  if (!station.options.moving ||
      std::holds_alternative<models::RateIndependent>(station.relaxation))
    return 1.0;
  return station.strain_softening.value_or(
      models::strain_softening(depth_of(station, interference)));
}

void set_temperature_rise(BeltSetup& station, double rise) {
  station.temperature_rise = rise;
  if (!station.compound) {
    station.softening = models::temperature_softening(rise, station.softening_rate);
    return;
  }
  const models::PronySeries warm = shifted(*station.compound, cases::durometer_temperature + rise);
  const models::PronySeries read = shifted(*station.compound, cases::durometer_temperature);
  station.softening = modulus_when_read(warm) / modulus_when_read(read);
  if (std::holds_alternative<models::PronySeries>(station.relaxation)) station.relaxation = warm;
}

models::BeltOnCover nip_of(const BeltSetup& station, double interference) {
  models::BeltOnCover nip;
  nip.cover.layer = working_layer(station, interference);
  nip.cover.curvature = station.options.curved ? 1.0 / station.radius : 0.0;
  nip.belt = station.belt;
  nip.belt.grain_compliance = 0.0;
  nip.belt.tension = tension_at_speed(station);
  nip.grip = station.options.gripped ? models::Grip::stick : models::Grip::slip;
  if (!station.options.moving) return nip;
  nip.cover.speed = station.with_feed ? station.belt_speed : -station.belt_speed;
  nip.cover.density = station.density * inertia_share(station, interference);
  nip.cover.relaxation = station.relaxation;
  return nip;
}

double cover_growth(const BeltSetup& station) {
  const double warm =
      models::thermal_growth(station.cover, station.thermal_expansion, station.temperature_rise);
  if (!station.options.moving) return warm;
  models::BondedLayer layer = station.cover;
  layer.modulus *= station.softening;
  return warm +
         models::centrifugal_growth(layer, station.density, station.radius, station.belt_speed);
}

}  // namespace drumlin::sim
