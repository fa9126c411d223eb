#include "models/finish/roughness.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drumlin::models {
namespace {

double density(double t) noexcept {
  return std::exp(-0.5 * t * t) * std::numbers::inv_sqrtpi / std::numbers::sqrt2;
}

/// 1 - Phi(t).
double upper_tail(double t) noexcept {
  return 0.5 * std::erfc(t / std::numbers::sqrt2);
}

/// Mean height above t of a standard normal profile: phi(t) - t (1 - Phi(t)), falling from
/// infinity to 0.
double cut_above(double t) noexcept {
  return density(t) - t * upper_tail(t);
}

double deviation(double roughness) noexcept {
  return std::sqrt(0.5 * std::numbers::pi) * roughness;
}

}  // namespace

double belt_roughness(const Scoring& scoring) noexcept {
  constexpr double reference = 1.42e-3;  // [mm] at d 0.1 mm, 0.1 MPa, 20 m/s, fresh, dry
  const double wet = scoring.wet ? 0.8 : 1.0;
  return reference * std::pow(scoring.grain_diameter / 0.1, 1.04) *
         std::pow(scoring.pressure / 0.1, 0.25) * std::pow(scoring.speed / 2e4, -0.2) *
         std::pow(scoring.sharpness, 0.3) * wet;
}

double worn_roughness(double before, double removed) noexcept {
  if (before <= 0.0 || removed <= 0.0) return before;
  const double sigma = deviation(before);
  return 2.0 * sigma * std::max(cut_above(removed / sigma), 0.0);
}

double untouched_share(double before, double removed) noexcept {
  if (removed <= 0.0) return 1.0;
  if (before <= 0.0) return 0.0;
  const double wanted = removed / deviation(before);
  // Newton on a convex falling function from its left: every step stays on the left.
  double t = -wanted - 1.0;
  for (int i = 0; i < 100; ++i) {
    const double step = (cut_above(t) - wanted) / upper_tail(t);
    t += step;
    if (std::abs(step) < 1e-12) break;
  }
  return 1.0 - upper_tail(t);
}

ScoredFace scored_face(double before, double scored, double removed) noexcept {
  const double grooves = scored > 0.0 ? std::min(1.0, removed / (2.0 * scored)) : 1.0;
  const double fresh = std::min(scored, 2.0 * removed);
  return {.roughness = std::hypot(worn_roughness(before, removed), fresh),
          .covered = grooves * (1.0 - untouched_share(before, removed))};
}

}  // namespace drumlin::models
