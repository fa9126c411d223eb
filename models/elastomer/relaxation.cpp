#include "models/elastomer/relaxation.hpp"

#include <cmath>
#include <numbers>

namespace drumlin::models {
namespace {

std::complex<double> ratio(const RateIndependent& /*law*/, double /*omega*/) {
  return 1.0;
}

std::complex<double> ratio(const ConstantLoss& law, double omega) {
  const double n = 2.0 / std::numbers::pi * std::atan(law.loss_factor);
  const double size = std::tgamma(1.0 - n) * std::pow(omega * durometer_time, n);
  return std::polar(size, 0.5 * std::numbers::pi * n);
}

std::complex<double> ratio(const PronySeries& law, double omega) {
  double after_reading = law.relaxed;
  double storage = law.relaxed;
  double loss = 0.0;
  for (const PronyTerm& term : law.terms) {
    const double tau = term.time * law.time_shift;
    after_reading += term.modulus * std::exp(-durometer_time / tau);
    const double x = omega * tau;
    const double share = term.modulus / (1.0 + x * x);
    storage += share * x * x;
    loss += share * x;
  }
  return {storage / after_reading, loss / after_reading};
}

}  // namespace

std::complex<double> modulus_ratio(const AnyRelaxation& law, double omega) {
  if (omega == 0.0) return 1.0;
  if (omega < 0.0) return std::conj(modulus_ratio(law, -omega));
  return std::visit([&](const auto& any) { return ratio(any, omega); }, law);
}

}  // namespace drumlin::models
