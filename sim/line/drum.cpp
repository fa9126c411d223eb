#include "sim/line/drum.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

namespace drumlin::sim::line {

Drum::Drum(const BeltSetup& station, double interference)
    : Drum(station, nip_of(station, interference)) {}

Drum::Drum(const BeltSetup& station, const models::BeltOnCover& nip)
    : station_(&station), cover_speed_(nip.cover.speed), nip_(nip) {}

double Drum::rise(double arc) const noexcept {
  const double radius = station_->radius;
  if (!station_->options.curved) return arc * arc / (2.0 * radius);
  // R (1 - cos(s/R)) without the cancellation of small arcs; four terms leave 1e-12 of it at 0.2.
  const double angle = arc / radius;
  const double square = angle * angle;
  if (square < 0.04) {
    return 0.5 * arc * angle *
           (1.0 - square / 12.0 * (1.0 - square / 30.0 * (1.0 - square / 56.0)));
  }
  const double half = std::sin(0.5 * angle);
  return 2.0 * radius * half * half;
}

Symbol Drum::belt_and_cover() const {
  if (!station_->options.curved) return nip_;
  // Next to q = 1/R, the whole circumference shifted sideways, a gripped drum's convolution alone
  // may dip below zero, where only the tilt counts; the solvers ask for a positive one.
  const models::BondedLayer& layer = station_->cover;
  const double shear_modulus = layer.modulus / (2.0 * (1.0 + layer.poisson_ratio));
  const double least = 1e-4 * layer.thickness / shear_modulus;
  const double long_waves = 8.0 / station_->radius;
  return [nip = nip_, least, long_waves](double q) {
    const std::complex<double> c = nip(q);
    if (q > long_waves) return c;
    return std::complex<double>(std::max({c.real(), least, 0.3 * std::abs(c.imag())}), c.imag());
  };
}

const LongWaves& Drum::long_waves(double window, double span) const {
  while (window < 2.0 * span)
    window *= 2.0;
  if (!long_waves_ || long_waves_->window() != window)
    long_waves_ = std::make_shared<LongWaves>(belt_and_cover(), window);
  return *long_waves_;
}

Symbol Drum::compliance() const {
  return [smooth = belt_and_cover(), grains = grain_compliance()](double q) {
    return smooth(q) + grains;
  };
}

Tilt Drum::tilt(double half_span, double window) const {
  if (!station_->options.curved) return {};
  return {[nip = nip_](double q) { return nip.remainder(q); }, station_->radius, half_span, window,
          station_->cover.thickness};
}

double Drum::grain_compliance() const noexcept {
  return station_->belt.grain_compliance;
}

double Drum::bending_stiffness() const noexcept {
  return station_->belt.bending_stiffness;
}

}  // namespace drumlin::sim::line
