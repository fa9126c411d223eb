#pragma once

#include <array>
#include <cmath>
#include <string_view>

#include "models/key.hpp"

namespace drumlin::models {

/// Removal that rises faster than pressure while more and more grains begin to cut, and slower than
/// pressure once they are all at work:
///
///     r(p) = K x (x / p_r)^(m - 1) ((p_s + x) / (p_s + p_r))^(n - m),   x = (p - p_th)+.
///
/// Exponent m of x far below the saturation pressure p_s, n far above it. K is that of Preston's
/// line through the curve at x = p_r, so that K = mu / u holds there. m = n = 1 is Preston's law.
/// Published exponents of force for belts: 2.1 to 2.5 at low pressure (open measurements, P120 on
/// plate edges), 0.93 (plywood edges), 0.55 (a belt on a polyurethane wheel, saturated; Pandiyan et
/// al. 2020, Symmetry 12, 99, second-hand). One exponent does not cover them; a threshold with
/// saturation does. The form is ours.
///
/// For x below a thousandth of p_r the curve is replaced by its chord through the origin, so that
/// an m below 1 has a finite slope there and an m above 1 one above zero.
struct ThresholdPower {
  static constexpr std::string_view name = "power";

  double coefficient = 0;            ///< K [1/MPa], >= 0
  double threshold = 0;              ///< p_th [MPa], >= 0
  double exponent = 1.5;             ///< m [-], > 0
  double reference_pressure = 0.1;   ///< p_r [MPa], > 0
  double saturation_pressure = 100;  ///< p_s [MPa], > 0
  double saturated_exponent = 0.7;   ///< n [-], >= 0

  /// Removed depth per sliding path [-] at pressure p [MPa], p >= 0.
  [[nodiscard]] double per_path(double p) const noexcept {
    const double x = p - threshold;
    if (x <= 0.0) return 0.0;
    const double least = smallest();
    return x < least ? curve(least) * (x / least) : curve(x);
  }
  /// d(per_path)/dp [1/MPa]; zero up to and at the threshold.
  [[nodiscard]] double slope(double p) const noexcept {
    const double x = p - threshold;
    if (x <= 0.0) return 0.0;
    const double least = smallest();
    if (x < least) return curve(least) / least;
    return curve(x) * (exponent * saturation_pressure + saturated_exponent * x) /
           (x * (saturation_pressure + x));
  }

  static constexpr auto keys();

  [[nodiscard]] bool operator==(const ThresholdPower&) const = default;

 private:
  [[nodiscard]] double smallest() const noexcept { return 1e-3 * reference_pressure; }
  [[nodiscard]] double curve(double x) const noexcept {
    return coefficient * x * std::pow(x / reference_pressure, exponent - 1.0) *
           std::pow((saturation_pressure + x) / (saturation_pressure + reference_pressure),
                    saturated_exponent - exponent);
  }
};

constexpr auto ThresholdPower::keys() {
  return std::to_array<Key<ThresholdPower>>({
      {"removal_coefficient", &ThresholdPower::coefficient, dimension::per_pressure, 0, 1e-1,
       "removed depth per pressure and sliding path, at the reference pressure"},
      {"threshold_pressure", &ThresholdPower::threshold, dimension::pressure, 0, 10,
       "pressure below which grains rub without cutting"},
      {"pressure_exponent", &ThresholdPower::exponent, dimension::number, 0.2, 4,
       "power of the pressure over the threshold, far below saturation"},
      {"reference_pressure", &ThresholdPower::reference_pressure, dimension::pressure, 1e-3, 100,
       "pressure at which the removal coefficient holds"},
      {"saturation_pressure", &ThresholdPower::saturation_pressure, dimension::pressure, 1e-3, 1e6,
       "pressure above which all grains are at work"},
      {"saturated_exponent", &ThresholdPower::saturated_exponent, dimension::number, 0, 4,
       "power of the pressure far above saturation"},
  });
}

}  // namespace drumlin::models
