#include "sim/drum_state.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <fmt/format.h>

#include "models/belt/critical_speed.hpp"
#include "models/elastomer/waves.hpp"
#include "models/line/belt_tension.hpp"
#include "sim/answer.hpp"

namespace drumlin::sim {
namespace {

/// Heat that rubber takes up, c_p = 1.9 kJ/(kg K) [mJ/(t K)] (from memory).
constexpr double specific_heat = 1.9e9;
/// Heat that a turning drum hands to the air, h = 50 W/(m^2 K), 20 to 100 [mW/(mm^2 K)] (common
/// practice, no source).
constexpr double air_film = 0.05;
constexpr double least_air_film = 0.02;
constexpr double most_air_film = 0.10;

/// Share of the cover's Rayleigh speed below which no belt is near its critical speed: a belt's
/// mass slows waves by three tenths at most (slack, very flexible belt of 1.8 kg/m2 on 60 Shore A),
/// and nine tenths of what is left is 0.63.
constexpr double far_from_critical = 0.6;

/// Storage modulus at a frequency [rad/s] over the durometer's [-].
double stiffening_at(const BeltSetup& station, double frequency, double interference) {
  if (!station.options.moving) return station.softening;
  const double rate = models::modulus_ratio(station.relaxation, frequency).real();
  return rate * station.softening * strain_softening_of(station, interference);
}

void state_speed(const BeltSetup& station, double interference, StationResult& result) {
  const auto critical = critical_speed_of(station, interference);
  if (!critical) return;
  result.critical_speed = known(*critical);
  result.speed_ratio = known(station.belt_speed / *critical);
}

void state_motion(const BeltSetup& station, double interference, StationResult& result) {
  result.cover_growth = known(cover_growth(station));
  if (!station.options.moving) return;
  result.belt_tension_at_speed = known(tension_at_speed(station));
  if (result.half_width && result.half_width->value > 0.0)
    result.dynamic_stiffening = known(dynamic_stiffening(station, interference));
}

void state_lands(const BeltSetup& station, StationResult& result) {
  if (station.land_ratio >= 1.0) return;
  result.land_pressure_factor = known(1.0 / station.land_ratio);
  if (result.peak_pressure)
    result.land_pressure = known(result.peak_pressure->value / station.land_ratio);
  if (station.land_pitch)
    result.land_dwell = known(station.land_ratio * *station.land_pitch / station.sliding_speed);
}

/// Depth that a change of line load moves, r'(p) v / v_f [mm per N/mm], of the layer that is met
/// first: the steeper of the law at the nip's mean and at its peak, since both are in the nip.
double removal_per_load(const BeltSetup& station, const StationResult& result) {
  const Quantity& load = result.working_line_load ? result.working_line_load : result.line_load;
  const double mean = load ? 0.5 * load->value / result.half_width->value : 0.0;
  const double peak = result.peak_pressure ? result.peak_pressure->value : 0.0;
  const double slope =
      std::visit([&](const auto& law) { return std::max(law.slope(mean), law.slope(peak)); },
                 station.coating.law);
  return slope * station.sliding_speed / station.feed;
}

/// Run-out e turns into interference (e/2) cos(k x), k = 2 pi / pitch, and the nip averages it: the
/// face keeps (r' v / v_f) (e/2) |f(k)|, f the Fourier transform of dp/d(delta) over the nip. Of
/// all nips a flat punch on a half-space averages least, f = (dP'/d(delta)) J0(k a) (Johnson 1985,
/// ch. 2.8), and |J0(x)| < sqrt(2 / (pi x)): peak to peak at most e (r' v / v_f) dP'/d(delta) times
/// that.
void state_ripple(const BeltSetup& station, StationResult& result) {
  const double pitch = 2.0 * std::numbers::pi * station.radius * station.feed / station.belt_speed;
  result.ripple_pitch = known(pitch);
  if (station.run_out <= 0.0 || !result.line_load_slope || !result.half_width) return;
  const double waves = 2.0 * std::numbers::pi / pitch * result.half_width->value;
  if (!(waves > 0.0)) return;
  const double kept = std::min(1.0, std::sqrt(2.0 / (std::numbers::pi * waves)));
  result.ripple_height = known(station.run_out * removal_per_load(station, result) *
                               result.line_load_slope->value * kept);
}

/// Rolling loss spread evenly over the cover.
void state_heat(const BeltSetup& station, StationResult& result) {
  if (!result.rolling_loss) return;
  const double loss = result.rolling_loss->value;
  const double thickness = station.cover.thickness;
  const double section = std::numbers::pi * thickness * (2.0 * station.radius - thickness);
  const double surface = 2.0 * std::numbers::pi * station.radius;
  result.cover_heating_rate = known(loss / (station.density * specific_heat * section));
  result.cover_heating = Banded{.value = loss / (air_film * surface),
                                .low = loss / (most_air_film * surface),
                                .high = loss / (least_air_film * surface)};
}

}  // namespace

double tension_at_speed(const BeltSetup& station) {
  if (!station.options.moving) return station.belt.tension;
  const double taken = models::centrifugal_tension(station.belt_mass, station.belt_speed);
  return std::max(0.0, station.belt.tension - taken);
}

double nip_frequency(const BeltSetup& station, double interference) {
  // A drum that only just touches works on a strip of a hundredth of its cover's thickness or so.
  const double depth = std::max(interference, 1e-3 * station.cover.thickness);
  return station.belt_speed / std::sqrt(1.5 * station.radius * depth);
}

double dynamic_stiffening(const BeltSetup& station, double interference) {
  return stiffening_at(station, nip_frequency(station, interference), interference);
}

std::optional<double> critical_speed_of(const BeltSetup& station, double interference) {
  models::BeltOnCover at_rest;
  at_rest.cover.layer = station.cover;
  at_rest.cover.density = station.density;
  at_rest.belt = station.belt;
  at_rest.belt.grain_compliance = 0.0;
  at_rest.grip = station.options.gripped ? models::Grip::stick : models::Grip::slip;
  const double first = dynamic_stiffening(station, interference);
  const auto wave = models::critical_speed(at_rest, station.belt_mass, first);
  if (!wave) return std::nullopt;
  const bool one_modulus = !station.options.moving ||
                           std::holds_alternative<models::RateIndependent>(station.relaxation);
  if (one_modulus) return wave->speed;
  // The wave is shorter than the nip and meets a stiffer cover; once is enough, since a modulus
  // that changes by a tenth moves the frequency by a twentieth and that the modulus by half a per
  // cent.
  const double again = stiffening_at(station, wave->wave_number * wave->speed, interference);
  const auto closer = models::critical_speed(at_rest, station.belt_mass, again);
  return closer ? std::optional<double>(closer->speed) : std::nullopt;
}

double rayleigh_ratio(const BeltSetup& station, double interference) {
  models::BondedLayer layer = station.cover;
  layer.modulus *= dynamic_stiffening(station, interference);
  return station.belt_speed / models::rayleigh_wave_speed(layer, station.density);
}

double inertia_share(const BeltSetup& station, double interference) {
  if (!station.options.moving || station.below_critical) return 1.0;
  if (rayleigh_ratio(station, interference) < far_from_critical) return 1.0;
  const auto critical = critical_speed_of(station, interference);
  double most = critical ? most_inertia * *critical : std::numeric_limits<double>::infinity();
  // A cover without any loss has undamped waves of its own from its Rayleigh speed on, even under a
  // belt that outruns them.
  if (std::holds_alternative<models::RateIndependent>(station.relaxation)) {
    most =
        std::min(most, most_inertia * station.belt_speed / rayleigh_ratio(station, interference));
  }
  if (station.belt_speed <= most) return 1.0;
  return most * most / (station.belt_speed * station.belt_speed);
}

std::optional<double> highest_speed(const BeltSetup& station, double interference) {
  BeltSetup stiffest = station;
  stiffest.cover.modulus = std::max(station.modulus_high, station.cover.modulus);
  stiffest.strain_softening = 1.0;
  if (std::holds_alternative<models::ConstantLoss>(station.relaxation))
    stiffest.relaxation = models::ConstantLoss{station.loss_high};
  return critical_speed_of(stiffest, interference);
}

double estimated_interference(const BeltSetup& station) {
  if (const auto* depth = std::get_if<cases::InterferenceSetting>(&station.setting))
    return depth->interference;
  // Half-space: a^2 = 4 P' R / (pi E*), delta about a^2 / R.
  const double load = std::get<cases::LineLoadSetting>(station.setting).line_load;
  return 4.0 * load / (std::numbers::pi * models::plane_strain_modulus(station.cover));
}

void check_speed(const BeltSetup& setup, const cases::BeltStation& station, const std::string& file,
                 std::size_t index, std::vector<cases::Problem>& problems) {
  if (!setup.options.moving) return;
  const double depth = estimated_interference(setup);
  if (setup.speed_ratio < far_from_critical) return;
  const auto found = highest_speed(setup, depth);
  if (!found || setup.belt_speed <= *found) return;
  const double highest = *found;
  // Rounded down, so that what is proposed would do.
  const double proposal = std::floor(highest / 100.0) / 10.0;
  problems.push_back(
      {file, station.speed_place.line, station.speed_place.column,
       fmt::format("station[{}].speed", index),
       fmt::format("{:.4g} m/s is faster than waves run in this cover and belt even if the cover "
                   "is as stiff as its band allows (critical speed {:.1f} m/s; theory, no measured "
                   "onset): no steady contact; nearest speed that would do: \"{:.1f} m/s\", or "
                   "take a harder cover",
                   setup.belt_speed / 1000.0, highest / 1000.0, proposal)});
}

void state_drum(const BeltSetup& station, StationResult& result, bool waves) {
  if (result.interference && !result.effective_interference) {
    const Quantity& load = result.working_line_load ? result.working_line_load : result.line_load;
    const double give = load ? station.frame_compliance * load->value : 0.0;
    result.effective_interference = known(result.interference->value + cover_growth(station) +
                                          station.interference_offset - give);
  }
  const double interference = result.effective_interference ? result.effective_interference->value
                                                            : estimated_interference(station);
  if (waves) state_speed(station, interference, result);
  state_motion(station, interference, result);
  state_lands(station, result);
  state_ripple(station, result);
  state_heat(station, result);
}

}  // namespace drumlin::sim
