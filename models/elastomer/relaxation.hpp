#pragma once

#include <complex>
#include <string>
#include <variant>
#include <vector>

namespace drumlin::models {

/// When the durometer is read after it touches [s], ISO 48-4 for vulcanised rubber: the moment at
/// which hardness gives the modulus.
inline constexpr double durometer_time = 3.0;

/// Modulus that does not depend on rate.
struct RateIndependent {};

/// Modulus with the same loss factor at every rate: G(t) = G(3 s) (t / 3 s)^-n, so
/// G*(omega) = G(3 s) Gamma(1 - n) (i omega 3 s)^n with n = (2/pi) atan(loss factor).
struct ConstantLoss {
  double loss_factor = 0;  ///< tan delta [-], >= 0
};

struct PronyTerm {
  double time = 0;     ///< tau_i [s], > 0
  double modulus = 0;  ///< G_i [MPa], >= 0

  [[nodiscard]] bool operator==(const PronyTerm&) const = default;
};

/// Measured relaxation, G(t) = G_inf + sum G_i exp(-t / tau_i); only its shape counts, the scale is
/// set by the hardness.
struct PronySeries {
  std::string name;
  double relaxed = 0;  ///< G_inf [MPa], > 0
  std::vector<PronyTerm> terms;
  double time_shift = 1;  ///< a_T [-]: times are multiplied by it (1 at the series' temperature)

  [[nodiscard]] bool operator==(const PronySeries&) const = default;
};

/// Registration: a new law adds its struct and its name here.
using AnyRelaxation = std::variant<RateIndependent, ConstantLoss, PronySeries>;

/// G*(omega) / G(3 s) [-]: how much stiffer, and how lossy, the cover is at an angular frequency
/// than the durometer says.
///
/// @param omega  [rad/s]; negative gives the conjugate, 0 the modulus after 3 s (the durometer's
/// own
///               state: a drum at rest is taken as the durometer finds it).
[[nodiscard]] std::complex<double> modulus_ratio(const AnyRelaxation& law, double omega);

}  // namespace drumlin::models
