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
  // R (1 - cos(s/R)) without the cancellation of small arcs.
  const double half = std::sin(0.5 * arc / radius);
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

Symbol Drum::compliance() const {
  return [smooth = belt_and_cover(), grains = grain_compliance()](double q) {
    return smooth(q) + grains;
  };
}

Tilt Drum::tilt(double half_span, double window) const {
  if (!station_->options.curved) return {};
  return {[nip = nip_](double q) { return nip.remainder(q); }, station_->radius, half_span, window};
}

double Drum::grain_compliance() const noexcept {
  return station_->belt.grain_compliance;
}

double Drum::bending_stiffness() const noexcept {
  return station_->belt.bending_stiffness;
}

}  // namespace drumlin::sim::line
