#include "models/brush/lip_fatigue.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <boost/math/tools/roots.hpp>

namespace drumlin::models {
namespace {

using std::numbers::pi;

constexpr double first_bend = 0.25;  // cycles: a quarter of one is the pull of a tensile test
constexpr double countless = 1e12;

double plane_strain(const LipMetal& metal) {
  constexpr double poisson = 0.3;  // of every sheet metal within 0.03
  return metal.modulus / (1.0 - poisson * poisson);
}

double plate_stiffness(const Lip& lip, const LipMetal& metal) {
  return plane_strain(metal) * std::pow(lip.thickness, 3) / 12.0;
}

}  // namespace

double strain_range(const LipMetal& metal, double cycles) noexcept {
  return 3.5 * metal.tensile_strength / metal.modulus * std::pow(cycles, -0.12) +
         std::pow(metal.fracture_ductility, 0.6) * std::pow(cycles, -0.6);
}

double cycles_to_break(const LipMetal& metal, double range) {
  if (range >= strain_range(metal, first_bend)) return first_bend;
  if (range <= strain_range(metal, countless)) return countless;
  std::uintmax_t iterations = 100;
  const auto [low, high] = boost::math::tools::toms748_solve(
      [&](double log_cycles) {
        return std::log(strain_range(metal, std::exp(log_cycles)) / range);
      },
      std::log(first_bend), std::log(countless), boost::math::tools::eps_tolerance<double>(40),
      iterations);
  return std::exp(0.5 * (low + high));
}

Strike strike_on(const Lip& lip, const LipMetal& metal, const Filament& filament, double incidence,
                 double speed, double force) noexcept {
  const double width = filament.diameter + 2.0 * lip.length;
  const double stiffness = 3.0 * plate_stiffness(lip, metal) * width / std::pow(lip.length, 3);
  const double line_mass = filament.density * section_area(filament);
  const double wave_mass = std::pow(0.5 * line_mass, 4.0 / 3.0) *
                           std::cbrt(bending_stiffness(filament) / line_mass / stiffness);
  const double mass = std::min(wave_mass, 33.0 / 140.0 * line_mass * filament.free_length);
  const double total = std::min(0.5 * pi, incidence + std::abs(0.5 * pi - lip.turn));
  const double across = speed * std::sin(total);
  return {force, 0.5 * mass * across * across, width};
}

Strike strike_on(const Lip& lip, const LipMetal& metal, const FilamentBrush& brush,
                 double penetration, double speed, double force) noexcept {
  const double depth = std::clamp(penetration / brush.radius, 0.0, 1.0);
  return strike_on(lip, metal, brush.filament, std::acos(1.0 - depth), speed, force);
}

LipBend bend_by(const Strike& strike, const Lip& lip, const LipMetal& metal,
                StrikeSense sense) noexcept {
  const double t = lip.thickness;
  const double L = lip.length;
  const double b = strike.width;
  const double stiffness = plate_stiffness(lip, metal);
  const double plastic = plastic_moment(metal.flow_stress, t);
  const double borne = strike.force * L / b;
  const double blow = std::sqrt(6.0 * stiffness * strike.energy / (b * L));
  LipBend bend{.moment = std::min(plastic, borne + blow)};
  constexpr double right_angle = 0.5 * pi;  // farther over, filaments pass it by
  if (borne >= plastic) {
    bend.turn = right_angle;
  } else if (borne + blow > plastic) {
    const double spare = plastic - borne;
    const double elastic = spare * spare * b * L / (6.0 * stiffness);
    bend.turn = std::min(right_angle, (strike.energy - elastic) / (spare * b));
  }
  const double elastic_strain = 6.0 * bend.moment / (plane_strain(metal) * t * t);
  const double plastic_strain = bend.turn * t / (2.0 * std::max(t, L / 3.0));
  bend.strain_range =
      sense == StrikeSense::reversed ? 2.0 * (elastic_strain + plastic_strain) : elastic_strain;
  return bend;
}

LipFatigue lip_fatigue(const Lip& lip, const LipMetal& metal, const Strike& strike,
                       StrikeSense sense, double strikes_per_length) {
  LipFatigue result{.bend = bend_by(strike, lip, metal, sense)};
  const double strikes_per_cycle = sense == StrikeSense::reversed ? 2.0 : 1.0;
  result.strikes_to_break = strikes_per_cycle * cycles_to_break(metal, result.bend.strain_range);
  result.strikes = strikes_per_length * strike.width;
  result.gone = result.strikes >= result.strikes_to_break;
  return result;
}

}  // namespace drumlin::models
